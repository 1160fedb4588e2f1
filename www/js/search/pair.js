import { element } from "../dom.js";

/** Numbers are set larger than the drawings reckon with, mm. */
const ROOM_ABOVE = 6;

/**
 * Two drawings side by side, at one scale.
 * @param {string[]} texts  SVG documents. @param {string[]} captions
 * @param {string} name  Of its own, as other drawings of the page have the same ids inside.
 */
export function picturePair(texts, captions, name) {
  const drawings = texts.map((text, index) => ownNames(parsed(text), `${name}-${index}`));
  const boxes = drawings.map((svg) => (svg.getAttribute("viewBox") ?? "").split(" ").map(Number));
  const shared = union(boxes);
  const place = element("div", { className: "pair" });
  drawings.forEach((svg, index) => {
    svg.setAttribute("viewBox", shared.join(" "));
    place.append(element("figure", {}, element("figcaption", {}, captions[index]), svg));
  });
  new ResizeObserver(() => {
    const { width } = drawings[0].getBoundingClientRect();
    if (width > 0) place.style.setProperty("--mm-per-px", String(shared[2] / width));
  }).observe(place);
  return place;
}

/** How the second differs from the first, in words. @param {string[]} sentences */
export function sentenceList(sentences) {
  return element("ul", { className: "sentences" }, ...sentences.map((sentence) => element("li", {}, sentence)));
}

/** An SVG document as a part of the page. @param {string} text */
export function parsed(text) {
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
export function ownNames(svg, prefix) {
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
