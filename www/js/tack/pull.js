import { element } from "../dom.js";
import { table } from "./as-built.js";
import { signed, withDoubt } from "./figures.js";

/** What welding did to the part. @param {import("../../../wasm/src/build.js").WeldPull} pull @returns {HTMLElement[]} */
export function pullTable({ holes, offset, tilt, spacing, sentence }) {
  const change = (/** @type {{change: number, uncertainty: number, sure: boolean}} */ one, unit = "mm") => [
    `${signed(one.change, unit)} ± ${withDoubt({ value: 0, uncertainty: one.uncertainty }, unit).split(" ± ")[1]}`,
    one.sure ? "moved" : "within the ±",
  ];
  return [
    element("p", {}, sentence),
    table("Welded against tacked", ["What", "Change", ""], [
      ...holes.map((hole, index) => [`Hole ${index + 1}`, withDoubt({ value: hole.distance, uncertainty: hole.uncertainty }), hole.sure ? "moved" : "within the ±"]),
      ["Sideways", ...change(offset)],
      ["Tilt", ...change(tilt, "°")],
      ["Hole to hole", ...change(spacing)],
    ]),
  ];
}
