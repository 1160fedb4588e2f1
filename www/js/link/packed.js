/**
 * A setup in as few letters as can be: for codes to scan, and for the rare setup whose readable link would be too long.
 *
 * All values are the digits of one large number, each to a base of its own, with a check figure below them. That number is
 * written in the 64 letters that every messenger leaves alone. One piece of code writes and reads: each step is handed
 * what is to be written, and answers what stands there.
 *
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").Setup} Setup
 * @typedef {(value: number, base: number) => number} Digit
 */
import { valueAt, withValueAt } from "../path.js";
import { Unreadable } from "./values.js";

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
/** A prime: a letter changed or lost goes unseen once in a million. */
const CHECK = 999_983n;
const MOST_LETTERS = 2000;
const DAMAGED = "is damaged: letters were lost or changed on the way";

/** Numbers with two decimals up to this take 20 bits, all others 64. */
const SHORT_LIMIT = 5000;
const WORD = 2 ** 32;
const CODE_POINTS = 0x110000;
const MOST_CHARS = 127;
const BYTES = 256;
const MOST_BYTES = 255;
const MOST_CHOICES = 16;
/** The core's limits on bodies. */
const MOST_BODIES = 8;
const MOST_CORNERS = 24;
const COORDINATE_LIMIT = 300;
const PARTS_OF_MM = 1e6;
/** The core's limits on readings. */
const MOST_READINGS = 5;

/** @param {Digit} digit @param {number} [value] */
function number(digit, value = NaN) {
  const hundredths = Math.round(value * 100);
  const isShort = hundredths / 100 === value && !Object.is(value, -0) && Math.abs(value) <= SHORT_LIMIT;
  if (digit(Number(isShort), 2)) return (digit(hundredths + SHORT_LIMIT * 100, SHORT_LIMIT * 200 + 1) - SHORT_LIMIT * 100) / 100;
  const bits = new DataView(new ArrayBuffer(8));
  bits.setFloat64(0, value);
  for (const place of [0, 4]) bits.setUint32(place, digit(bits.getUint32(place), WORD));
  return bits.getFloat64(0);
}

/**
 * A number that has so many decimals at most, within its limits.
 * @param {Digit} digit @param {[number, number]} limits @param {number} decimals @param {number} [value]
 */
function decimal(digit, [low, high], decimals, value = 0) {
  const parts = 10 ** decimals;
  const lowest = Math.round(low * parts);
  return (digit(Math.round(value * parts) - lowest, Math.round(high * parts) - lowest + 1) + lowest) / parts;
}

/** @param {Digit} digit @param {number} [value] */
function coordinate(digit, value = 0) {
  const limit = COORDINATE_LIMIT * PARTS_OF_MM;
  return (digit(Math.round(value * PARTS_OF_MM) + limit, 2 * limit + 1) - limit) / PARTS_OF_MM;
}

/** @param {number} decimals @returns {(digit: Digit, value?: number) => number} */
function decimalCoordinate(decimals) {
  return (digit, value) => decimal(digit, [-COORDINATE_LIMIT, COORDINATE_LIMIT], decimals, value);
}

/** @param {Digit} digit @param {boolean} [value] */
function flag(digit, value) {
  return digit(Number(value), 2) === 1;
}

/**
 * @template Item
 * @param {Digit} digit @param {number} most @param {(item?: Item) => Item} one @param {Item[]} [items]
 */
function list(digit, most, one, items = []) {
  const count = digit(items.length, most + 1);
  return Array.from({ length: count }, (_, index) => one(items[index]));
}

/** @typedef {(digit: Digit, value?: string) => string} TextCode */

/** As in the links of version 1. @type {TextCode} */
function textOfPoints(digit, value = "") {
  const points = [...value].map((char) => char.codePointAt(0) ?? 0);
  return String.fromCodePoint(...list(digit, MOST_CHARS, (point = 0) => digit(point, CODE_POINTS), points));
}

