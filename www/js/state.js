import { valueAt, withValueAt } from "./path.js";

/**
 * @typedef {import("./types.js").Core} Core
 * @typedef {import("./types.js").Field} Field
 * @typedef {import("./types.js").Setup} Setup
 */

const STORAGE_KEY = "tabwright-setup";
const SAVE_DELAY_MS = 300;

/**
 * The setup to start with: the one kept from last time, else the defaults.
 * `remark` says in a sentence what of the kept one could not be used.
 * @param {Core} core
 * @returns {{setup: Setup, goodSetup: Setup, remark: string}}
 */
export function startingState(core) {
  const defaults = core.defaultSetup();
  const afresh = { setup: defaults, goodSetup: defaults };
  try {
    const text = localStorage.getItem(STORAGE_KEY);
    if (text === null) return { ...afresh, remark: "" };
    const kept = JSON.parse(text);
    const fields = core.fields().flatMap((group) => group.fields);
    const setup = adopt(kept.setup, defaults, fields);
    const goodSetup = adopt(kept.goodSetup, defaults, fields);
    const complete = setup.complete && goodSetup.complete;
    if (!core.report(goodSetup.setup).ok) throw new Error("no usable setup");
    const remark = complete ? "" : "Part of the setup kept from last time could not be read; example values stand in its place.";
    return { setup: setup.setup, goodSetup: goodSetup.setup, remark };
  } catch {
    return { ...afresh, remark: "The setup kept from last time could not be read. These are the example values." };
  }
}

/**
 * Keeps the state a moment after the last change, and at once when the page is left.
 * @param {() => {setup: Setup, goodSetup: Setup}} currentState
 * @param {(message: string) => void} complain  Told once when nothing can be kept.
 */
export function createKeeper(currentState, complain) {
  let timer = 0;
  let hasComplained = false;

  function save() {
    clearTimeout(timer);
    try {
      localStorage.setItem(STORAGE_KEY, JSON.stringify(currentState()));
    } catch {
      if (!hasComplained) complain("This browser does not let the page keep your setup: it will be gone after a reload.");
      hasComplained = true;
    }
  }

  addEventListener("pagehide", save);
  return {
    update() {
      clearTimeout(timer);
      timer = setTimeout(save, SAVE_DELAY_MS);
    },
  };
}

/**
 * The defaults with every field of `kept` put in that has the right form.
 * @param {any} kept @param {Setup} defaults @param {Field[]} fields
 */
function adopt(kept, defaults, fields) {
  let setup = defaults;
  let complete = true;
  for (const field of fields) {
    const value = valueAt(kept, field.key);
    if (hasForm(value, field)) setup = withValueAt(setup, field.key, value);
    else complete = false;
  }
  return { setup, complete };
}

/** Whether a value, from wherever it comes, has the form of a field's. @param {any} value @param {Field} field */
export function hasForm(value, field) {
  if (value == null && field.default == null) return true;
  switch (field.kind) {
    case "number": return isNumberOrText(value);
    case "choice": return field.choices.some((choice) => choice.value === value);
    case "flag": return typeof value === "boolean";
    case "text": return typeof value === "string";
    case "vector": return isRow(value, 3);
    case "points": return isList(value, (point) => isRow(point, 2));
    case "bodies": return isList(value, isBody);
  }
}

/** A mistyped number is kept as its text. @param {any} value */
function isNumberOrText(value) {
  return typeof value === "number" || typeof value === "string";
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
