/**
 * Lengths between millimetres, which is all that the core and a setup know, and what the builder reads and types.
 *
 * An inch is 25.4 mm by definition (international yard and pound agreement, 1959).
 */
import { exact, readNumber, readable } from "./numbers.js";

/** @typedef {"mm"|"in"} LengthUnit */

const STORAGE_KEY = "tabwright-length-unit";
const MM_PER_INCH = 25.4;
/** An inch is MM_PER / PER millimetres, in whole numbers. */
const MM_PER = 127;
const PER = 5;
const FINEST = 64;
/** From here on a builder reads inches off a rule and not off a caliper gauge. Common practice, no source. */
const RULE_FROM_IN = 0.5;
const INCH_DECIMALS = 3;
/** A millionth is far below what is measured, holds every 64th exactly, and keeps a setup short. */
const MM_DECIMALS = 6;
/** A value this near to a 64th was one before it became a double, in 64ths. */
const DUST = 1e-9;

/** @type {LengthUnit} */
let unit = "mm";

/** The unit lengths are shown in, and typed in where none is said. */
export function unitName() {
  return unit;
}

/** @param {LengthUnit} wanted */
export function useUnit(wanted) {
  unit = wanted;
}

/** The unit chosen last time. @returns {LengthUnit} */
export function keptUnit() {
  try {
    return localStorage.getItem(STORAGE_KEY) === "in" ? "in" : "mm";
  } catch {
    return "mm";
  }
}

/** @param {LengthUnit} wanted */
export function keepUnit(wanted) {
  try {
    localStorage.setItem(STORAGE_KEY, wanted);
  } catch {
    // Asked again next time.
  }
}

/**
 * A length for reading, without its unit: to a tenth of a millimetre or a 64th, to a hundredth or a thousandth of an inch
 * with two decimals. Small inches are in thousandths throughout.
 * @param {number} mm @param {number} [decimals]  Of a millimetre.
 */
export function lengthDigits(mm, decimals = 1) {
  if (unit === "mm") return readable(mm, decimals);
  const inches = mm / MM_PER_INCH;
  const parts = Math.round(Math.abs(inches) * FINEST);
  if (decimals > 1 || parts < RULE_FROM_IN * FINEST) return readable(inches, INCH_DECIMALS);
  return (mm < 0 ? "\u2212" : "") + fraction(parts);
}

/** A length for reading, with its unit. @param {number} mm @param {number} [decimals]  Of a millimetre. */
export function lengthText(mm, decimals = 1) {
  return unit === "mm" ? `${lengthDigits(mm, decimals)} mm` : `${lengthDigits(mm, decimals)}"`;
}

/** A length as it was given, with all its decimals, without its unit. @param {number} mm */
export function exactLength(mm) {
  return unit === "mm" ? exact(mm) : typedInches(mm).replace("-", "\u2212");
}

/**
 * A length or mistyped text as an input shows it.
 * @param {number|string|null|undefined} value @param {LengthUnit} [shown]
 */
export function lengthAsTyped(value, shown = unit) {
  if (value == null) return "";
  return typeof value === "number" && shown === "in" ? typedInches(value) : String(value);
}

/** @param {number} mm */
function typedInches(mm) {
  const parts = Math.abs(mm) * PER * FINEST / MM_PER;
  const whole = Math.round(parts);
  if (Math.abs(parts - whole) < DUST) return (mm < 0 && whole > 0 ? "-" : "") + fraction(whole);
  return String(Number((mm / MM_PER_INCH).toFixed(4)));
}

/** 64ths as a mixed number in lowest terms. @param {number} parts */
function fraction(parts) {
  const whole = Math.floor(parts / FINEST);
  let [top, bottom] = [parts % FINEST, FINEST];
  if (top === 0) return String(whole);
  while (top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  return whole === 0 ? `${top}/${bottom}` : `${whole} ${top}/${bottom}`;
}

/**
 * The step of a button, in mm: a round one in the unit at hand.
 * @param {number} step  In millimetres.
 */
export function lengthStep(step) {
  if (unit === "mm") return step;
  if (step < 1) return MM_PER_INCH / FINEST;
  return step < 5 ? MM_PER_INCH / 16 : MM_PER_INCH / 4;
}

const SPECIAL_FRACTION = /[\u00bc-\u00be\u2150-\u215e]/g;
const UNIT_MARK = /\s*(mm|millimet(?:re|er)s?|"|\u2033|\u201d|''|\u2032\u2032|in(?:ch(?:es)?)?\.?)$/i;
const MIXED = /^([+-]?)(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\s*\/\s*(\d+)$/;
const DECIMAL = /^([+-]?)(\d*)(?:\.(\d*))?$/;

/**
 * The millimetres a text stands for; the text itself, as typed, when it stands for no length. `31.8`, `31,8 mm`, `1.25in`,
 * `1 1/4"`, `1-1/4 in`; a number without a unit is in the one assumed, and a bare fraction is read only where that is inches.
 * @param {string} text @param {LengthUnit} [assumed]  The page's, if none is given.
 * @returns {number|string}
 */
export function readLength(text, assumed = unit) {
  const plain = text.replace(SPECIAL_FRACTION, (sign) => ` ${sign.normalize("NFKC")}`)
    .replaceAll("\u2044", "/").replaceAll("\u2212", "-").replace(",", ".").trim();
  const mark = plain.match(UNIT_MARK);
  const said = mark ? plain.slice(0, mark.index) : plain;
  const isInches = mark ? !/^mm|^milli/i.test(mark[1]) : assumed === "in";
  if (!isInches) return typeof readNumber(said) === "number" ? readNumber(said) : text;
  const mm = inchesToMm(said);
  return Number.isFinite(mm) ? Number(mm.toFixed(MM_DECIMALS)) : text;
}

/**
 * The double nearest to the length, as both parts of the quotient are whole; NaN where the text is no number.
 * @param {string} text
 */
function inchesToMm(text) {
  const mixed = text.match(MIXED);
  if (mixed) {
    const [, sign, whole = "0", top, bottom] = mixed;
    if (Number(bottom) === 0) return NaN;
    return ratio(sign, Number(whole) * Number(bottom) + Number(top), Number(bottom));
  }
  const decimal = text.match(DECIMAL);
  if (decimal && (decimal[2] || decimal[3])) {
    const [, sign, whole, rest = ""] = decimal;
    const [top, bottom] = [Number(whole + rest), 10 ** rest.length];
    if (Number.isSafeInteger(top * MM_PER) && Number.isSafeInteger(bottom * PER)) return ratio(sign, top, bottom);
  }
  const number = readNumber(text);
  return typeof number === "number" ? number * MM_PER_INCH : NaN;
}

/** @param {string} sign @param {number} top @param {number} bottom  Of an inch. */
function ratio(sign, top, bottom) {
  const mm = (top * MM_PER) / (bottom * PER);
  return sign === "-" ? -mm : mm;
}
