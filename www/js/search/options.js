import { byId, element, setText } from "../dom.js";
import { exact, readNumber } from "../numbers.js";

/** @typedef {import("../types.js").Field} Field */

const STORAGE_KEY = "tabwright-options";
/** More would make a table that nobody reads. */
const MOST_SIZES = 8;

/**
 * What the searches go through: sizes of rotors and hubs, and what a place must offer besides clearing.
 * @param {Field} rotor @param {Field} hub @param {() => void} changed
 */
export function createOptions(rotor, hub, changed) {
  const kept = keptOptions();
  const rotors = sizeList(byId("rotor-list"), rotor, kept.rotors, keepAndTell);
  const hubs = sizeList(byId("hub-list"), hub, kept.hubs, keepAndTell);
  const lineUp = ruleTick("rule-line", kept.lineUp, keepAndTell);
  const wheelOut = ruleTick("rule-wheel", kept.wheelOut, keepAndTell);
  for (const form of document.querySelectorAll("form.options")) form.addEventListener("submit", (event) => event.preventDefault());

  function keepAndTell() {
    const options = { rotors: rotors.sizes, hubs: hubs.sizes, lineUp: lineUp.checked, wheelOut: wheelOut.checked };
    try {
      localStorage.setItem(STORAGE_KEY, JSON.stringify(options));
    } catch {
      // The setup is not kept either then, and that is told.
    }
    changed();
  }

  return {
    /** Each list stays the same array until it is changed. */
    get rotors() { return rotors.sizes; },
    get hubs() { return hubs.sizes; },
    /** @returns {[boolean, boolean]} */
    get rules() { return [lineUp.checked, wheelOut.checked]; },
  };
}

/** What was chosen last time; anything at all, for each user to check. @returns {Record<string, any>} */
function keptOptions() {
  try {
    return JSON.parse(localStorage.getItem(STORAGE_KEY) ?? "") ?? {};
  } catch {
    return {};
  }
}

/** @param {string} id @param {any} kept @param {() => void} changed */
function ruleTick(id, kept, changed) {
  const tick = /** @type {HTMLInputElement} */ (byId(id));
  if (typeof kept === "boolean") tick.checked = kept;
  tick.addEventListener("change", changed);
  return tick;
}

/** @param {any} kept @param {Field} field @returns {kept is number[]} */
function areSizes(kept, { hard }) {
  const [low, high] = hard ?? [0, Infinity];
  return Array.isArray(kept) && kept.length > 0 && kept.length <= MOST_SIZES
    && kept.every((size, index) => typeof size === "number" && size >= low && size <= high && !(size <= kept[index - 1]));
}

/**
 * A list of sizes as text. One that cannot be read keeps the last good sizes.
 * @param {HTMLElement} place @param {Field} field @param {any} kept  The sizes of last time, perhaps. @param {() => void} changed
 */
function sizeList(place, field, kept, changed) {
  const id = `${place.id}-input`;
  const start = areSizes(kept, field) ? kept : field.stops;
  const note = element("p", { className: "field-note", id: `${id}-note`, hidden: true });
  const input = element("input", {
    type: "text", id, className: "text-input", autocomplete: "off", spellcheck: false, enterKeyHint: "done",
    value: start.map(exact).join(", "),
  });
  const label = element("label", { className: "field-label", htmlFor: id }, `${place.dataset.label}, ${field.unit}`);
  place.append(label, input, note);
  const list = { sizes: start };

  input.addEventListener("input", () => {
    const { sizes, problem } = readSizes(input.value, field);
    setText(note, problem && `${problem} The last good list stays: ${list.sizes.map(exact).join(", ")}.`);
    note.hidden = !problem;
    place.classList.toggle("refused", Boolean(problem));
    if (problem) {
      input.setAttribute("aria-invalid", "true");
      input.setAttribute("aria-describedby", note.id);
      return;
    }
    input.removeAttribute("aria-invalid");
    input.removeAttribute("aria-describedby");
    if (sizes.join() === list.sizes.join()) return;
    list.sizes = sizes;
    changed();
  });
  return list;
}

/** @param {string} text @param {Field} field @returns {{sizes: number[], problem: string}} */
function readSizes(text, { hard, unit }) {
  const [low, high] = hard ?? [0, Infinity];
  const parts = text.split(/[\s;]+|,(?!\d)|,(?=\d{2,})/).filter(Boolean);
  const wrong = parts.find((part) => {
    const size = readNumber(part);
    return typeof size !== "number" || size < low || size > high;
  });
  const sizes = [...new Set(parts.map(readNumber).map(Number))].sort((one, other) => one - other);
  let problem = "";
  if (wrong !== undefined) problem = `"${wrong}" is no size from ${exact(low)} to ${exact(high)} ${unit}.`;
  else if (sizes.length === 0) problem = "Give at least one size.";
  else if (sizes.length > MOST_SIZES) problem = `Give at most ${MOST_SIZES} sizes.`;
  return { sizes, problem };
}
