import { byId, element, emit, setText } from "./dom.js";
import { setKeypad } from "./form/inputs.js";
import { keepUnit, keptUnit, unitName, useUnit } from "./units.js";

/** @typedef {import("./units.js").LengthUnit} LengthUnit */

/** A unit after a number; that of lengths follows the switch. @param {string} unit */
export function unitMark(unit) {
  if (unit !== "mm") return element("span", { className: "unit" }, unit);
  return element("span", { className: "unit", "data-length-unit": "" }, unitName());
}

/** @param {Document|Element} place */
function writeUnit(place) {
  for (const mark of place.querySelectorAll("[data-length-unit]")) setText(mark, unitName());
  for (const input of place.querySelectorAll("input[data-unit=mm]")) setKeypad(/** @type {HTMLInputElement} */ (input));
}

/**
 * Puts on show what may have been out of the document, and so unheard of, while the unit was changed.
 * @param {Element} place @param {...Node} content  In the place of what is there.
 */
export function bringIn(place, ...content) {
  place.replaceChildren(...content);
  writeUnit(place);
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
    writeUnit(document);
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
