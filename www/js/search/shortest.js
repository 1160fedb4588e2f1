import { element, emit } from "../dom.js";
import { readable } from "../numbers.js";
import { lengthText } from "../units.js";
import { errorText } from "./table.js";
import { angleWords, pairWords, scribed } from "./words.js";

/** A result is never too short; rounding must not make it so. */
const SCRIBED_PER_MM = 10;
const ROUNDING_DUST = 1e-6;

/** A tube end rounded up to what can be scribed. @param {number} tubeEnd */
export function roundedUp(tubeEnd) {
  return scribed(Math.ceil(tubeEnd * SCRIBED_PER_MM - ROUNDING_DUST) / SCRIBED_PER_MM);
}

/**
 * The shortest dropout.
 * @param {{rules: [boolean, boolean]}} options
 * @returns {import("./section.js").Search}
 */
export function shortestSearch(options) {
  return {
    calls: (setup) => [["shortest", setup, ...options.rules]],
    show([reply]) {
      if (!reply.ok) return [errorText(reply.errors)];
      return reply.answer.kind === "found" ? found(reply.answer) : [element("p", {}, noneWords(reply.answer.obstacle))];
    },
  };
}

/** @param {string} obstacle */
function noneWords(obstacle) {
  const isPair = obstacle.includes("/");
  return `There is none: ${pairWords(obstacle)}${isPair ? " is too close at any tube end" : ""}.`;
}

/** @param {any} answer */
function found({ tube_end, clock, binding, before, after }) {
  const end = roundedUp(tube_end);
  // Places at the shortest tube end may be narrower than a tenth of a degree.
  const angle = scribed(clock, 2);
  const limits = [
    pairWords(binding),
    before && `half a degree before, ${pairWords(before)}`,
    after && `half a degree after, ${pairWords(after)}`,
  ];
  const use = element("button", { type: "button", className: "button", "data-name": "use" }, "Use it");
  use.addEventListener("click", () => emit(use, "changes", {
    changes: [{ path: "fork.tube_end", value: end }, { path: "tab.clock", value: angle }],
    words: `Changed to tube end ${lengthText(end)} at ${readable(angle, 2)}°.`,
  }));
  return [
    element("p", {}, element("strong", {}, `Tube end ${lengthText(end)}`), ` from the axle, at clock angle ${angleWords(clock)}.`),
    element("p", {}, `What stops it: ${limits.filter(Boolean).join("; ")}.`),
    use,
  ];
}
