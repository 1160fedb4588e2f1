/**
 * One drawing in its figure.
 * @param {HTMLElement} figure
 */
export function createPicture(figure) {
  const frame = /** @type {HTMLElement} */ (figure.querySelector(".picture-frame"));
  const size = { width: 0, height: 0 };
  let shown = "";

  new ResizeObserver(([{ contentRect }]) => {
    size.width = contentRect.width;
    size.height = contentRect.height;
    keepTextSize(frame, size);
  }).observe(frame);

  return {
    figure,
    /** @param {string} text  An SVG document. */
    show(text) {
      if (text === shown) return;
      shown = text;
      const parsed = new DOMParser().parseFromString(text, "image/svg+xml");
      frame.replaceChildren(document.importNode(parsed.documentElement, true));
      shareHeight(figure, frame);
      keepTextSize(frame, size);
    },
  };
}

/** @param {HTMLElement} frame */
function viewBoxOf(frame) {
  return frame.querySelector("svg")?.viewBox.baseVal;
}

/**
 * Stacked figures share the height in proportion to their drawings, which, as all drawings are equally wide in
 * millimetres, gives them the same scale.
 * @param {HTMLElement} figure @param {HTMLElement} frame
 */
function shareHeight(figure, frame) {
  figure.style.flexGrow = String(viewBoxOf(frame)?.height ?? 1);
}

/**
 * Tells the style sheet how many millimetres a pixel is, so that texts stay readable in a small drawing.
 * @param {HTMLElement} frame @param {{width: number, height: number}} size
 */
function keepTextSize(frame, size) {
  const box = viewBoxOf(frame);
  if (!box || size.width === 0 || size.height === 0) return;
  frame.style.setProperty("--mm-per-px", String(Math.max(box.width / size.width, box.height / size.height)));
}
