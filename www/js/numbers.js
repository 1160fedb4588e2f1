/** Numbers between text and data. */

const PLAIN_NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;
const MINUS = "\u2212";

/**
 * The number a text stands for, with a comma or a point; the text itself, as typed, when it stands for none.
 * @param {string} text
 * @returns {number|string}
 */
export function readNumber(text) {
  const plain = text.trim().replace(",", ".").replace(MINUS, "-");
  const number = PLAIN_NUMBER.test(plain) ? Number(plain) : NaN;
  return Number.isFinite(number) ? number : text;
}

/**
 * A number or mistyped text as a field shows it.
 * @param {number|string|null|undefined} value
 */
export function asTyped(value) {
  return value == null ? "" : String(value);
}

/**
 * A number for reading, with as many decimals as it has.
 * @param {number} value
 */
export function exact(value) {
  return String(value).replace("-", MINUS);
}

/**
 * A number for reading, with a true minus and a fixed count of decimals.
 * @param {number} value @param {number} [decimals]
 */
export function readable(value, decimals = 1) {
  const text = value.toFixed(decimals);
  const isZero = Number(text) === 0;
  return isZero ? text.replace("-", "") : text.replace("-", MINUS);
}

/**
 * `value` moved by `step` without the dust of binary fractions, kept inside the limits.
 * @param {number} value @param {number} step @param {[number, number]|null} limits
 */
export function stepped(value, step, limits) {
  const moved = Number((value + step).toFixed(6));
  return limits ? Math.min(Math.max(moved, limits[0]), limits[1]) : moved;
}
