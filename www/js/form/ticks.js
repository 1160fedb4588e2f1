import { element } from "../dom.js";
import { exact } from "../numbers.js";

/** Width of one digit, and the least space between two labels, as shares of the slider's travel on a narrow phone. */
const DIGIT_SHARE = 0.036;
const SPACE_SHARE = 0.027;

/**
 * Marks for the usual values under a slider, with as many labels as there is room for.
 * @param {number[]} stops @param {[number, number]} limits
 */
export function createTicks(stops, [low, high]) {
  const ticks = element("div", { className: "ticks", "aria-hidden": "true" });
  let labelledTo = -Infinity;
  for (const stop of stops) {
    const share = (stop - low) / (high - low);
    if (share < 0 || share > 1) continue;
    const label = exact(stop);
    const halfWidth = label.length * DIGIT_SHARE / 2;
    const hasRoom = share - halfWidth >= labelledTo + SPACE_SHARE;
    if (hasRoom) labelledTo = share + halfWidth;
    const tick = element("span", { className: "tick" }, hasRoom ? label : "");
    tick.style.setProperty("--share", String(share));
    ticks.append(tick);
  }
  return ticks;
}
