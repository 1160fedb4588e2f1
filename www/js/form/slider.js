import { element, emit } from "../dom.js";
import { stepped } from "../numbers.js";
import { exactLength, lengthStep, unitName } from "../units.js";
import { letDrag } from "./drag.js";
import { repeatWhileHeld } from "./hold.js";
import { numberInput, showNumber } from "./inputs.js";
import { isSigned, withUnit } from "./simple.js";
import { createTicks } from "./ticks.js";

/**
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("./row.js").Control} Control
 */

/**
 * A number field with step buttons and a slider over the plausible range. Any value can be typed.
 * @param {Field} field
 * @returns {Control}
 */
export function sliderControl(field) {
  const step = field.step ?? 1;
  const limits = field.plausible ?? field.hard ?? [0, 100];
  const input = numberInput(field.key, { isSigned: isSigned(field), unit: field.unit });
  const less = stepButton("\u2212", `${field.label}: less`, () => moveBy(-1));
  const more = stepButton("+", `${field.label}: more`, () => moveBy(1));
  const slider = element("input", {
    type: "range",
    className: "slider",
    min: String(limits[0]),
    max: String(limits[1]),
    step: String(step),
    "aria-label": `${field.label}, slider`,
  });
  /** @type {any} */
  let current;
  let shownUnit = "";
  const track = element("div", { className: "slider-track" }, slider, createTicks(field.stops, limits));
  letDrag(track, slider, field.stops, () => current, change);

  /** @param {any} value */
  function change(value) {
    emit(slider, "edit", { path: field.key, value });
  }

  /** @param {1|-1} way */
  function moveBy(way) {
    change(stepped(current, way * (field.unit === "mm" ? lengthStep(step) : step), field.hard));
  }

  return {
    element: element(
      "div",
      { className: "slider-control" },
      withUnit(input, field.unit),
      less,
      track,
      more,
    ),
    show(value) {
      if (value === current && unitName() === shownUnit) return;
      current = value;
      shownUnit = unitName();
      showNumber(input, value);
      const isNumber = typeof value === "number";
      less.disabled = !isNumber;
      more.disabled = !isNumber;
      if (isNumber) slider.value = String(value);
      slider.setAttribute("aria-valuetext", isNumber && field.unit === "mm" ? `${exactLength(value)} ${shownUnit}` : `${value} ${field.unit}`);
    },
  };
}

/** @param {string} sign @param {string} name @param {() => void} act */
function stepButton(sign, name, act) {
  const button = element("button", { type: "button", className: "step", textContent: sign, "aria-label": name });
  repeatWhileHeld(button, act);
  return button;
}
