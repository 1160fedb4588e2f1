import { readable } from "../numbers.js";
import { lengthText } from "../units.js";

/** Words for what the searches answer. */

/** @type {Record<string, string>} */
const OWN_WORDS = {
  "rotor/throat": "rotor to caliper bridge",
  line: "no clock angle lets the line run up the leg",
  wheel: "no clock angle lets the wheel drop out",
  rules: "no clock angle keeps to the rules ticked above",
};

/** Where a line runs. @type {Record<string, string>} */
export const WAY_WORDS = {
  up: "up the leg",
  across: "across the leg",
  away: "away from the crown",
};

/** What binds or stands in the way. @param {string} key  Such as "caliper/tube". */
export function pairWords(key) {
  return OWN_WORDS[key] ?? key.replace("/", " to ");
}

/** @param {number} margin  Of a gap over the smallest wanted, mm. */
export function marginWords(margin) {
  return margin >= 0 ? `${lengthText(margin)} to spare` : `lacks ${lengthText(-margin)}`;
}

/** @param {number} clock */
export function angleWords(clock) {
  return `${readable(clock)}°`;
}

/** A stretch of clock angles. @param {{from: number, width: number}} arc */
export function arcWords({ from, width }) {
  return width >= 360 ? "all round" : `${angleWords(from)} to ${angleWords(turned(from + width))}`;
}

/** @param {{from: number, width: number}[]} arcs */
export function arcsWords(arcs) {
  return arcs.length === 0 ? "nowhere" : arcs.map(arcWords).join(" and ");
}

/** A clock angle in (−180, 180]. @param {number} clock */
export function turned(clock) {
  const around = ((clock % 360) + 360) % 360;
  return around > 180 ? around - 360 : around;
}

/** A length or angle as it is scribed. @param {number} value @param {number} [decimals] */
export function scribed(value, decimals = 1) {
  return Number(value.toFixed(decimals));
}
