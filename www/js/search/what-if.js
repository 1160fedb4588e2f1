import { byId, element, emit } from "../dom.js";
import { exact } from "../numbers.js";
import { lengthText } from "../units.js";
import { roundedUp } from "./shortest.js";
import { cellButton, cellTable, errorText, pending } from "./table.js";
import { angleWords, marginWords, pairWords, scribed } from "./words.js";

/** @typedef {import("../types.js").Setup} Setup */

/** @type {Record<string, (recess: number) => string>} */
const JOINT_WORDS = {
  short: (recess) => `gap ${lengthText(-recess)} to the tube`,
  lap: () => "",
  let_in: (recess) => `let in ${lengthText(recess)}`,
  beyond: (recess) => `past the tube, ${lengthText(recess)}`,
};

const REMARK = "Tube end: the shortest from axle to tube that clears. Let in: how deep the plate sits in the tube. "
  + "Tap a cell to make it the setup.";

/**
 * Every rotor of the list on every hub of the list.
 * @param {{rotors: number[], hubs: number[], rules: [boolean, boolean]}} options
 * @param {{ask: () => void, draw: () => void}} changed  Called where other answers, or another view of them, are wanted.
 */
export function whatIfSearch(options, changed) {
  const angles = byId("what-if-angle");
  const forks = byId("what-if-fork");
  angles.addEventListener("change", () => changed.draw());
  forks.addEventListener("change", () => changed.ask());
  const isBest = () => chosen(angles) === "best";
  const follows = () => chosen(forks) === "follows";

  /** @param {any} reply @param {Setup} setup @param {number} rotor @param {number} hub */
  function cell(reply, setup, rotor, hub) {
    if (reply === undefined) return pending();
    if (!reply.ok) return errorText(reply.errors);
    const { answer } = reply;
    const isCurrent = setup.wheel.rotor_diameter === rotor && setup.wheel.hub_width === hub;
    const name = `Rotor ${exact(rotor)}, hub ${exact(hub)}`;
    const clock = isBest() && answer.best ? scribed(answer.best.clock) : undefined;
    const button = cellButton({
      name,
      ...(isBest() ? bestView(answer) : cutView(answer)),
      isCurrent,
      act: () => emit(button, "changes", {
        changes: [
          { path: "wheel.rotor_diameter", value: rotor },
          { path: "wheel.hub_width", value: hub },
          ...(follows() ? [{ path: "fork.tube_gap", value: answer.tube_gap }] : []),
          ...(clock === undefined ? [] : [{ path: "tab.clock", value: clock }]),
        ],
        words: `Changed to rotor ${exact(rotor)} on hub ${exact(hub)}${clock === undefined ? "" : ` at ${angleWords(clock)}`}.`,
      }),
    });
    return button;
  }

  return {
    get options() { return [options.rotors, options.hubs, ...options.rules, follows()]; },
    /** @type {import("./section.js").Search} */
    search: {
      calls: (setup) => options.rotors.flatMap((rotor) => options.hubs.map(
        (hub) => ["what_if", setup, rotor, hub, follows(), ...options.rules],
      )),
      show: (answers, setup) => [cellTable({
        caption: "Rotors by hubs",
        corner: "Rotor",
        columns: options.hubs.map((hub) => `Hub ${exact(hub)}`),
        rows: options.rotors.map(exact),
        cell: (row, column) => cell(
          answers[row * options.hubs.length + column],
          setup,
          options.rotors[row],
          options.hubs[column],
        ),
      }), element("p", { className: "remark" }, REMARK)],
    },
  };
}

/** @param {HTMLElement} group */
function chosen(group) {
  return /** @type {HTMLInputElement} */ (group.querySelector("input:checked")).value;
}

/** @param {any} answer */
function cutView({ as_cut, as_cut_tube_end, recess, joint }) {
  const end = as_cut_tube_end === null ? "at no tube end" : `tube end ${lengthText(roundedUp(as_cut_tube_end))}`;
  return {
    verdict: as_cut.verdict,
    lines: standingLines(as_cut, [end, jointWords(joint, recess)]),
  };
}

/** @param {any} answer @returns {{verdict: import("../types.js").Verdict, word?: string, lines: string[]}} */
function bestView({ as_cut, best, shortest, recess, joint }) {
  const end = shortest.kind === "found"
    ? `tube end ${lengthText(roundedUp(shortest.tube_end))}`
    : `no tube end: ${pairWords(shortest.obstacle)}`;
  const rest = [end, jointWords(joint, recess)];
  if (!best) {
    const lines = ["no angle clears", ...rest].filter(Boolean);
    return as_cut.verdict === "cannot_build" ? { verdict: as_cut.verdict, lines } : { verdict: "hits", word: "Nowhere", lines };
  }
  return { verdict: best.verdict, lines: standingLines(best, [`at ${angleWords(best.clock)}`, ...rest]) };
}

/** @param {any} standing @param {string[]} rest */
function standingLines({ margin, binding }, rest) {
  return [marginWords(margin), pairWords(binding), ...rest].filter(Boolean);
}

/** @param {string} joint @param {number} recess */
function jointWords(joint, recess) {
  return JOINT_WORDS[joint](recess);
}
