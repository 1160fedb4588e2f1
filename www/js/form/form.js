import { byId } from "../dom.js";
import { valueAt } from "../path.js";
import { bodiesControl } from "./bodies.js";
import { createGroup } from "./group.js";
import { pointsControl, vectorControl } from "./points.js";
import { readingsControl } from "./readings.js";
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
  readings: readingsControl,
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
  const rows = [...placed.values(), ...groups.flatMap((group) => group.rows)]
    .map((row) => Object.assign(row, { branch: row.field.key.split(".", 1)[0] }));
  /** @type {Map<Row, any>} */
  const shown = new Map();
  let shownRemarks = "";
  /** @type {Record<string, any>} */
  let shownSetup = {};
  document.addEventListener("unit", () => {
    shown.clear();
    shownSetup = {};
  });

  return {
    /** @param {import("../types.js").Model} model */
    update({ setup, problems, report }) {
      // The numbers in remarks that nobody is shown change with every step.
      const remarks = JSON.stringify([problems, report.warnings].map((list) => list.map(({ field, message }) => [field, message])));
      const isSame = remarks === shownRemarks;
      for (const row of rows) {
        // Branches that nobody changed are the same objects.
        if (isSame && setup[row.branch] === shownSetup[row.branch]) continue;
        const value = valueAt(setup, row.field.key);
        const isShown = shown.has(row) && shown.get(row) === value;
        if (isShown && isSame) continue;
        if (!isShown) row.show(value);
        shown.set(row, value);
        row.remark(problems, report.warnings);
      }
      if (!isSame) for (const group of groups) group.count();
      shownRemarks = remarks;
      shownSetup = setup;
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
