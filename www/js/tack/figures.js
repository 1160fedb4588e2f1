import { exact, readable } from "../numbers.js";
import { lengthDigits, lengthText, unitName } from "../units.js";

/**
 * Numbers of stack and tack for reading. Lengths to a hundredth, or a thousandth of an inch: that is what they are held to.
 * @typedef {{value: number, uncertainty: number}} Measured
 */

const DECIMALS = 2;
const SHARE_DECIMALS = 1;
/** Shares of builds this near to all would round to all, and to none. */
const NEARLY = 0.9995;

/** @param {number} value @param {string} [unit]  "mm", "°", or "" for a share. */
export function figure(value, unit = "mm") {
  return digits(value, unit) + mark(unit);
}

/** A number with its ±. @param {Measured} measured @param {string} [unit] */
export function withDoubt({ value, uncertainty }, unit = "mm") {
  return `${digits(value, unit)} ± ${digits(uncertainty, unit)}${mark(unit)}`;
}

/** A change with its ±. @param {number} change @param {number} uncertainty @param {string} [unit] */
export function signedWithDoubt(change, uncertainty, unit = "mm") {
  const text = withDoubt({ value: change, uncertainty }, unit);
  return change > 0 && !isNothing(text.split(" ± ")[0]) ? `+${text}` : text;
}

/** @param {number} value @param {string} unit */
function digits(value, unit) {
  if (unit === "mm") return lengthDigits(value, DECIMALS);
  return unit === "" ? readable(value * 100, SHARE_DECIMALS) : readable(value, DECIMALS);
}

/** @param {string} unit */
function mark(unit) {
  if (unit === "mm") return unitName() === "mm" ? " mm" : "\"";
  return unit === "" ? " %" : unit;
}

/** A change, with its sign. @param {number} value @param {string} [unit] */
export function signed(value, unit = "mm") {
  const text = figure(value, unit);
  return value > 0 && !isNothing(text) ? `+${text}` : text;
}

/** @param {string} text */
function isNothing(text) {
  return !/[1-9]/.test(text);
}

/** A share of builds. @param {number} share */
export function shareText(share) {
  if (share < 1 && share > NEARLY) return "more than 99.9 %";
  if (share > 0 && share < 1 - NEARLY) return "less than 0.1 %";
  return `${readable(share * 100, share === 1 || share === 0 ? 0 : 1)} %`;
}

/** A tolerance as it was given. @param {number} value @param {string} unit */
export function plusMinus(value, unit) {
  return unit === "mm" ? `±${lengthText(value, DECIMALS)}` : `±${exact(Number(value.toFixed(DECIMALS)))}${unit}`;
}

/** What is allowed, in words. @param {number|null} low @param {number|null} high @param {string} [unit] */
export function allowed(low, high, unit = "mm") {
  if (low !== null && high !== null) {
    return low === -high ? plusMinus(high, unit) : `${figure(low, unit)} to ${figure(high, unit)}`;
  }
  if (low !== null) return `\u2265 ${figure(low, unit)}`;
  return high !== null ? `\u2264 ${figure(high, unit)}` : "\u2013";
}
