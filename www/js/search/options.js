import { byId, element, setText } from "../dom.js";
import { exact, readNumber } from "../numbers.js";

/** @typedef {import("../types.js").Field} Field */

/** More would make a table that nobody reads. */
const MOST_SIZES = 8;

/**
 * What the searches go through: sizes of rotors and hubs, and what a place must offer besides clearing.
 * @param {Field} rotor @param {Field} hub @param {() => void} changed
 */
export function createOptions(rotor, hub, changed) {
  const rotors = sizeList(byId("rotor-list"), rotor, changed);
  const hubs = sizeList(byId("hub-list"), hub, changed);
  const lineUp = /** @type {HTMLInputElement} */ (byId("rule-line"));
  const wheelOut = /** @type {HTMLInputElement} */ (byId("rule-wheel"));
  for (const rule of [lineUp, wheelOut]) rule.addEventListener("change", changed);
  for (const form of document.querySelectorAll("form.options")) form.addEventListener("submit", (event) => event.preventDefault());

  return {
    /** Each list stays the same array until it is changed. */
    get rotors() { return rotors.sizes; },
    get hubs() { return hubs.sizes; },
    /** @returns {[boolean, boolean]} */
    get rules() { return [lineUp.checked, wheelOut.checked]; },
  };
}

/**
 * A list of sizes as text. One that cannot be read keeps the last good sizes.
 * @param {HTMLElement} place @param {Field} field @param {() => void} changed
 */
function sizeList(place, field, changed) {
  const id = `${place.id}-input`;
  const note = element("p", { className: "field-note", id: `${id}-note`, hidden: true });
  const input = element("input", {
    type: "text", id, className: "text-input", autocomplete: "off", spellcheck: false, enterKeyHint: "done",
    value: field.stops.map(exact).join(", "),
  });
  const label = element("label", { className: "field-label", htmlFor: id }, `${place.dataset.label}, ${field.unit}`);
  place.append(label, input, note);
  const list = { sizes: field.stops };

  input.addEventListener("input", () => {
    const { sizes, problem } = readSizes(input.value, field);
    setText(note, problem && `${problem} The last good list stays: ${list.sizes.map(exact).join(", ")}.`);
    note.hidden = !problem;
    place.classList.toggle("refused", Boolean(problem));
    if (problem) {
      input.setAttribute("aria-invalid", "true");
      input.setAttribute("aria-describedby", note.id);
      return;
    }
    input.removeAttribute("aria-invalid");
    input.removeAttribute("aria-describedby");
    if (sizes.join() === list.sizes.join()) return;
    list.sizes = sizes;
    changed();
  });
  return list;
}

/** @param {string} text @param {Field} field @returns {{sizes: number[], problem: string}} */
function readSizes(text, { hard, unit }) {
  const [low, high] = hard ?? [0, Infinity];
  const parts = text.split(/[\s;]+|,(?!\d)|,(?=\d{2,})/).filter(Boolean);
  const wrong = parts.find((part) => {
    const size = readNumber(part);
    return typeof size !== "number" || size < low || size > high;
  });
  const sizes = [...new Set(parts.map(readNumber).map(Number))].sort((one, other) => one - other);
  let problem = "";
  if (wrong !== undefined) problem = `"${wrong}" is no size from ${exact(low)} to ${exact(high)} ${unit}.`;
  else if (sizes.length === 0) problem = "Give at least one size.";
  else if (sizes.length > MOST_SIZES) problem = `Give at most ${MOST_SIZES} sizes.`;
  return { sizes, problem };
}
