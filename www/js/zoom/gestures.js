import { isOnCaliper } from "../ring/turning.js";

/**
 * @typedef {import("./zoom.js").Looked} Looked
 * @typedef {ReturnType<typeof import("./zoom.js").createZoom>} Zoom
 */

export const STEP = 1.5;
const TAP_ZOOM = 2.5;
const TAP_MS = 350;
const TAP_PX = 24;
/** Share of the frame that an arrow key moves by. */
const KEY_SHARE = 0.15;
const PER_WHEEL_PX = 0.0025;
/** A trackpad's pinch comes as a wheel with small figures. */
const PER_PINCH_PX = 0.01;
const SMALL_WHEEL_PX = 40;
const LINE_PX = 16;

/** @type {Record<string, [number, number]>} */
const ARROWS = { ArrowLeft: [1, 0], ArrowRight: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

/**
 * Zooms and moves a drawing by fingers, mouse, wheel and keys. One finger scrolls the page as everywhere else, unless the
 * drawing is zoomed, or the finger is on the caliper, which it turns.
 * @param {Looked} picture @param {Zoom} zoom
 */
export function letZoom(picture, zoom) {
  const { figure } = picture;
  letFingers(picture, zoom);
  letMouse(picture, zoom);

  figure.addEventListener("wheel", (event) => {
    if (!event.ctrlKey && !event.metaKey) return;
    event.preventDefault();
    const pixels = event.deltaMode === WheelEvent.DOM_DELTA_PIXEL ? event.deltaY : event.deltaY * LINE_PX;
    const rate = Math.abs(pixels) < SMALL_WHEEL_PX ? PER_PINCH_PX : PER_WHEEL_PX;
    zoom.by(picture, Math.exp(-pixels * rate), placeIn(figure, event));
  }, { passive: false });

  figure.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const { width, height } = picture.size();
    const arrow = ARROWS[event.key];
    if (event.key === "+" || event.key === "=") zoom.by(picture, STEP);
    else if (event.key === "-" || event.key === "_") zoom.by(picture, 1 / STEP);
    else if (event.key === "0") zoom.reset();
    else if (arrow && zoom.scale > 1) zoom.move(picture, arrow[0] * width * KEY_SHARE, arrow[1] * height * KEY_SHARE);
    else return;
    event.preventDefault();
  });
}

/** @param {Looked} picture @param {Zoom} zoom */
function letFingers(picture, zoom) {
  const { figure } = picture;
  /** Middle of the fingers and their distance from each other. @type {{x: number, y: number, spread: number, count: number}|null} */
  let held = null;
  let lastTap = { time: -Infinity, x: 0, y: 0 };
  /** @type {{time: number, x: number, y: number}|null} */
  let tap = null;

  /** @param {TouchEvent} event */
  function grip({ touches }) {
    const points = [...touches].slice(0, 2).map((touch) => placeIn(figure, touch));
    const [first, second = first] = points;
    return {
      x: (first.x + second.x) / 2,
      y: (first.y + second.y) / 2,
      spread: Math.hypot(second.x - first.x, second.y - first.y),
      count: points.length,
    };
  }

  figure.addEventListener("touchstart", (event) => {
    const isOne = event.touches.length === 1;
    tap = null;
    if (isOne && isOnCaliper(event.touches[0])) return;
    if (isOne) tap = { time: event.timeStamp, ...placeIn(figure, event.touches[0]) };
    held = !isOne || zoom.scale > 1 ? grip(event) : null;
    // Otherwise the browser would scroll or zoom the page along with the drawing.
    if (held && event.cancelable) event.preventDefault();
  }, { passive: false });

  figure.addEventListener("touchmove", (event) => {
    if (!held || !event.cancelable) return;
    event.preventDefault();
    const now = grip(event);
    if (now.count !== held.count) {
      held = now;
      return;
    }
    zoom.move(picture, now.x - held.x, now.y - held.y);
    if (now.count === 2 && held.spread > 0) zoom.by(picture, now.spread / held.spread, now);
    held = now;
  }, { passive: false });

  figure.addEventListener("touchend", (event) => {
    held = event.touches.length > 0 && held ? grip(event) : null;
    if (!tap || event.touches.length > 0) return;
    const { x, y } = placeIn(figure, event.changedTouches[0]);
    const isTap = event.timeStamp - tap.time < TAP_MS && Math.hypot(x - tap.x, y - tap.y) < TAP_PX;
    const isSecond = isTap && event.timeStamp - lastTap.time < TAP_MS && Math.hypot(x - lastTap.x, y - lastTap.y) < TAP_PX;
    lastTap = { time: isTap && !isSecond ? event.timeStamp : -Infinity, x, y };
    if (isSecond) turnOver(picture, zoom, { x, y });
  });
  figure.addEventListener("touchcancel", () => {
    held = null;
    tap = null;
  });
}

/** @param {Looked} picture @param {Zoom} zoom */
function letMouse(picture, zoom) {
  const { figure } = picture;
  /** @type {{pointer: number, x: number, y: number}|null} */
  let drag = null;

  figure.addEventListener("pointerdown", (event) => {
    if (event.pointerType === "touch" || event.button !== 0 || zoom.scale === 1 || isOnCaliper(event)) return;
    drag = { pointer: event.pointerId, x: event.clientX, y: event.clientY };
    figure.setPointerCapture(event.pointerId);
    figure.classList.add("moving");
  });
  figure.addEventListener("pointermove", (event) => {
    if (event.pointerId !== drag?.pointer) return;
    zoom.move(picture, event.clientX - drag.x, event.clientY - drag.y);
    drag = { ...drag, x: event.clientX, y: event.clientY };
  });
  for (const type of ["pointerup", "pointercancel", "lostpointercapture"]) {
    figure.addEventListener(type, () => {
      drag = null;
      figure.classList.remove("moving");
    });
  }

  // Two taps of a finger may come as a double click too.
  let lastTouch = -Infinity;
  figure.addEventListener("touchend", (event) => { lastTouch = event.timeStamp; });
  figure.addEventListener("dblclick", (event) => {
    if (event.timeStamp - lastTouch > 2 * TAP_MS && !isOnCaliper(event)) turnOver(picture, zoom, placeIn(figure, event));
  });
}

/** All of it where it is zoomed, else nearer to a place. @param {Looked} picture @param {Zoom} zoom @param {{x: number, y: number}} at */
function turnOver(picture, zoom, at) {
  if (zoom.scale > 1) zoom.reset();
  else zoom.by(picture, TAP_ZOOM, at);
}

/** @param {HTMLElement} figure @param {{clientX: number, clientY: number}} point */
function placeIn(figure, { clientX, clientY }) {
  const { left, top } = figure.getBoundingClientRect();
  return { x: clientX - left, y: clientY - top };
}
