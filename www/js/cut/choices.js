import { element } from "../dom.js";
import { pointsControl } from "../form/points.js";
import { createRow } from "../form/row.js";
import { choiceControl, numberControl } from "../form/simple.js";
import { valueAt } from "../path.js";
import { isAbout } from "./said.js";

/**
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").Model} Model
 * @typedef {import("../types.js").Remark} Remark
 */

/** Of the setup, in the order of the bench. */
const KEYS = [
  "tab.build", "tab.weld_gap", "tab.old_edge", "tab.fillet_radius", "dropout.slot_chamfer", "cut.hole_fit",
  "cut.tolerance_class", "cut.least_edge", "cut.least_net", "load.material",
];
/** Told only where the tab is welded to a plate that is there. */
const OLD_EDGE = "tab.old_edge";
const CONTROLS = { number: numberControl, choice: choiceControl, points: pointsControl };
const REFERENCES = ["id", "for", "aria-controls", "aria-labelledby", "aria-describedby"];
const PREFIX = "cutting-";

/** The fields of the setup that say how it is cut, once more. @param {Field[]} fields @param {(path: string) => string} [label] */
export function createChoices(fields) {
  const rows = KEYS.flatMap((key) => fields.filter((field) => field.key === key)).map((field) => (
    createRow(field, CONTROLS[/** @type {keyof typeof CONTROLS} */ (field.kind)](field), { isGroup: field.kind === "points" })
  ));
  const words = element("span", { className: "remark" });
  const fold = element("details", { className: "group cut-choices" },
    element("summary", {}, "How it is made ", words),
    element("div", { className: "group-rows" }, ...rows.map((row) => row.element)));

  return {
    element: fold,
    /** @param {Model} model @param {Remark[]} refusals @param {Remark[]} warnings  Of the sheet. */
    update({ setup, problems, report }, refusals, warnings) {
      for (const row of rows) {
        row.show(valueAt(setup, row.field.key));
        row.remark([...problems, ...refusals], unique([...warnings, ...report.warnings]));
        row.element.hidden = row.field.key === OLD_EDGE && setup.tab.build !== "on_existing"
          && !problems.some((problem) => isAbout(problem, OLD_EDGE));
        // The same fields have their places in the form behind.
        rename(row.element);
      }
      const chosen = (/** @type {string} */ key) => {
        const field = fields.find((one) => one.key === key);
        return field?.choices.find(({ value }) => value === valueAt(setup, key))?.label;
      };
      words.textContent = ["tab.build", "cut.hole_fit", "load.material"].map(chosen).filter(Boolean).join(", ");
    },
    /** The place to change a field, if it is here. @param {string} path @returns {HTMLElement|null} */
    inputFor(path) {
      const row = rows.find(({ field, element: { hidden } }) => !hidden && isAbout({ field: path, message: "" }, field.key));
      return row?.element.querySelector("input, select") ?? null;
    },
  };
}

/** @param {Remark[]} remarks */
function unique(remarks) {
  return remarks.filter(({ message }, index) => remarks.findIndex((other) => other.message === message) === index);
}

/** Gives what is in a row ids of its own. @param {HTMLElement} row */
export function rename(row) {
  for (const name of REFERENCES) {
    for (const part of [row, ...row.querySelectorAll(`[${name}]`)]) {
      const value = part.getAttribute(name);
      if (value && !value.startsWith(PREFIX)) part.setAttribute(name, PREFIX + value);
    }
  }
}
