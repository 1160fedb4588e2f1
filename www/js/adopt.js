/** Taking over what can be used of a setup that comes from outside: from a file, or from what the browser kept. */
import { valueAt, withValueAt } from "./path.js";

/**
 * @typedef {import("./types.js").Field} Field
 * @typedef {import("./types.js").Setup} Setup
 */

/**
 * The defaults with every field of `kept` put in that has the right form.
 * @param {any} kept @param {Setup} defaults @param {Field[]} fields
 */
export function adopt(kept, defaults, fields) {
  let setup = defaults;
  let complete = true;
  for (const field of fields) {
    const value = valueAt(kept, field.key);
    if (hasForm(value, field)) setup = withValueAt(setup, field.key, value);
    else if (value !== undefined || !field.optional) complete = false;
  }
  return { setup, complete };
}

/** Whether the form can show it; whether it is right is for the core to say. @param {any} value @param {Field} field */
export function hasForm(value, field) {
  if (value == null && field.default == null) return true;
  switch (field.kind) {
    case "number": return isNumberOrText(value);
    case "choice": return field.choices.some((choice) => choice.value === value);
    case "flag": return typeof value === "boolean";
    case "text": return typeof value === "string";
    case "vector": return isRow(value, 3);
    case "points": return isList(value, (point) => isRow(point, 2)) && value.length === 2;
    case "readings": return isList(value, isNumberOrText);
    case "bodies": return isList(value, isBody);
  }
}

/** A mistyped number is kept as its text. @param {any} value */
function isNumberOrText(value) {
  return Number.isFinite(value) || typeof value === "string";
}

/** @param {any} value @param {(item: any) => boolean} isItem */
function isList(value, isItem) {
  return Array.isArray(value) && value.every(isItem);
}

/** @param {any} value @param {number} length */
function isRow(value, length) {
  return isList(value, isNumberOrText) && value.length === length;
}

/** @param {any} body */
function isBody(body) {
  return typeof body?.name === "string"
    && isNumberOrText(body.inboard)
    && isNumberOrText(body.outboard)
    && typeof body.bolted === "boolean"
    && isList(body.outline, (point) => isRow(point, 2));
}
