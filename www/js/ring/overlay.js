import { createDrawing } from "../drawing.js";
import { readable } from "../numbers.js";
import { VERDICT_WORDS } from "../verdicts.js";

/** @typedef {import("../types.js").Setup} Setup */

const RAD_PER_DEGREE = Math.PI / 180;

/**
 * The band over the side view, on the same page at the same scale, and the handle on it.
 * @param {HTMLElement} figure  Of the side view.
 * @param {HTMLElement} layer
 */
export function createOverlay(figure, layer) {
  const frame = /** @type {HTMLElement} */ (figure.querySelector(".picture-frame"));
  const handle = /** @type {HTMLElement} */ (layer.querySelector("[role=slider]"));
  const bandFrame = /** @type {HTMLElement} */ (layer.querySelector(".ring-frame"));
  const band = createDrawing(bandFrame);
  const size = { width: 0, height: 0 };
  /** What is seen of the side view's page: left, top, width, height in millimetres. */
  let page = [0, 0, 0, 0];
  let viewBox = "";
  let radius = 0;
  let clock = 0;
  let across = 1;
  let mmShown = 0;

  // A drawing hidden has no size.
  new ResizeObserver(([{ contentRect }]) => {
    size.width = contentRect.width;
    size.height = contentRect.height;
    layer.hidden = size.width === 0;
    layer.style.setProperty("height", `${size.height}px`);
    placeHandle();
  }).observe(figure);

  figure.parentElement?.addEventListener("look", () => {
    takePage();
    placeHandle();
  });

  /** Millimetres per pixel; the drawing stands in the middle of its frame. */
  function scale() {
    return Math.max(page[2] / size.width, page[3] / size.height);
  }

  /** The band comes with a page of its own. */
  function sharePage() {
    if (viewBox) bandFrame.querySelector("svg")?.setAttribute("viewBox", viewBox);
  }

  function takePage() {
    const shown = frame.querySelector("svg")?.getAttribute("viewBox") ?? "";
    if (shown === viewBox) return;
    viewBox = shown;
    page = shown.split(" ").map(Number);
    sharePage();
  }

  function placeHandle() {
    if (size.width === 0 || page[2] === 0) return;
    const turn = clock * RAD_PER_DEGREE;
    const [x, y] = [across * radius * Math.sin(turn), -radius * Math.cos(turn)];
    const [middleX, middleY] = [page[0] + page[2] / 2, page[1] + page[3] / 2];
    const mm = scale();
    if (mm !== mmShown) {
      mmShown = mm;
      layer.style.setProperty("--mm-per-px", String(mm));
    }
    handle.style.transform = `translate(${size.width / 2 + (x - middleX) / mm}px, ${size.height / 2 + (y - middleY) / mm}px)`;
  }

  return {
    handle,
    /** Where a point of the window lies on the page drawn, in millimetres. @param {{clientX: number, clientY: number}} point */
    pointOf({ clientX, clientY }) {
      const box = layer.getBoundingClientRect();
      const mm = scale();
      return {
        x: page[0] + page[2] / 2 + (clientX - box.left - box.width / 2) * mm,
        y: page[1] + page[3] / 2 + (clientY - box.top - box.height / 2) * mm,
      };
    },
    /** @param {string|undefined} text  An SVG document about the axle. */
    showBand(text) {
      bandFrame.hidden = text === undefined;
      if (text === undefined || !band.show(text)) return;
      radius = Number(bandFrame.querySelector(".ring-band")?.getAttribute("data-radius"));
      sharePage();
      placeHandle();
    },
    /** @param {Setup} setup @param {keyof typeof VERDICT_WORDS} verdict */
    place(setup, verdict) {
      clock = setup.tab.clock;
      across = setup.side === "right" ? -1 : 1;
      takePage();
      handle.setAttribute("aria-valuenow", String(clock));
      handle.setAttribute("aria-valuetext", `${readable(clock)}°, ${VERDICT_WORDS[verdict].toLowerCase()}`);
      placeHandle();
    },
  };
}
