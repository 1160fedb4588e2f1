import { element, emit } from "../dom.js";
import { stepped } from "../numbers.js";
import { numberInput, readInput, showNumber, withSign } from "./inputs.js";

/**
 * Controls made of rows of coordinates in the caliper's own frame.
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("./row.js").Control} Control
 * @typedef {(number|string)[]} Point  Two coordinates; one mistyped is its text.
 */

const AXES = ["Clockwise", "Away from axle", "Outboard"];
const FLAT_AXES = AXES.slice(0, 2);
const HOLES = "caliper.holes";

/** Three coordinates, which may all be left empty where the field may be left out. @param {Field} field @returns {Control} */
export function vectorControl(field) {
  const inputs = AXES.map(
    (axis, index) => numberInput(`${field.key}.${index}`, { isSigned: true, unit: field.unit, name: `${field.label}, ${axis}` }),
  );
  const table = element("div", { className: "points points-3" }, ...headings(AXES), ...inputs.map(withSign));
  table.addEventListener("edit", (event) => {
    if (event.target === table) return;
    event.stopPropagation();
    const isLeftOut = field.default == null && inputs.every((input) => input.value.trim() === "");
    const value = isLeftOut ? undefined : inputs.map(readInput);
    emit(table, "edit", { path: field.key, value });
  });
  return {
    element: table,
    show(value) {
      inputs.forEach((input, index) => showNumber(input, value?.[index]));
    },
  };
}

/** Two points: the caliper's holes, or the ends of an edge. @param {Field} field @returns {Control} */
export function pointsControl({ key, label, unit, axes }) {
  const word = key === HOLES ? "hole" : "point";
  const titles = axes.map((axis) => axis[0].toUpperCase() + axis.slice(1));
  return pointTable(key, unit, (index) => `${label}, ${word} ${index + 1}`, { axes: titles });
}

/** An outline whose points can be added and taken away. @param {string} path @param {string} name @param {string} unit @returns {Control} */
export function outlineControl(path, name, unit) {
  /** @type {Point[]} */
  let points = [];
  const table = pointTable(path, unit, (index) => `${name}, point ${index + 1}`, { remove: (index) => {
    emit(table.element, "edit", { path, value: points.toSpliced(index, 1) });
    add.focus();
  } });
  const add = element("button", { type: "button", className: "button" }, "Add point");
  add.addEventListener("click", () => emit(add, "edit", { path, value: [...points, closingPoint(points)] }));
  return {
    element: element("div", { className: "outline" }, table.element, add),
    show(value) {
      points = value;
      table.show(value);
    },
  };
}

/** Halfway along the side that closes the outline, so that the outline stays as it was. @param {Point[]} points */
function closingPoint(points) {
  const [first, last] = [points.at(0) ?? [0, 0], points.at(-1) ?? [0, 0]];
  return first.map((value, axis) => {
    const middle = (Number(value) + Number(last[axis])) / 2;
    return Number.isFinite(middle) ? stepped(middle, 0, null) : 0;
  });
}

/**
 * @param {string} path
 * @param {string} unit
 * @param {(index: number) => string} nameOf
 * @param {{remove?: (index: number) => void, axes?: string[]}} options  Without `remove` the points can only be changed.
 * @returns {Control}
 */
function pointTable(path, unit, nameOf, { remove, axes = FLAT_AXES }) {
  const table = element("div", { className: "points" });
  if (remove) table.classList.add("points-removable");
  /** @type {HTMLInputElement[][]} */
  let rows = [];

  /** @param {number} count */
  function build(count) {
    rows = Array.from({ length: count }, (_, point) => axes.map(
      (axis, index) => numberInput(`${path}.${point}.${index}`, { isSigned: true, unit, name: `${nameOf(point)}, ${axis}` }),
    ));
    const cells = rows.flatMap((row, point) => (
      remove ? [...row.map(withSign), removeButton(nameOf(point), () => remove(point))] : row.map(withSign)
    ));
    table.replaceChildren(...headings(axes), ...cells);
  }

  return {
    element: table,
    show(points) {
      if (points.length !== rows.length) build(points.length);
      rows.forEach((row, point) => row.forEach((input, index) => showNumber(input, points[point][index])));
    },
  };
}

/** @param {string} name @param {() => void} act */
export function removeButton(name, act) {
  const button = element("button", { type: "button", className: "step", textContent: "\u00d7", "aria-label": `Remove ${name}` });
  button.addEventListener("click", act);
  return button;
}

/** @param {string[]} axes */
function headings(axes) {
  return axes.map((axis) => element("span", { className: "points-heading", "aria-hidden": "true" }, axis));
}
