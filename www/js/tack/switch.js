import { element } from "../dom.js";

/**
 * A choice of a few words, all in sight, as a row of radio buttons.
 * @param {string} name  Of the group, unlike all others. @param {string} legend  For who cannot see it. @param {string[]} words @param {() => void} changed
 */
export function partSwitch(name, legend, words, changed) {
  const radios = words.map((_, index) => element("input", { type: "radio", name, value: String(index), checked: index === 0, autocomplete: "off" }));
  const set = element(
    "fieldset",
    { className: "switch tack-switch" },
    element("legend", { className: "hidden-text" }, legend),
    ...words.map((word, index) => element("label", {}, radios[index], element("span", {}, word))),
  );
  set.addEventListener("change", changed);
  return {
    element: set,
    get index() { return Math.max(radios.findIndex((radio) => radio.checked), 0); },
    /** @param {number} index */
    choose(index) { radios[index].checked = true; },
  };
}