/** The core's limits on names are in bytes too. @type {TextCode} */
function textOfBytes(digit, value = "") {
  const bytes = list(digit, MOST_BYTES, (byte = 0) => digit(byte, BYTES), [...new TextEncoder().encode(value)]);
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(Uint8Array.from(bytes));
  } catch {
    throw new Unreadable(DAMAGED);
  }
}

/** @param {number} version @returns {TextCode} */
function textCode(version) {
  return version === 1 ? textOfPoints : textOfBytes;
}

/** @param {Digit} digit @param {TextCode} text @param {any} [body] */
function body(digit, text, body) {
  return {
    name: text(digit, body?.name),
    outline: list(digit, MOST_CORNERS, (corner) => [0, 1].map((axis) => coordinate(digit, corner?.[axis])), body?.outline),
    inboard: coordinate(digit, body?.inboard),
    outboard: coordinate(digit, body?.outboard),
    bolted: flag(digit, body?.bolted),
  };
}

/** @param {Digit} digit @param {TextCode} text @param {Field} field @param {any} [value] @returns {any} */
function value(digit, text, { kind, choices, default: usual, hard, decimals }, value) {
  switch (kind) {
    case "number": return decimals === null || !hard ? number(digit, value) : decimal(digit, hard, decimals, value);
    case "flag": return flag(digit, value);
    case "text": return text(digit, value);
    case "choice": return choices[digit(Math.max(choices.findIndex((choice) => choice.value === value), 0), MOST_CHOICES)]?.value;
    case "vector":
      if (usual === null && !flag(digit, value != null)) return null;
      return [0, 1, 2].map((axis) => number(digit, value?.[axis]));
    case "points": {
      const one = decimals === null ? number : decimalCoordinate(decimals);
      return [0, 1].map((point) => [0, 1].map((axis) => one(digit, value?.[point][axis])));
    }
    case "readings": return list(digit, MOST_READINGS, (one) => decimal(digit, hard ?? [0, 0], decimals ?? 0, one), value);
    case "bodies": return list(digit, MOST_BODIES, (one) => body(digit, text, one), value);
  }
}

/**
 * @param {Setup} setup @param {number} version @param {Field[]} fields  In the order of that version.
 * @param {(field: Field) => boolean} differs  Whether the setup's value is another than the default.
 */
export function packed(setup, version, fields, differs) {
  /** @type {[number, number][]} */
  const digits = [];
  /** @type {Digit} */
  const digit = (value, base) => {
    digits.push([value, base]);
    return value;
  };
  for (const field of fields) {
    if (flag(digit, differs(field))) value(digit, textCode(version), field, valueAt(setup, field.key));
  }
  const whole = digits.reduceRight((sum, [value, base]) => sum * BigInt(base) + BigInt(value), 0n);
  const octal = (whole * CHECK + whole % CHECK).toString(8);
  const pairs = octal.padStart(octal.length + octal.length % 2, "0").match(/../g) ?? [];
  return pairs.map((pair) => LETTERS[parseInt(pair, 8)]).join("");
}

/**
 * The setup that letters stand for, with the paths of what differs from the defaults.
 * @param {string} letters @param {number} version @param {Setup} defaults @param {Field[]} fields  Those of that version.
 * @returns {{setup: Setup, given: string[]}}
 */
export function unpacked(letters, version, defaults, fields) {
  const places = [...letters].map((letter) => LETTERS.indexOf(letter));
  const isSound = places.length > 0 && places.length <= MOST_LETTERS && !places.includes(-1);
  const sum = isSound ? BigInt(`0o${places.map((place) => place.toString(8).padStart(2, "0")).join("")}`) : 0n;
  let whole = sum / CHECK;
  if (!isSound || whole % CHECK !== sum % CHECK) throw new Unreadable(DAMAGED);
  /** @type {Digit} */
  const digit = (_, base) => {
    const value = Number(whole % BigInt(base));
    whole /= BigInt(base);
    return value;
  };
  let setup = defaults;
  const given = [];
  for (const field of fields) {
    if (!flag(digit)) continue;
    setup = withValueAt(setup, field.key, value(digit, textCode(version), field));
    given.push(field.key);
  }
  if (whole !== 0n) throw new Unreadable(DAMAGED);
  return { setup, given };
}
