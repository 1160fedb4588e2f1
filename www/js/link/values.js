/** One value of a setup as text in a link, by the kind of its field. Text is plain here; `read.js` and `write.js` see to a link's escapes. */
import { readNumber } from "../numbers.js";

/** @typedef {import("../types.js").Field} Field */

const NONE = "none";
const BOLTED = "bolted";
const SEPARATORS = /[%,;/]/g;

/** The shortest digits that read back as the same number. @param {number} value */
function numberText(value) {
  return Object.is(value, -0) ? "-0" : String(value);
}

/** @param {number[]} row */
function rowText(row) {
  return row.map(numberText).join(",");
}

/** @param {number[][]} rows */
function rowsText(rows) {
  return rows.map(rowText).join(";");
}

/** @param {any} body */
function bodyText({ name, outline, inboard, outboard, bolted }) {
  const own = name.replace(SEPARATORS, encodeURIComponent);
  const head = [own, numberText(inboard), numberText(outboard), ...(bolted ? [BOLTED] : [])].join(",");
  return `${head};${rowsText(outline)}`;
}

/** @param {any} value @param {Field} field @returns {string} */
export function valueText(value, { kind }) {
  switch (kind) {
    case "number": return numberText(value);
    case "flag": return value ? "yes" : "no";
    case "vector": return value == null ? NONE : rowText(value);
    case "points": return rowsText(value);
    case "readings": return value.length === 0 ? NONE : rowText(value);
    case "bodies": return value.map(bodyText).join("/");
    default: return value;
  }
}

/** Why a text stands for no value, as the end of a sentence that begins with the field's name. */
export class Unreadable extends Error {}

/** @param {string} text */
function numberOf(text) {
  const number = readNumber(text);
  if (typeof number !== "number") throw new Unreadable("is not a number");
  return number;
}

/** @param {string} text @param {number} length */
function rowOf(text, length) {
  const row = text.split(",");
  if (row.length !== length) throw new Unreadable(`needs ${length} numbers with commas between them`);
  return row.map(numberOf);
}

/** @param {string} text */
function bodyOf(text) {
  const [head, ...corners] = text.split(";");
  const [own, inboard, outboard, bolted, ...rest] = head.split(",");
  if (outboard === undefined || rest.length > 0 || ![undefined, BOLTED].includes(bolted?.trim())) {
    throw new Unreadable("needs name, inboard, outboard and perhaps \"bolted\" for each body");
  }
  return {
    name: own.replace(/%(25|2C|3B|2F)/gi, decodeURIComponent),
    outline: corners.map((corner) => rowOf(corner, 2)),
    inboard: numberOf(inboard),
    outboard: numberOf(outboard),
    bolted: bolted !== undefined,
  };
}

/**
 * The value that a text stands for; whether it is in range is for the core to say.
 * @param {string} text @param {Field} field
 * @returns {any}
 */
export function valueOf(text, { kind, choices, default: usual }) {
  const word = text.trim();
  switch (kind) {
    case "number": return numberOf(word);
    case "text": return text;
    case "choice":
      if (choices.some(({ value }) => value === word)) return word;
      throw new Unreadable(`is none of ${choices.map(({ value }) => value).join(", ")}`);
    case "flag":
      if (word === "yes" || word === "no") return word === "yes";
      throw new Unreadable("is neither yes nor no");
    case "vector": return usual === null && word === NONE ? null : rowOf(word, 3);
    case "points": {
      const rows = word.split(";");
      if (rows.length !== 2) throw new Unreadable("needs two points with a semicolon between them");
      return rows.map((row) => rowOf(row, 2));
    }
    case "readings": return word === NONE ? [] : rowOf(word, word.split(",").length);
    case "bodies": return text.split("/").map(bodyOf);
  }
}
