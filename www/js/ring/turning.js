import { emit } from "../dom.js";
import { turned } from "../search/words.js";

/**
 * @typedef {Object} Turned  What is turned.
 * @property {() => number} clock  Clock angle now.
 * @property {() => boolean} isMirrored  Whether back is to the left of the page.
 * @property {() => number[]} edges  Clock angles where a stretch that clears begins or ends.
 */

const DEGREES_PER_RAD = 180 / Math.PI;
/** Clock angles from a finger, in degrees. */
const DRAG_STEP = 0.5;
const KEY_STEP = 1;
const BIG_KEY_STEP = 10;
/** Edges are rounded inwards to what can be scribed, so that they still clear. */
const STEPS_PER_DEGREE = 10;
/** A turn smaller than this is none. */
const LEAST_TURN = 0.05;

/** @type {Record<string, number>} */
const KEYS = {
  ArrowRight: KEY_STEP,
  ArrowUp: KEY_STEP,
  ArrowLeft: -KEY_STEP,
  ArrowDown: -KEY_STEP,
  PageUp: BIG_KEY_STEP,
  PageDown: -BIG_KEY_STEP,
};

/**
 * Lets caliper and handle be turned about the axle by finger, pen, mouse and keys.
 * @param {HTMLElement} figure  With the caliper's shapes in it.
 * @param {{handle: HTMLElement, pointOf: (point: PointerEvent) => {x: number, y: number}}} overlay
 * @param {Turned} turnedThing
 */
export function letTurn(figure, { handle, pointOf }, { clock, isMirrored, edges }) {
  /** @type {{pointer: number, clock: number, grip: number, held: Element}|null} */
  let drag = null;

  /** @param {number} angle */
  function turnTo(angle) {
    emit(handle, "edit", { path: "tab.clock", value: Number(turned(angle).toFixed(2)) });
  }

  /** Clock angle under the pointer: the axle is at the drawing's origin. @param {PointerEvent} event */
  function angleOf(event) {
    const { x, y } = pointOf(event);
    return Math.atan2(isMirrored() ? -x : x, -y) * DEGREES_PER_RAD;
  }

  /** @param {PointerEvent} event */
  function begin(event) {
    if (drag || !event.isPrimary || event.button !== 0) return;
    const held = /** @type {Element} */ (event.currentTarget);
    if (held === figure && !isOnCaliper(event)) return;
    // The place gripped stays under the finger.
    drag = { pointer: event.pointerId, clock: clock(), grip: angleOf(event), held };
    held.setPointerCapture(event.pointerId);
    handle.classList.add("held");
    // No text selection; the focus still goes to the handle, for the keys.
    event.preventDefault();
    handle.focus({ preventScroll: true });
  }

  /** @param {PointerEvent} event */
  function move(event) {
    if (event.pointerId !== drag?.pointer) return;
    const angle = turned(drag.clock + angleOf(event) - drag.grip);
    const rounded = Math.round(angle / DRAG_STEP) * DRAG_STEP;
    if (Math.abs(turned(rounded - clock())) >= DRAG_STEP / 2) turnTo(rounded);
  }

  /** @param {PointerEvent} event */
  function end(event) {
    if (event.pointerId !== drag?.pointer) return;
    if (event.type === "pointercancel") turnTo(drag.clock);
    letGo();
  }

  /** A second finger means the drawing as a whole. */
  function letGo() {
    drag = null;
    handle.classList.remove("held");
  }

  for (const place of [figure, handle]) {
    place.addEventListener("pointerdown", begin);
    place.addEventListener("pointermove", move);
    for (const type of ["pointerup", "pointercancel", "lostpointercapture"]) {
      place.addEventListener(type, (event) => end(/** @type {PointerEvent} */ (event)));
    }
  }
  // Browsers do not heed touch-action on the shapes of a drawing.
  figure.addEventListener("touchstart", (event) => {
    if (event.touches.length > 1) letGo();
    if (event.touches.length === 1 && isOnCaliper(event.touches[0])) event.preventDefault();
  }, { passive: false });
  handle.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const angle = keyAngle(event, clock(), edges());
    if (angle === undefined) return;
    event.preventDefault();
    turnTo(angle);
  });
}

/** Holes, line and numbers lie over the caliper. @param {{clientX: number, clientY: number}} event */
export function isOnCaliper({ clientX, clientY }) {
  return document.elementsFromPoint(clientX, clientY).some((element) => element.closest(".caliper"));
}

/** Where a key turns to. @param {KeyboardEvent} event @param {number} clock @param {number[]} edges */
function keyAngle({ key, shiftKey }, clock, edges) {
  const step = KEYS[key];
  if (step !== undefined) return clock + (shiftKey ? Math.sign(step) * BIG_KEY_STEP : step);
  if (key !== "Home" && key !== "End") return undefined;
  const way = key === "End" ? 1 : -1;
  // Edges come in pairs, from and to.
  const inside = edges.map((edge, index) => {
    const round = index % 2 === 0 ? Math.ceil : Math.floor;
    return round(edge * STEPS_PER_DEGREE) / STEPS_PER_DEGREE;
  });
  const turns = inside.map((edge) => (((edge - clock) * way) % 360 + 360) % 360).filter((turn) => turn > LEAST_TURN);
  return turns.length > 0 ? clock + way * Math.min(...turns) : undefined;
}
