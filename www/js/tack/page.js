import { element } from "../dom.js";
import { bringIn } from "../unit-switch.js";
import { createBought } from "./bought.js";
import { createCheck } from "./check.js";
import { createLineUp } from "./line-up.js";
import { createRefusals } from "./refusals.js";
import { partSwitch } from "./switch.js";

export const name = "Tack";

/**
 * Whether part and caliper line up: on paper, on the tacked part, and with a tab that is there already.
 * @typedef {{element: HTMLElement, update: (model: import("../types.js").Model) => void, closed?: () => void}} Section
 * @type {{name: string, create: (context: import("../types.js").Context) => Section}[]}
 */
const SECTIONS = [
  { name: "Line-up", create: createLineUp },
  { name: "Tack check", create: createCheck },
  { name: "Bought tab", create: createBought },
];

/** @param {import("../types.js").Context} context @returns {import("../types.js").Panel} */
export function createPage(context) {
  /** @type {Map<number, Section>} */
  const made = new Map();
  const choice = partSwitch("tack-part", "Part of the page", SECTIONS.map((section) => section.name), show);
  const place = element("div");
  const root = element("div", { className: "tack-page" }, choice.element, place);
  const refusals = createRefusals(root);
  choice.element.after(refusals.element);
  /** @type {Section|undefined} */
  let shown;
  /** @type {import("../types.js").Model|undefined} */
  let latest;

  function show() {
    let section = made.get(choice.index);
    if (!section) made.set(choice.index, section = SECTIONS[choice.index].create(context));
    if (section !== shown) {
      shown?.closed?.();
      bringIn(place, section.element);
      shown = section;
    }
    if (!latest) return;
    section.update(latest);
    refusals.show(latest.problems);
  }

  return {
    element: root,
    update(model) {
      latest = model;
      show();
    },
    closed() {
      shown?.closed?.();
    },
  };
}
