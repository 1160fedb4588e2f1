import { element, emit } from "../dom.js";
import { numberInput, showNumber } from "../form/inputs.js";
import { withUnit } from "../form/simple.js";
import { createFrame } from "./frame.js";

/** Ways a line may point as seen on the outboard face, row by row: name, clockwise, away from the axle, outboard. @type {[string, string, number[]][]} */
const WAYS = [
  ["\u2196", "up and left", [-1, 1, 0]],
  ["\u2191", "up, away from the axle", [0, 1, 0]],
  ["\u2197", "up and right", [1, 1, 0]],
  ["\u2190", "left", [-1, 0, 0]],
  ["\u2299", "straight out, towards you", [0, 0, 1]],
  ["\u2192", "right", [1, 0, 0]],
  ["\u2199", "down and left", [-1, -1, 0]],
  ["\u2193", "down, to the axle", [0, -1, 0]],
  ["\u2198", "down and right", [1, -1, 0]],
];
/** A direction within this cosine of a way is that way. */
const SAME_WAY = 0.98;
/** A finger is no finer than this, mm. */
const TAP_MM = 0.5;
const AXES = ["Right of the pads' middle", "Above it, away from the axle", "Outboard of the slot"];

/** Where the line leaves the caliper and which way it points: a tap on the picture, an arrow, or numbers. @param {import("../types.js").Core} core */
export function createLine(core) {
  const frame = createFrame("measure-picture measure-tap");
  const radios = WAYS.map(([, name], index) => element("input", { type: "radio", name: "measure-line-way", value: String(index), "aria-label": name }));
  const ways = element(
    "fieldset",
    { className: "measure-ways" },
    element("legend", {}, "It points"),
    ...WAYS.map(([sign], index) => element("label", {}, radios[index], element("span", { "aria-hidden": "true" }, sign))),
  );
  const inputs = AXES.map((_, index) => {
    const input = numberInput(`caliper.line.exit.${index}`, { isSigned: true, unit: "mm" });
    input.id = `measure-${input.id}`;
    return input;
  });
  const rows = AXES.map((axis, index) => element(
    "div",
    { className: "measure-row" },
    element("label", { className: "field-label", htmlFor: inputs[index].id }, axis),
    withUnit(inputs[index], "mm"),
  ));
  const root = element("div", {}, frame.element, ways, ...rows);
  /** @type {number[]} */
  let exit = [0, 0, 0];

  frame.element.addEventListener("click", (event) => {
    const svg = /** @type {SVGSVGElement|null} */ (frame.element.querySelector("svg"));
    const matrix = svg?.getScreenCTM();
    if (!matrix) return;
    const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
    const [cw, rad] = [x, -y].map((value) => Math.round(value / TAP_MM) * TAP_MM);
    emit(root, "edit", { path: "caliper.line.exit", value: [cw, rad, exit[2]] });
  });
  ways.addEventListener("change", (event) => {
    const index = Number(/** @type {HTMLInputElement} */ (event.target).value);
    emit(root, "edit", { path: "caliper.line.direction", value: WAYS[index][2] });
  });

  return {
    element: root,
    /** @param {import("../types.js").Setup} typed @param {import("../types.js").Setup} good */
    show(typed, good) {
      const { line } = good.caliper;
      exit = line.exit;
      frame.show(core, good, "caliper", "", "The caliper's outboard face with its line. The numbers below say the same.");
      radios.forEach((radio, index) => { radio.checked = cosine(line.direction, WAYS[index][2]) > SAME_WAY; });
      inputs.forEach((input, index) => showNumber(input, typed.caliper.line.exit[index]));
    },
  };
}

/** @param {number[]} one @param {number[]} other */
function cosine(one, other) {
  const dot = one.reduce((sum, value, index) => sum + value * other[index], 0);
  return dot / (Math.hypot(...one) * Math.hypot(...other));
}
