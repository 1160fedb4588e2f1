import { element } from "../dom.js";
import { table } from "./as-built.js";
import { signedWithDoubt, withDoubt } from "./figures.js";

/** What welding did to the part. @param {import("../../../wasm/src/build.js").WeldPull} pull @returns {HTMLElement[]} */
export function pullTable({ holes, offset, tilt, spacing, sentence }) {
  return [
    element("p", {}, sentence),
    table("Welded against tacked", ["Moved by"], [
      ...holes.map(({ distance, uncertainty, sure }, index) => [what(`Hole ${index + 1}`, sure), withDoubt({ value: distance, uncertainty })]),
      [what("Tab sideways", offset.sure), signedWithDoubt(offset.change, offset.uncertainty)],
      [what("Tilt", tilt.sure), signedWithDoubt(tilt.change, tilt.uncertainty, "°")],
      [what("Hole to hole", spacing.sure), signedWithDoubt(spacing.change, spacing.uncertainty)],
    ]),
  ];
}

/** @param {string} label @param {boolean} isSure */
function what(label, isSure) {
  return element("span", {}, label, ...(isSure ? [] : [" ", element("span", { className: "remark" }, "within the ±")]));
}
