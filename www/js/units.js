/** Lengths between millimetres, which is all that the core knows, and what the builder reads and types. */
import { readNumber, readable } from "./numbers.js";

/** The sign or word after a length. */
export function unitName() {
  return "mm";
}

/**
 * A length for reading, without its unit.
 * @param {number} mm @param {number} [decimals]  Of a millimetre.
 */
export function lengthDigits(mm, decimals = 1) {
  return readable(mm, decimals);
}

/** A length for reading, with its unit. @param {number} mm @param {number} [decimals]  Of a millimetre. */
export function lengthText(mm, decimals = 1) {
  return `${lengthDigits(mm, decimals)} ${unitName()}`;
}

/**
 * The millimetres a text stands for; the text itself, as typed, when it stands for no length.
 * @param {string} text
 * @returns {number|string}
 */
export function readLength(text) {
  return readNumber(text);
}
