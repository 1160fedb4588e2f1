import { byId } from "../dom.js";
import { atRestOutOfSight } from "../results/rest.js";
import { letTurn } from "./turning.js";
import { createOverlay } from "./overlay.js";
import { createWindows } from "./windows.js";

/**
 * @typedef {import("../types.js").Setup} Setup
 * @typedef {import("../types.js").Ring} Ring
 * @typedef {import("../types.js").RingAnswer} RingAnswer
 * @typedef {import("../search/client.js").SearchClient} SearchClient
 */

/**
 * Where about the axle the caliper may sit: a band over the side view with a handle to turn the caliper, and the same in
 * words. Must come after the drawings, whose page it shares. A ring takes longer than all else of a slider's step, so it
 * is asked for beside the page and follows as fast as it can.
 * @param {SearchClient} client
 * @param {(setup: Setup) => RingAnswer} askHere  The same on the page's own thread: for the first, and where the client fails.
 * @param {() => Setup} goodSetup  The last setup that had an answer.
 */
export function createRing(client, askHere, goodSetup) {
  const figure = /** @type {HTMLElement} */ (document.querySelector(".picture[data-view=side]"));
  const overlay = createOverlay(figure, byId("ring-layer"));
  const windows = atRestOutOfSight(byId("window-list"), createWindows());
  const owner = {};
  /** The setup that the ring on show belongs to. @type {Setup|undefined} */
  let shown;
  let isAsking = false;
  let frame = 0;
  /** @type {Ring|undefined} */
  let ring;

  letTurn(figure, overlay, {
    clock: () => goodSetup().tab.clock,
    isMirrored: () => goodSetup().side === "right",
    edges: () => ring?.windows.flatMap(({ from, width }) => [from, from + width]) ?? [],
  });

  /** @param {Setup} setup @param {RingAnswer} reply */
  function take(setup, reply) {
    shown = setup;
    ring = reply.ok ? reply.answer.ring : undefined;
    cancelAnimationFrame(frame);
    // In one frame with the next step of a movement, and not in one of its own.
    frame = requestAnimationFrame(() => {
      overlay.showBand(reply.ok ? reply.answer.svg : undefined);
      windows.update(reply);
    });
  }

  /** One question at a time, each answer shown: dropping those that are behind would leave a dragged slider without any. */
  function follow() {
    const setup = goodSetup();
    if (shown === undefined) take(setup, askHere(setup));
    if (isAsking || isSameButForClock(/** @type {Setup} */ (shown), setup)) return;
    isAsking = true;
    /** @param {RingAnswer} reply */
    const settle = (reply) => {
      isAsking = false;
      take(setup, reply);
      follow();
    };
    client.run(owner, [["ring", setup]], { answer: settle, done() {}, failed: () => settle(askHere(setup)) });
  }

  return {
    /** @param {import("../types.js").Model} model */
    update({ report }) {
      follow();
      overlay.place(goodSetup(), report.verdict);
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
