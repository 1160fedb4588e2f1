import { createDrawing } from "./drawing.js";

/** @typedef {{width: number, height: number}} Size */

/**
 * One drawing in its figure.
 * @param {HTMLElement} figure
 * @param {() => void} resized  Told when the frame or the page drawn has another size; `look` must follow.
 */
export function createPicture(figure, resized) {
  const frame = /** @type {HTMLElement} */ (figure.querySelector(".picture-frame"));
  const drawing = createDrawing(frame);
  /** Of the frame, in pixels. @type {Size} */
  let size = { width: 0, height: 0 };
  /** The whole drawing: left, top, width, height, in millimetres. */
  let page = [0, 0, 0, 0];
  /** The part of it on show. */
  let box = page;

  /** The drawing comes with all of its page on show. */
  function showBox() {
    const svg = frame.querySelector("svg");
    const text = box.map((value) => Number(value.toFixed(2))).join(" ");
    if (svg && box !== page && svg.getAttribute("viewBox") !== text) svg.setAttribute("viewBox", text);
  }

  new ResizeObserver(([{ contentRect }]) => {
    size = contentRect;
    resized();
  }).observe(frame);

  return {
    figure,
    page: () => page,
    size: () => size,
    /** @param {number[]} wanted */
    look(wanted) {
      if (wanted === page && box !== page) frame.querySelector("svg")?.setAttribute("viewBox", drawing.viewBox);
      box = wanted;
      showBox();
      keepTextSize(frame, box, size);
    },
    /** @param {string} text  An SVG document. */
    show(text) {
      if (!drawing.show(text)) return;
      const now = drawing.viewBox.split(" ").map(Number);
      if (now.every((value, index) => value === page[index])) {
        showBox();
        return;
      }
      page = now;
      // Stacked figures share the height in proportion to their drawings, which, as all drawings are equally wide in
      // millimetres, gives them the same scale.
      figure.style.flexGrow = String(page[3]);
      resized();
    },
  };
}

/**
 * Tells the style sheet how many millimetres a pixel is, so that texts stay readable in a small drawing.
 * @param {HTMLElement} frame @param {number[]} box @param {Size} size
 */
function keepTextSize(frame, [, , width, height], size) {
  if (width === 0 || size.width === 0 || size.height === 0) return;
  frame.style.setProperty("--mm-per-px", String(Math.max(width / size.width, height / size.height)));
}
