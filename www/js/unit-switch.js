import { byId, element, emit } from "./dom.js";
import { setKeypad } from "./form/inputs.js";
import { keepUnit, keptUnit, unitName, useUnit } from "./units.js";

/** @typedef {import("./units.js").LengthUnit} LengthUnit */

/** A unit after a number; that of lengths follows the switch. @param {string} unit */
export function unitMark(unit) {
  if (unit !== "mm") return element("span", { className: "unit" }, unit);
  return element("span", { className: "unit", "data-length-unit": "" }, unitName());
}

/**
 * The choice between millimetres and inches, with a "unit" event for what must be written anew.
 * @param {(unit: LengthUnit) => void} speakIn  Tells the core.
 * @param {() => void} renew  Shows everything anew.
 */
export function startUnitSwitch(speakIn, renew) {
  const choice = byId("unit-switch");

  /** @param {LengthUnit} unit */
  function use(unit) {
    useUnit(unit);
    speakIn(unit);
    for (const mark of document.querySelectorAll("[data-length-unit]")) mark.textContent = unit;
    for (const input of document.querySelectorAll("input[data-unit=mm]")) setKeypad(/** @type {HTMLInputElement} */ (input));
  }

  const kept = keptUnit();
  use(kept);
  /** @type {HTMLInputElement} */ (choice.querySelector(`[value="${kept}"]`)).checked = true;
  choice.addEventListener("change", (event) => {
    const unit = /** @type {LengthUnit} */ (/** @type {HTMLInputElement} */ (event.target).value);
    use(unit);
    keepUnit(unit);
    emit(choice, "unit");
    renew();
  });
}
