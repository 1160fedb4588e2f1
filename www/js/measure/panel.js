import { element } from "../dom.js";
import { bringIn } from "../unit-switch.js";
import { createGuide } from "./guide.js";
import { createKept } from "./kept.js";
import { PARTS } from "./steps.js";

export const title = "Measure your parts";

/** @param {import("../types.js").Context} context @returns {import("../types.js").Panel} */
export function createPanel(context) {
  const fields = context.core.fields().flatMap((group) => group.fields);
  const radios = PARTS.map(({ kind }, index) => element("input", { type: "radio", name: "measure-part", value: kind, checked: index === 0 }));
  const choice = element(
    "fieldset",
    { className: "switch measure-parts" },
    element("legend", { className: "hidden-text" }, "Part"),
    ...PARTS.map(({ name }, index) => element("label", {}, radios[index], element("span", {}, name))),
  );
  const place = element("div");
  const root = element("div", { className: "measure" }, choice, place);
  /** @type {Map<number, {guide: ReturnType<typeof createGuide>, elements: HTMLElement[]}>} */
  const made = new Map();
  /** @type {import("../types.js").Model|undefined} */
  let latest;

  function show() {
    const index = radios.findIndex((radio) => radio.checked);
    let shown = made.get(index);
    if (!shown) {
      const guide = createGuide(context, PARTS[index], fields);
      made.set(index, shown = { guide, elements: [guide.element, createKept(context, PARTS[index], fields).element] });
    }
    if (place.firstElementChild !== shown.elements[0]) bringIn(place, ...shown.elements);
    if (latest) shown.guide.update(latest);
  }

  choice.addEventListener("change", show);
  return {
    element: root,
    update(model) {
      latest = model;
      show();
    },
  };
}
