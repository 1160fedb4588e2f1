import { element, emit } from "../dom.js";
import { unitMark } from "../unit-switch.js";
import { flagInput, inputId, numberInput, selectInput, showNumber, showText, textInput, withSign } from "./inputs.js";

/**
 * Controls with a single value.
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("./row.js").Control} Control
 */

/** Whether a number may be negative. @param {Field} field */
export function isSigned({ hard }) {
  return hard === null || hard[0] < 0;
}

/** @param {Field} field @returns {Control} */
export function numberControl(field) {
  const input = numberInput(field.key, { isSigned: isSigned(field), unit: field.unit });
  return {
    element: withUnit(input, field.unit),
    show: (value) => showNumber(input, value),
  };
}

/** @param {HTMLElement} input @param {string} unit */
export function withUnit(input, unit) {
  return element("span", { className: "with-unit" }, withSign(input), unitMark(unit));
}

/** @param {Field} field @returns {Control} */
export function textControl(field) {
  const input = textInput(field.key);
  return { element: input, show: (value) => showText(input, value) };
}

/** @param {Field} field @returns {Control} */
export function flagControl(field) {
  const input = flagInput(field.key);
  return {
    element: inFullTarget(input),
    show: (value) => { input.checked = value; },
  };
}

/** A checkbox in a label of its own that is large enough to tap. @param {HTMLInputElement} input */
export function inFullTarget(input) {
  return element("label", { className: "flag" }, input);
}

/** @param {Field} field @returns {Control} */
export function choiceControl(field) {
  const input = selectInput(field.key, field.choices);
  // Alone in a form that goes nowhere: browsers that fill in addresses look at all selects outside of forms together, with
  // the words around them, each time that any slider moves, which takes longer than the step itself.
  const form = element("form", { method: "dialog" }, input);
  return { element: form, show: (value) => { input.value = value; } };
}

/**
 * A choice as a switch with all words in sight, for the head of the page: a control with its own label.
 * @param {Field} field @returns {Control}
 */
export function radiosControl(field) {
  const name = inputId(field.key);
  const radios = field.choices.map(({ value }) => element("input", { type: "radio", name, value, "data-path": field.key }));
  const labels = field.choices.map(({ label }, index) => element("label", {}, radios[index], element("span", {}, label)));
  const legend = element("legend", { className: "hidden-text" }, field.label);
  const set = element("fieldset", { className: "switch" }, legend, ...labels);
  set.addEventListener("change", (event) => {
    const value = /** @type {HTMLInputElement} */ (event.target).value;
    emit(set, "edit", { path: field.key, value });
  });
  return {
    element: set,
    show(value) {
      for (const radio of radios) radio.checked = radio.value === value;
    },
  };
}
