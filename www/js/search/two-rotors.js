import { element } from "../dom.js";
import { exact } from "../numbers.js";
import { lengthText } from "../units.js";
import { roundedUp } from "./shortest.js";
import { errorText, pending } from "./table.js";
import { angleWords, arcWords, marginWords, pairWords } from "./words.js";

/**
 * Which two rotors of the list one tab serves.
 * @param {{rotors: number[], rules: [boolean, boolean]}} options
 * @returns {import("./section.js").Search}
 */
export function twoRotorsSearch(options) {
  const pairs = () => options.rotors.flatMap((one, index) => options.rotors.slice(index + 1).map((other) => [one, other]));
  return {
    calls: (setup) => pairs().map(([one, other]) => ["two_rotors", setup, one, other, ...options.rules]),
    show(answers) {
      if (pairs().length === 0) return [element("p", {}, "This takes two rotors at least in the list of What if.")];
      return [element("ul", { className: "cards" }, ...pairs().map((pair, index) => card(pair, answers[index])))];
    },
  };
}

/** @param {number[]} pair @param {any} reply */
function card([one, other], reply) {
  const title = element("strong", {}, `${exact(one)} and ${exact(other)}`);
  if (reply === undefined) return element("li", {}, title, pending());
  if (!reply.ok) return element("li", {}, title, errorText(reply.errors));
  const { answer } = reply;
  const lines = answer.obstacle ? [noneWords(answer.obstacle)] : answer.windows.map((/** @type {any} */ one) => windowWords(answer.rotors, one));
  return element(
    "li",
    {},
    element("p", {}, title, `, spacer ${lengthText(answer.spacer)}`),
    ...lines.map((/** @type {string} */ line) => element("p", {}, line)),
    element("p", {}, shortestWords(answer.shortest, answer.obstacle?.binding)),
  );
}

/** @param {{rotor: number|null, binding: string, missing: number}} obstacle */
function noneWords({ rotor, binding, missing }) {
  if (rotor === null) return `None, because ${pairWords(binding)}.`;
  return `None, because with rotor ${exact(rotor)} ${pairWords(binding)} lacks ${lengthText(missing)} at best.`;
}

/** @param {number[]} rotors @param {any} shared */
function windowWords(rotors, shared) {
  const each = rotors.map((rotor, index) => `rotor ${exact(rotor)} ${marginWords(shared.margins[index])} (${pairWords(shared.bindings[index])})`);
  return `${arcWords(shared)}, best ${angleWords(shared.best)}: ${each.join(", ")}.`;
}

/** @param {any} shortest @param {string|undefined} told  The obstacle that the line before names. */
function shortestWords(shortest, told) {
  if (shortest.kind === "found") return `Shortest: tube end ${lengthText(roundedUp(shortest.tube_end))} at ${angleWords(shortest.clock)}.`;
  const { obstacle } = shortest;
  if (obstacle === told) return "No tube end helps.";
  return `No tube end helps: ${pairWords(obstacle)}${obstacle.includes("/") ? " stays too close" : ""}.`;
}
