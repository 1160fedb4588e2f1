import { element, emit } from "../dom.js";
import { figure, plusMinus } from "./figures.js";

/** @typedef {import("../../../wasm/src/build.js").Stack["classes"][number]} Classes */

/** For each dimension what the general classes of tolerance would give, each to be taken by a tap. @param {Classes[]} classes @param {HTMLElement} root */
export function classFolds(classes, root) {
  return classes.map((one) => element(
    "details",
    { className: "group", "data-name": `classes ${one.field}` },
    element("summary", {}, `${one.label.replace(/\s*±$/, "")}, now ${plusMinus(one.now, one.unit)}`),
    element("p", { className: "remark" }, `By its size of ${figure(one.nominal)}.`),
    element("ul", { className: "tack-classes" }, ...one.rows.map((row) => element("li", {}, classButton(one, row, root)))),
  ));
}

/** @param {Classes} classes @param {Classes["rows"][number]} row @param {HTMLElement} root */
function classButton({ field, unit, now }, row, root) {
  const name = `${row.standard} class ${row.class}`;
  const value = Number(row.tolerance.toFixed(3));
  const button = element(
    "button",
    { type: "button", className: "button tack-class", "data-name": `${field} ${name}`, "aria-pressed": String(Math.abs(now - value) < 1e-9) },
    element("span", {}, name),
    element("strong", {}, plusMinus(value, unit)),
  );
  button.addEventListener("click", () => emit(root, "edit", { path: field, value }));
  return button;
}
