import { byId, element } from "../dom.js";
import { exact } from "../numbers.js";
import { withValueAt } from "../path.js";
import { errorText } from "./table.js";

const USUAL = [180, 203];
/** Numbers are set larger than the drawings reckon with, mm. */
const ROOM_ABOVE = 6;

/**
 * Two rotors of the list: both side views at one scale, and the difference in words.
 * @param {{rotors: number[]}} options @param {() => void} changed
 */
export function sideBySideSearch(options, changed) {
  const selects = ["first-rotor", "second-rotor"].map((id) => /** @type {HTMLSelectElement} */ (byId(id)));
  for (const select of selects) select.addEventListener("change", changed);
  /** @type {number[]} */
  let offered = [];

  /** The two sizes chosen; the lists follow the list of rotors. */
  function sizes() {
    if (offered !== options.rotors) {
      const before = selects.map((select, index) => Number(select.value) || USUAL[index]);
      offered = options.rotors;
      selects.forEach((select, index) => {
        select.replaceChildren(...offered.map((size) => element("option", { value: String(size) }, `${exact(size)} mm`)));
        const fallback = offered.at(index === 0 ? 0 : -1);
        select.value = String(offered.includes(before[index]) ? before[index] : fallback);
      });
    }
    return selects.map((select) => Number(select.value));
  }

  return {
    get options() { return sizes(); },
    /** @type {import("./section.js").Search} */
    search: {
      calls(setup) {
        const [one, other] = sizes().map((size) => withValueAt(setup, "wheel.rotor_diameter", size));
        return [["drawing", one, "side"], ["drawing", other, "side"], ["compare", one, other]];
      },
      show(answers) {
        const wrong = answers.find((reply) => reply && !reply.ok);
        if (wrong) return [errorText(wrong.errors)];
        const [one, other, comparison] = answers;
        if (!comparison) return [];
        const sentences = comparison.answer.sentences.map((/** @type {string} */ sentence) => element("li", {}, sentence));
        return [pictures([one.svg, other.svg], sizes()), element("ul", { className: "sentences" }, ...sentences)];
      },
    },
  };
}

/** @param {string[]} texts @param {number[]} rotors */
function pictures(texts, rotors) {
  const drawings = texts.map((text, index) => ownNames(parsed(text), `pair-${index}`));
  const boxes = drawings.map((svg) => (svg.getAttribute("viewBox") ?? "").split(" ").map(Number));
  const shared = union(boxes);
  const place = element("div", { className: "pair" });
  drawings.forEach((svg, index) => {
    svg.setAttribute("viewBox", shared.join(" "));
    place.append(element("figure", {}, element("figcaption", {}, `Rotor ${exact(rotors[index])}`), svg));
  });
  new ResizeObserver(() => {
    const { width } = drawings[0].getBoundingClientRect();
    if (width > 0) place.style.setProperty("--mm-per-px", String(shared[2] / width));
  }).observe(place);
  return place;
}

/** @param {string} text */
function parsed(text) {
  return document.importNode(new DOMParser().parseFromString(text, "image/svg+xml").documentElement, true);
}

/** A box around all. @param {number[][]} boxes  Each x, y, width, height. */
function union(boxes) {
  const [left, top] = [0, 1].map((axis) => Math.min(...boxes.map((box) => box[axis])));
  const [right, bottom] = [0, 1].map((axis) => Math.max(...boxes.map((box) => box[axis] + box[axis + 2])));
  return [left, top - ROOM_ABOVE, right - left, bottom - top + ROOM_ABOVE];
}

/**
 * Gives the drawing's ids names of its own, as one page must not have an id twice.
 * @param {HTMLElement} svg @param {string} prefix
 */
function ownNames(svg, prefix) {
  const all = [svg, ...svg.querySelectorAll("*")];
  const named = new Map(all.filter(({ id }) => id).map(({ id }) => [id, `${prefix}-${id}`]));
  for (const node of all) {
    if (node.id) node.id = /** @type {string} */ (named.get(node.id));
    for (const { name, value } of node.attributes) {
      const id = value.match(/^url\(#(.+)\)$/)?.[1] ?? (name === "aria-labelledby" ? value : "");
      const own = named.get(id);
      if (own) node.setAttribute(name, value.replace(id, own));
    }
  }
  return svg;
}
