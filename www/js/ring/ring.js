import { byId } from "../dom.js";
import { atRestOutOfSight } from "../results/rest.js";
import { letTurn } from "./turning.js";
import { createOverlay } from "./overlay.js";
import { createWindows } from "./windows.js";

/**
 * @typedef {import("../types.js").Setup} Setup
 * @typedef {import("../types.js").Ring} Ring
 * @typedef {import("../types.js").RingAnswer} RingAnswer
 */

/**
 * Where about the axle the caliper may sit: a band over the side view with a handle to turn the caliper, and the same in
 * words. Must come after the drawings, whose page it shares.
 * @param {(setup: Setup) => RingAnswer} ask
 * @param {() => Setup} goodSetup  The last setup that had an answer.
 */
export function createRing(ask, goodSetup) {
  const figure = /** @type {HTMLElement} */ (document.querySelector(".picture[data-view=side]"));
  const overlay = createOverlay(figure, byId("ring-layer"));
  const windows = atRestOutOfSight(byId("window-list"), createWindows());
  /** @type {Setup|undefined} */
  let asked;
  /** @type {Ring|undefined} */
  let ring;

  letTurn(figure, overlay, {
    clock: () => goodSetup().tab.clock,
    isMirrored: () => goodSetup().side === "right",
    edges: () => ring?.windows.flatMap(({ from, width }) => [from, from + width]) ?? [],
  });

  return {
    /** @param {import("../types.js").Model} model */
    update({ report }) {
      const setup = goodSetup();
      if (asked === undefined || !isSameButForClock(asked, setup)) {
        const reply = ask(setup);
        ring = reply.ok ? reply.answer.ring : undefined;
        overlay.showBand(reply.ok ? reply.answer.svg : undefined);
        windows.update(reply);
      }
      asked = setup;
      overlay.place(setup, report.verdict);
    },
  };
}

/**
 * Whether only the clock angle differs, on which the ring does not depend. Branches that nobody changed are the same objects.
 * @param {Setup} one @param {Setup} other
 */
function isSameButForClock(one, other) {
  if (one === other) return true;
  const isSameTab = Object.keys({ ...one.tab, ...other.tab }).every((key) => key === "clock" || one.tab[key] === other.tab[key]);
  return isSameTab && Object.keys({ ...one, ...other }).every((key) => key === "tab" || one[key] === other[key]);
}
