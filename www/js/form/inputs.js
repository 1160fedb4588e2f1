import { element, emit } from "../dom.js";
import { asTyped, readNumber } from "../numbers.js";
import { lengthAsTyped, readLength, unitName } from "../units.js";

/**
 * The id of the input for a path.
 * @param {string} path
 */
export function inputId(path) {
  return path.replaceAll(".", "-");
}

/**
 * A text input for a number: takes anything typed and passes on what is no number as text, for the core to answer.
 * @param {string} path @param {{isSigned: boolean, unit: string, name?: string}} options  A length has "mm", whatever it is typed in.
 */
export function numberInput(path, { isSigned, unit, name }) {
  const input = element("input", {
    type: "text",
    id: inputId(path),
    className: "number-input",
    autocomplete: "off",
    spellcheck: false,
    enterKeyHint: "done",
    "data-path": path,
    "data-unit": unit,
    ...(isSigned && { "data-signed": "" }),
    ...(name && { "aria-label": name }),
  });
  setKeypad(input);
  input.addEventListener("input", () => emit(input, "edit", { path, value: readInput(input) }));
  return input;
}

/** The decimal keypad, where `withSign` brings the minus; none has what a fraction takes. @param {HTMLInputElement} input */
export function setKeypad(input) {
  input.inputMode = isLength(input) && unitName() === "in" ? "text" : "decimal";
}

/** @param {HTMLInputElement} input */
function isLength(input) {
  return input.dataset.unit === "mm";
}

/** The number typed, or the text where it is none. @param {HTMLInputElement} input */
export function readInput(input) {
  return isLength(input) ? readLength(input.value) : readNumber(input.value);
}

/**
 * What holds the input of a number: for one that may be negative, with a button for its sign, which the style sheet shows
 * on a phone while the input has the focus.
 * @param {HTMLInputElement} input @returns {HTMLElement}
 */
export function withSign(input) {
  if (!("signed" in input.dataset)) return input;
  const button = element("button", { type: "button", className: "step sign", textContent: "\u00b1", "aria-label": "Change the sign" });
  // The keys stay up.
  button.addEventListener("pointerdown", (event) => event.preventDefault());
  button.addEventListener("click", () => {
    const text = input.value.trim();
    input.value = /^[-\u2212]/.test(text) ? text.slice(1) : `-${text.replace(/^\+/, "")}`;
    input.dispatchEvent(new Event("input", { bubbles: true }));
    input.focus();
  });
  return element("span", { className: "signed" }, input, button);
}

/**
 * Shows a value, leaving alone a text that already says it: "203,0" stays while it is typed.
 * @param {HTMLInputElement} input @param {number|string|null|undefined} value
 */
export function showNumber(input, value) {
  const says = input.value === "" ? undefined : readInput(input);
  if (says !== (value ?? undefined)) input.value = isLength(input) ? lengthAsTyped(value) : asTyped(value);
}

/** @param {string} path @param {{name?: string}} [options] */
export function textInput(path, { name } = {}) {
  const input = element("input", {
    type: "text",
    id: inputId(path),
    className: "text-input",
    autocomplete: "off",
    "data-path": path,
    ...(name && { "aria-label": name }),
  });
  input.addEventListener("input", () => emit(input, "edit", { path, value: input.value }));
  return input;
}

/** @param {HTMLInputElement} input @param {string} value */
export function showText(input, value) {
  if (input.value !== value) input.value = value;
}

/** @param {string} path */
export function flagInput(path) {
  const input = element("input", { type: "checkbox", id: inputId(path), className: "flag-input", "data-path": path });
  input.addEventListener("change", () => emit(input, "edit", { path, value: input.checked }));
  return input;
}

/** @param {string} path @param {{value: string, label: string}[]} choices */
export function selectInput(path, choices) {
  const options = choices.map(({ value, label }) => element("option", { value }, label));
  const input = element("select", { id: inputId(path), className: "select-input", "data-path": path }, ...options);
  input.addEventListener("change", () => emit(input, "edit", { path, value: input.value }));
  return input;
}
