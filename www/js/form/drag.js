/**
 * How a finger, a pen or a mouse moves a slider. A finger on its way over the page must not: nothing moves before it has
 * gone clearly sideways, and then the slider follows it from where it stood, so that a greasy thumb need not hit the knob.
 */

/** So far sideways, in pixels, and the finger means the slider. */
const SIDEWAYS_PX = 8;
/** A finger lifted within this of where it came down has tapped. */
const TAP_PX = 8;
const TAP_MS = 500;
/** A tap this soon after the page moved was meant to stop it. */
const SCROLL_MS = 250;
/** A dragged slider jumps to a usual value within this share of its travel, or within one step if that is more. */
const SNAP_SHARE = 0.01;
/** A tap is less exact than a drag. */
const TAP_SNAP_SHARE = 0.03;

let lastScroll = -Infinity;
addEventListener("scroll", () => { lastScroll = performance.now(); }, { capture: true, passive: true });

/**
 * Passes on what the slider is moved to; keys are left to the browser and do not snap.
 * @param {HTMLElement} track  Around the slider, which itself takes no pointers.
 * @param {HTMLInputElement} slider
 * @param {number[]} stops  The usual values.
 * @param {() => any} currentValue
 * @param {(value: any) => void} change
 */
export function letDrag(track, slider, stops, currentValue, change) {
  const [low, high, step] = [slider.min, slider.max, slider.step].map(Number);
  /** @type {{pointer: number, x: number, y: number, time: number, isMoving: boolean, from: number, before: any, width: number}|null} */
  let drag = null;

  /** Pixels that the knob's middle can travel, and where it starts. */
  function room() {
    const { left, width } = slider.getBoundingClientRect();
    const knob = parseFloat(getComputedStyle(slider).getPropertyValue("--thumb")) * parseFloat(getComputedStyle(document.documentElement).fontSize);
    return { left: left + knob / 2, width: Math.max(width - knob, 1), reach: knob / 2 };
  }

  /** @param {number} value @param {number} share */
  function moveTo(value, share) {
    // The slider itself knows its steps and limits.
    slider.value = String(value);
    const rounded = Number(slider.value);
    const reach = Math.max((high - low) * share, step);
    const near = stops.filter((stop) => Math.abs(stop - rounded) <= reach).sort((one, other) => Math.abs(one - rounded) - Math.abs(other - rounded));
    change(near[0] ?? rounded);
  }

  /** @param {number} x */
  function valueAt(x) {
    const { left, width } = room();
    return low + (x - left) / width * (high - low);
  }

  /** @param {PointerEvent} event */
  function begin(event) {
    if (drag || !event.isPrimary || event.button !== 0) return;
    const { left, width, reach } = room();
    const from = Number(slider.value);
    const knob = left + (from - low) / (high - low) * width;
    const isFinger = event.pointerType === "touch";
    drag = { pointer: event.pointerId, x: event.clientX, y: event.clientY, time: performance.now(), isMoving: !isFinger, from, before: currentValue(), width };
    track.setPointerCapture(event.pointerId);
    if (isFinger) return;
    // No text selection; the focus still goes to the slider, for the keys.
    event.preventDefault();
    slider.focus({ preventScroll: true });
    if (Math.abs(event.clientX - knob) <= reach) return;
    moveTo(valueAt(event.clientX), SNAP_SHARE);
    drag.from = Number(slider.value);
  }

  /** @param {PointerEvent} event */
  function move(event) {
    if (event.pointerId !== drag?.pointer) return;
    const [across, along] = [event.clientX - drag.x, event.clientY - drag.y];
    if (!drag.isMoving) {
      if (Math.abs(across) < SIDEWAYS_PX || Math.abs(across) < 2 * Math.abs(along)) return;
      // From here on, so that nothing jumps.
      Object.assign(drag, { isMoving: true, x: event.clientX, y: event.clientY });
      slider.focus({ preventScroll: true });
      return;
    }
    if (across === 0 && drag.from === Number(slider.value)) return;
    moveTo(drag.from + across / drag.width * (high - low), SNAP_SHARE);
  }

  /** @param {PointerEvent} event */
  function end(event) {
    if (event.pointerId !== drag?.pointer) return;
    const { isMoving, x, y, time, before } = drag;
    drag = null;
    if (event.type === "pointercancel") {
      if (isMoving) change(before);
    } else if (event.type === "pointerup" && !isMoving) {
      const now = performance.now();
      const isTap = Math.hypot(event.clientX - x, event.clientY - y) <= TAP_PX && now - time <= TAP_MS && time - lastScroll > SCROLL_MS;
      if (!isTap) return;
      slider.focus({ preventScroll: true });
      moveTo(valueAt(event.clientX), TAP_SNAP_SHARE);
    }
  }

  track.addEventListener("pointerdown", begin);
  track.addEventListener("pointermove", move);
  for (const type of ["pointerup", "pointercancel", "lostpointercapture"]) {
    track.addEventListener(type, (event) => end(/** @type {PointerEvent} */ (event)));
  }
  slider.addEventListener("input", () => change(Number(slider.value)));
}
