import { readable } from "../numbers.js";
import { angleWords, arcWords, turned } from "../search/words.js";
import { lengthText } from "../units.js";

/**
 * What the core says about loads; see wasm/src/load.d.ts.
 *
 * @typedef {import("../types.js").Arc} Arc
 * @typedef {"told"|"holds"|"close"|"over"} State
 *
 * @typedef {Object} Result
 * @property {string} id
 * @property {string} label
 * @property {number} value
 * @property {string} unit
 * @property {number|null} allowable
 * @property {number|null} utilisation
 * @property {State} state
 * @property {string} verdict
 * @property {string} sentence
 * @property {string} formula
 * @property {string} source
 * @property {string} caution
 *
 * @typedef {{id: string, label: string, note: string, results: Result[]}} Group
 * @typedef {[number, number, number]} Triple  Back, up, out.
 * @typedef {{id: string, label: string, on: string, point: Triple, force: Triple, moment: Triple, size: number}} Force  In mm, N and N·mm.
 * @typedef {{id: string, label: string, ends: [[number, number], [number, number]], utilisation: number}} Cut
 *
 * @typedef {Object} Loads
 * @property {string} caution
 * @property {string|null} headline
 * @property {number|null} worst
 * @property {string} worst_id
 * @property {State} state
 * @property {string} case
 * @property {Group[]} groups
 * @property {Force[]} forces
 * @property {Arc[]} seating
 * @property {{rotor: number, hand: number, pad_force: number}[]} rotors
 * @property {{label: string, direction: number|null, outward: number|null, seats: boolean, sentence: string}[]} slots
 * @property {Cut[]} cuts
 * @property {{id: string, ends: [Triple, Triple]}[]} seams
 */

/** Mark and colour of a state; a number to know has neither. @type {Record<State, string>} */
export const TONES = { told: "", holds: "clears", close: "tight", over: "hits" };

/** From here on the core means that there is nothing at all to bear the load. */
const WITHOUT_LIMIT = 1e5;
/** @type {Record<string, number>} */
const DECIMALS = { "N": 0, "N·m": 1, "MPa": 0, "°": 2, "%": 0, "": 2 };
/** Below this a stress is read to a tenth, MPa. */
const SMALL_STRESS = 10;

/** A number of a result with its unit. @param {number} value @param {string} unit */
export function amountText(value, unit) {
  if (unit === "mm") return lengthText(value, 2);
  const decimals = unit === "MPa" && Math.abs(value) < SMALL_STRESS ? 1 : DECIMALS[unit] ?? 1;
  const space = unit === "" || unit === "°" ? "" : "\u00a0";
  return readable(value, decimals) + space + unit;
}

/**
 * How much of what is allowed is used. What is above reads above, what is not never does.
 * @param {{utilisation: number|null}} result
 */
export function shareText({ utilisation }) {
  if (utilisation === null) return "";
  if (utilisation >= WITHOUT_LIMIT) return "nothing to bear it";
  const percent = utilisation > 1 ? Math.max(Math.ceil(utilisation * 100), 101) : Math.round(utilisation * 100);
  return `${percent}\u00a0% of its limit`;
}

/** The share without its words, for where they stand nearby or are heard. @param {{utilisation: number|null}} result */
export function percentText(result) {
  return shareText(result).replace(" of its limit", "");
}

/** The result with the largest utilisation. @param {Loads} loads @returns {Result|undefined} */
export function worstOf({ groups, worst_id }) {
  return groups.flatMap(({ results }) => results).find(({ id }) => id === worst_id);
}

/** @type {Record<State, number>} */
const GRAVITY = { told: 0, holds: 0, close: 1, over: 2 };

/** Those that have a limit: what is too much first, then what is close, and the nearest to its limit first. @param {Result[]} results */
export function weakestFirst(results) {
  return results
    .filter(({ utilisation }) => utilisation !== null)
    .sort((one, other) => GRAVITY[other.state] - GRAVITY[one.state] || Number(other.utilisation) - Number(one.utilisation));
}

/** What passes a limit that is none of strength: bolts that slip, a caliper that twists. @param {Loads} loads */
export function passedWithoutBreaking({ groups }) {
  return groups.flatMap(({ results }) => results).filter(({ utilisation, state }) => Number(utilisation) > 1 && state !== "over");
}

/** Stretches of clock angles; of two ways round, the angle in the middle says which. @param {Arc[]} arcs */
export function stretchWords(arcs) {
  return arcs.length === 0 ? "nowhere" : arcs.map((arc) => (
    arc.width >= 360 ? arcWords(arc) : `${arcWords(arc)} by way of ${angleWords(turned(arc.from + arc.width / 2))}`
  )).join(" and ");
}

/** Whether a clock angle lies in one of the arcs. @param {number} clock @param {Arc[]} arcs */
export function liesInArcs(clock, arcs) {
  return arcs.some(({ from, width }) => (((clock - from) % 360) + 360) % 360 <= width);
}
