import { byId, emit, setText } from "../dom.js";
import { STEP, letZoom } from "./gestures.js";
import { createZoom } from "./zoom.js";

/**
 * @typedef {import("./zoom.js").Looked} Looked
 * @typedef {ReturnType<typeof createZoom>} Zoom
 */

/**
 * Lets the drawings be looked at from near, by gestures and by the buttons beside them. The zoom is told by a "look" event.
 * @param {HTMLElement} root  Around the drawings.
 * @param {Looked[]} pictures
 * @returns {Zoom}
 */
export function startZoom(root, pictures) {
  const buttons = byId("zoom");
  const layer = byId("ring-layer");
  const zoom = createZoom(pictures, tell);
  const visible = () => pictures.find(({ figure }) => !figure.hidden) ?? pictures[0];

  /** @param {number} scale */
  function tell(scale) {
    const isZoomed = scale > 1;
    root.classList.toggle("zoomed", isZoomed);
    for (const button of buttons.querySelectorAll(".needs-zoom")) button.setAttribute("aria-disabled", String(!isZoomed));
    setText(byId("zoom-state"), isZoomed ? `${scale.toFixed(1)} times` : "All of it");
    emit(root, "look");
  }

  for (const picture of pictures) letZoom(picture, zoom);
  const [nearer, further, all] = buttons.querySelectorAll("button");
  nearer.addEventListener("click", () => zoom.by(visible(), STEP));
  further.addEventListener("click", () => zoom.by(visible(), 1 / STEP));
  all.addEventListener("click", () => zoom.reset());
  buttons.hidden = false;

  // The knob may lie outside of what is seen.
  layer.addEventListener("focusin", (event) => {
    const knob = /** @type {Element} */ (event.target).getBoundingClientRect();
    const { left, right, top, bottom } = layer.getBoundingClientRect();
    const [x, y] = [knob.left + knob.width / 2, knob.top + knob.height / 2];
    if (x < left || x > right || y < top || y > bottom) zoom.reset();
  });
  return zoom;
}
