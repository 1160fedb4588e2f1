import * as cut from "../cut/page.js";
import { element } from "../dom.js";
import * as load from "../load/page.js";
import * as tack from "../tack/page.js";
import { bringIn } from "../unit-switch.js";

/**
 * One page of the panel, made when it is first shown.
 * @typedef {{name: string, createPage: (context: import("../types.js").Context) => import("../types.js").Panel}} BuildPage
 */

export const title = "Build";

/** In the order of the work. @type {Record<string, BuildPage>} */
const PAGES = { cut, load, tack };

/** From numbers to steel: what to cut, what it bears, whether the tacked part may be welded. @param {import("../types.js").Context} context @returns {import("../types.js").Panel} */
export function createPanel(context) {
  const names = Object.keys(PAGES);
  const radios = names.map((value, index) => element("input", { type: "radio", name: "build-page", value, checked: index === 0, autocomplete: "off" }));
  const choice = element(
    "fieldset",
    { className: "switch build-pages" },
    element("legend", { className: "hidden-text" }, "Page"),
    ...names.map((name, index) => element("label", {}, radios[index], element("span", {}, PAGES[name].name))),
  );
  const place = element("div");
  /** @type {Map<string, import("../types.js").Panel>} */
  const made = new Map();
  /** @type {import("../types.js").Panel|undefined} */
  let shown;
  /** @type {import("../types.js").Model|undefined} */
  let latest;

  function show() {
    const name = radios.find((radio) => radio.checked)?.value ?? names[0];
    let page = made.get(name);
    if (!page) made.set(name, page = PAGES[name].createPage(context));
    if (page !== shown) {
      shown?.closed?.();
      bringIn(place, page.element);
      shown = page;
    }
    if (latest) page.update(latest);
  }

  choice.addEventListener("change", show);
  return {
    element: element("div", { className: "build" }, choice, place),
    update(model) {
      latest = model;
      show();
    },
    closed() {
      shown?.closed?.();
    },
  };
}
