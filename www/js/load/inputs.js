import { element } from "../dom.js";
import { createRow } from "../form/row.js";
import { choiceControl, flagControl, numberControl } from "../form/simple.js";
import { valueAt } from "../path.js";

/**
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").Model} Model
 */

const RADIUS = "wheel.tyre_radius";
const WHEEL = ["load.wheel", RADIUS];
const FATIGUE = ["load.bicycle", "load.scheme"];

/** What each case asks for, besides the case itself. @type {Record<string, string[]>} */
const OF_CASE = {
  iso_static: WHEEL,
  iso_fatigue: [...FATIGUE, ...WHEEL],
  rider: ["load.mass", "load.cog_height", "load.cog_to_front", "load.wheelbase", "load.slope", "load.friction", RADIUS],
  own: ["load.own_force", RADIUS],
};
const ALL_OF_CASES = [...new Set(Object.values(OF_CASE).flat())];

/** What each group of results hangs on, besides the case. @type {Record<string, string[]>} */
const OF_GROUP = {
  pads: ["load.pad_friction"],
  axle: ["dropout.slot_direction", "dropout.closed", "load.nut_torque", "load.nut_factor", "load.metal_friction"],
  bolts: ["caliper.bolt.size", "load.bolt_class", "load.bolt_torque"],
  tab: ["load.material", "load.yield_strength", "load.tensile_strength", "dropout.thickness", "dropout.neck_width", "tab.build"],
  weld: ["load.weld.leg", "load.weld.kind", "load.weld.electrode", "load.weld.method", "dropout.weld_length"],
  fatigue: [...FATIGUE, "load.weld.category"],
  tube: ["fork.tube_wall"],
};
const OF_OWN_MATERIAL = ["load.yield_strength", "load.tensile_strength"];

/**
 * Inputs of the setup on this page, each in one place: with the case where that asks for it, else with the group of results
 * that hangs on it, else among those that nothing asks for now.
 * @param {Field[]} fields
 */
export function createInputs(fields) {
  const keys = new Set(["load.case", ...ALL_OF_CASES, ...Object.values(OF_GROUP).flat()]);
  /** @type {Map<string, import("../form/row.js").Row>} */
  const rows = new Map(fields.filter(({ key }) => keys.has(key)).map((field) => [field.key, rowOf(field)]));
  const ofCase = element("div", { className: "load-inputs" });
  const others = element("div", { className: "group-rows" });
  /** @type {Record<string, HTMLElement>} */
  const ofGroup = Object.fromEntries(Object.keys(OF_GROUP).map((id) => [id, element("div", { className: "load-inputs" })]));
  let shownCase = "";

  /** @param {HTMLElement} place @param {string[]} wanted */
  function fill(place, wanted) {
    for (const key of wanted) {
      const row = rows.get(key);
      if (row) place.append(row.element);
    }
  }

  /** @param {string} chosen */
  function lay(chosen) {
    const asked = OF_CASE[chosen];
    fill(others, ALL_OF_CASES.filter((key) => !asked.includes(key)));
    for (const [id, wanted] of Object.entries(OF_GROUP)) fill(ofGroup[id], wanted.filter((key) => !asked.includes(key)));
    // Its select keeps the focus where it is not moved.
    const own = rows.get("load.case");
    if (own && own.element.parentElement !== ofCase) ofCase.prepend(own.element);
    fill(ofCase, asked);
  }

  return {
    ofCase,
    ofGroup,
    others,
    /** @param {string} path @returns {HTMLElement|null}  The input of a value that has its place here. */
    inputFor(path) {
      return rows.get(path)?.element.querySelector("input, select") ?? null;
    },
    /** @param {Model} model */
    update({ setup, problems, report }) {
      const chosen = valueAt(setup, "load.case");
      if (chosen !== shownCase && chosen in OF_CASE) lay(shownCase = chosen);
      for (const [key, row] of rows) {
        row.show(valueAt(setup, key) ?? row.field.default);
        row.remark(problems, report.warnings);
        if (OF_OWN_MATERIAL.includes(key)) row.element.hidden = valueAt(setup, "load.material") !== "own";
      }
    },
  };
}

/** @param {Field} field */
function rowOf(field) {
  const control = field.kind === "choice" ? choiceControl(field) : field.kind === "flag" ? flagControl(field) : numberControl(field);
  const row = createRow(field, control);
  ownIds(row.element);
  return row;
}

/** The same field has its place in the form behind, and no id may be there twice. @param {HTMLElement} row */
function ownIds(row) {
  for (const node of row.querySelectorAll("*")) {
    if (node.id) node.id = `build-${node.id}`;
    for (const name of ["for", "aria-controls", "aria-describedby", "aria-labelledby"]) {
      const id = node.getAttribute(name);
      if (id) node.setAttribute(name, `build-${id}`);
    }
  }
}
