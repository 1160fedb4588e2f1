import { element, setText } from "../dom.js";
import { exact } from "../numbers.js";
import { dotted, liesIn } from "../path.js";
import { exactLength, unitName } from "../units.js";
import { inputId } from "./inputs.js";

/**
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").Remark} Remark
 *
 * @typedef {Object} Control  The inputs for one field.
 * @property {HTMLElement} element
 * @property {(value: any) => void} show
 *
 * @typedef {Object} Row  A control with its label, help and remarks.
 * @property {HTMLElement} element
 * @property {Field} field
 * @property {(value: any) => void} show
 * @property {(problems: Remark[], warnings: Remark[]) => void} remark
 */

/**
 * @param {Field} field
 * @param {Control} control
 * @param {{isGroup?: boolean}} [options]  Whether the control holds several inputs, which then go by the row's label as a group.
 * @returns {Row}
 */
export function createRow(field, control, { isGroup = false } = {}) {
  const id = inputId(field.key);
  const label = isGroup
    ? element("span", { className: "field-label", id: `${id}-label` }, field.label)
    : element("label", { className: "field-label", id: `${id}-label`, htmlFor: id }, field.label);
  const { button, text } = createHelp(field, `${id}-help`);
  document.addEventListener("unit", () => setText(text, helpText(field)));
  const note = element("p", { className: "field-note", id: `${id}-note`, hidden: true });
  const row = element(
    "div",
    { className: `field field-${field.kind}`, "data-key": field.key },
    element("div", { className: "field-head" }, label, button),
    control.element,
    text,
    note,
  );
  if (isGroup) {
    row.setAttribute("role", "group");
    row.setAttribute("aria-labelledby", label.id);
  }

  return {
    element: row,
    field,
    show: control.show,
    remark(problems, warnings) {
      const ownProblems = problems.filter((problem) => liesIn(dotted(problem.field), field.key));
      const ownWarnings = warnings.filter((warning) => liesIn(dotted(warning.field), field.key));
      const isRefused = ownProblems.length > 0;
      const messages = (isRefused ? ownProblems : ownWarnings).map((remark) => remark.message);
      if (messages.length === 0 && note.hidden) return;
      setText(note, messages.join(" "));
      note.hidden = messages.length === 0;
      row.classList.toggle("refused", isRefused);
      for (const input of row.querySelectorAll("[data-path]")) markInput(input, ownProblems, note);
    },
  };
}

/** @param {Element} input @param {Remark[]} problems @param {HTMLElement} note */
function markInput(input, problems, note) {
  const path = input.getAttribute("data-path") ?? "";
  const isRefused = problems.some(({ field }) => liesIn(path, dotted(field)) || liesIn(dotted(field), path));
  if (isRefused) input.setAttribute("aria-invalid", "true");
  else input.removeAttribute("aria-invalid");
  if (note.hidden) input.removeAttribute("aria-describedby");
  else input.setAttribute("aria-describedby", note.id);
}

/** @param {Field} field @param {string} id */
function createHelp(field, id) {
  const text = element("p", { className: "field-help", id, hidden: true }, helpText(field));
  const button = element("button", {
    type: "button",
    className: "help",
    textContent: "?",
    "aria-label": `About: ${field.label}`,
    "aria-expanded": "false",
    "aria-controls": id,
  });
  button.addEventListener("click", () => {
    text.hidden = !text.hidden;
    button.setAttribute("aria-expanded", String(!text.hidden));
  });
  return { button, text };
}

/** @param {Field} field */
function helpText({ help, unit, hard, plausible }) {
  const sentences = [help];
  if (plausible) sentences.push(`Usual: ${rangeText(plausible, unit)}.`);
  if (hard) sentences.push(`Allowed: ${rangeText(hard, unit)}.`);
  return sentences.join(" ");
}

/** @param {[number, number]} range @param {string} unit */
function rangeText([low, high], unit) {
  const space = unit === "°" ? "" : " ";
  if (unit === "mm") return `${exactLength(low)} to ${exactLength(high)} ${unitName()}`;
  return `${exact(low)} to ${exact(high)}${unit && space + unit}`;
}
