import { byId } from "../dom.js";
import { valueAt } from "../path.js";
import { bodiesControl } from "./bodies.js";
import { createGroup } from "./group.js";
import { pointsControl, vectorControl } from "./points.js";
import { createRow } from "./row.js";
import { choiceControl, flagControl, numberControl, radiosControl, textControl } from "./simple.js";
import { sliderControl } from "./slider.js";

/**
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").FieldGroup} FieldGroup
 * @typedef {import("./row.js").Control} Control
 * @typedef {import("./row.js").Row} Row
 */

/** @type {Record<Field["kind"], (field: Field) => Control>} */
const CONTROLS = {
  number: numberControl,
  choice: choiceControl,
  flag: flagControl,
  text: textControl,
  vector: vectorControl,
  points: pointsControl,
  bodies: bodiesControl,
};
const KINDS_WITH_SEVERAL_INPUTS = ["vector", "points", "bodies"];

/**
 * Every input of the page. Fields that the markup has a place for go there, all others into one group each.
 * @param {FieldGroup[]} fieldGroups
 */
export function createForm(fieldGroups) {
  const fields = fieldGroups.flatMap((group) => group.fields);
  /** @type {Map<string, Row>} */
  const placed = new Map();
  for (const place of document.querySelectorAll("[data-field]")) {
    const field = fields.find(({ key }) => key === place.getAttribute("data-field"));
    if (!field) continue;
    const row = placedRow(field, place.getAttribute("data-as"));
    place.replaceChildren(row.element);
    placed.set(field.key, row);
  }

  const groups = fieldGroups.map((fieldGroup) => {
    const rest = fieldGroup.fields.filter(({ key }) => !placed.has(key));
    const elsewhere = fieldGroup.fields.filter(({ key }) => placed.has(key));
    return createGroup(fieldGroup, rest.map(createPlainRow), elsewhere);
  });
  byId("groups").replaceChildren(...groups.map((group) => group.element));
  const rows = [...placed.values(), ...groups.flatMap((group) => group.rows)];

  return {
    /** @param {import("../types.js").Model} model */
    update({ setup, problems, report }) {
      for (const row of rows) {
        row.show(valueAt(setup, row.field.key));
        row.remark(problems, report.warnings);
      }
      for (const group of groups) group.count();
    },
  };
}

/** @param {Field} field @param {string|null} form */
function placedRow(field, form) {
  if (form === "radios") return bareRow(field, radiosControl(field));
  return createRow(field, sliderControl(field));
}

/** @param {Field} field */
function createPlainRow(field) {
  return createRow(field, CONTROLS[field.kind](field), { isGroup: KINDS_WITH_SEVERAL_INPUTS.includes(field.kind) });
}

/**
 * A control that brings its own label and cannot hold a wrong value.
 * @param {Field} field @param {Control} control @returns {Row}
 */
function bareRow(field, control) {
  return { ...control, field, remark() {} };
}
