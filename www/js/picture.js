import { createDrawing } from "./drawing.js";

/** @typedef {{width: number, height: number}} Size */

/**
 * One drawing in its figure.
 * @param {HTMLElement} figure
 */
export function createPicture(figure) {
  const frame = /** @type {HTMLElement} */ (figure.querySelector(".picture-frame"));
  const drawing = createDrawing(frame);
  /** Of the frame, in pixels, and of the page drawn, in millimetres. @type {Size} */
  let size = { width: 0, height: 0 };
  /** @type {Size} */
  let drawn = { width: 0, height: 0 };

  new ResizeObserver(([{ contentRect }]) => {
    size = contentRect;
    keepTextSize(frame, drawn, size);
  }).observe(frame);

  return {
    figure,
    /** @param {string} text  An SVG document. */
    show(text) {
      if (!drawing.show(text)) return;
      const { width, height } = drawing.size;
      if (width === drawn.width && height === drawn.height) return;
      drawn = { width, height };
      // Stacked figures share the height in proportion to their drawings, which, as all drawings are equally wide in
      // millimetres, gives them the same scale.
      figure.style.flexGrow = String(height);
      keepTextSize(frame, drawn, size);
    },
  };
}

/**
 * Tells the style sheet how many millimetres a pixel is, so that texts stay readable in a small drawing.
 * @param {HTMLElement} frame @param {Size} drawn @param {Size} size
 */
function keepTextSize(frame, drawn, size) {
  if (drawn.width === 0 || size.width === 0 || size.height === 0) return;
  frame.style.setProperty("--mm-per-px", String(Math.max(drawn.width / size.width, drawn.height / size.height)));
}
