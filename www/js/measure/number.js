import { element, setText } from "../dom.js";
import { flagInput, inputId, numberInput, selectInput, showNumber } from "../form/inputs.js";
import { inFullTarget, isSigned, withUnit } from "../form/simple.js";
import { dotted, liesIn, valueAt } from "../path.js";

/**
 * One field in the guide: its input in large, and what is wrong with it.
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").Model} Model
 * @typedef {import("../types.js").Remark} Remark
 */

/** @param {Field} field @param {(path: string) => any} [valueOf]  Where the value is no part of the setup. */
export function createEntry(field, valueOf) {
  const { input, shown } = inputs(field);
  // The same field has its place in the form behind.
  input.id = `measure-${inputId(field.key)}`;
  const note = element("p", { className: "field-note", id: `${input.id}-note`, hidden: true });
  const label = element("label", { className: "hidden-text", htmlFor: input.id }, field.label);
  const row = element("div", { className: "field measure-entry" }, label, shown, note);

  return {
    element: row,
    /** @param {Model} model @param {Remark[]} problems @param {Remark[]} doubts  Of numbers that are no part of the setup. */
    update(model, problems, doubts) {
      const value = valueOf ? valueOf(field.key) : valueAt(model.setup, field.key);
      if (input instanceof HTMLSelectElement) input.value = value;
      else if (input.type === "checkbox") input.checked = value;
      else showNumber(input, value);
      const isOwn = (/** @type {Remark} */ remark) => liesIn(dotted(remark.field), field.key);
      const refused = [...problems, ...model.problems.filter(isOwn)];
      const warned = [...doubts, ...model.report.warnings.filter(isOwn)];
      const messages = (refused.length > 0 ? refused : warned).map(({ message }) => message);
      setText(note, messages.join(" "));
      note.hidden = messages.length === 0;
      row.classList.toggle("refused", refused.length > 0);
      if (refused.length > 0) input.setAttribute("aria-invalid", "true");
      else input.removeAttribute("aria-invalid");
      if (note.hidden) input.removeAttribute("aria-describedby");
      else input.setAttribute("aria-describedby", note.id);
    },
  };
}

/** @param {Field} field @returns {{input: HTMLInputElement|HTMLSelectElement, shown: HTMLElement}} */
function inputs(field) {
  if (field.kind === "choice") {
    const input = selectInput(field.key, field.choices);
    return { input, shown: input };
  }
  if (field.kind === "flag") {
    const input = flagInput(field.key);
    return { input, shown: inFullTarget(input) };
  }
  const input = numberInput(field.key, { isSigned: isSigned(field), unit: field.unit });
  return { input, shown: withUnit(input, field.unit) };
}
