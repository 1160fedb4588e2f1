import { element, emit } from "../dom.js";
import { unitMark } from "../unit-switch.js";
import { lengthAsTyped, readLength } from "../units.js";
import { inputId } from "./inputs.js";

/**
 * Several readings of one length in one line: "119.2; 119.3".
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("./row.js").Control} Control
 */

const BETWEEN = "; ";

/** The readings of a text, in millimetres; one that is no length stays as its text. @param {string} text */
export function readReadings(text) {
  return text.split(";").map((piece) => piece.trim()).filter((piece) => piece !== "").map((piece) => readLength(piece));
}

/**
 * A text input for readings that passes on what is no length as text, for the core to answer.
 * @param {string} path @param {{id?: string, name?: string}} [options]
 */
export function readingsInput(path, { id = inputId(path), name } = {}) {
  const input = element("input", {
    type: "text",
    id,
    className: "number-input readings-input",
    autocomplete: "off",
    spellcheck: false,
    enterKeyHint: "done",
    "data-path": path,
    "data-readings": "",
    ...(name && { "aria-label": name }),
  });
  input.addEventListener("input", () => emit(input, "edit", { path, value: readReadings(input.value) }));
  return input;
}

/**
 * Shows readings, leaving alone a text that already says them.
 * @param {HTMLInputElement} input @param {(number|string)[]|null|undefined} value
 */
export function showReadings(input, value) {
  const readings = value ?? [];
  if (JSON.stringify(readReadings(input.value)) === JSON.stringify(readings)) return;
  input.value = readings.map((one) => lengthAsTyped(one)).join(BETWEEN);
}

/** @param {Field} field @returns {Control} */
export function readingsControl(field) {
  const input = readingsInput(field.key);
  return {
    element: element("span", { className: "with-unit" }, input, unitMark(field.unit)),
    show: (value) => showReadings(input, value),
  };
}
