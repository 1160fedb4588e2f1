/** Numbers of the cut sheet as they are read at the bench. */
import { readable } from "../numbers.js";
import { lengthDigits, lengthText, unitName } from "../units.js";

const MM_PER_INCH = 25.4;
/** International pound, 1959: exact. */
const KG_PER_POUND = 0.45359237;
const GRAMS = 1000;

/** A length to scribe or to drill. @param {number} mm */
export function fine(mm) {
  return lengthText(mm, 2);
}

/** Without its unit. @param {number} mm */
export function fineDigits(mm) {
  return lengthDigits(mm, 2);
}

/** @param {number|null} mm */
export function plusMinus(mm) {
  return mm == null ? "" : `\u00b1${lengthDigits(mm, 2)}`;
}

/** @param {number} kg */
export function massText(kg) {
  if (unitName() === "in") return `${readable(kg / KG_PER_POUND, 2)} lb`;
  return kg < 1 ? `${readable(kg * GRAMS, 0)} g` : `${readable(kg, 2)} kg`;
}

/** @param {number} mm2 */
export function areaText(mm2) {
  return unitName() === "in" ? `${readable(mm2 / MM_PER_INCH ** 2, 2)} in²` : `${readable(mm2 / 100, 1)} cm²`;
}

/** @param {number} count @param {string} one @param {string} [many] */
export function counted(count, one, many = `${one}s`) {
  return `${count} ${count === 1 ? one : many}`;
}
