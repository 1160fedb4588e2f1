import { element } from "../dom.js";
import { fine } from "./words.js";
import { factTable } from "./tables.js";

/** @typedef {import("./shapes.js").Sheet} Sheet */

/** How plate, tab and tube are joined, in which order, and what can hurt: the cautions first. */
export function createWeld() {
  const place = element("div", { className: "cut-weld" });
  const list = element("ol", { className: "cut-checklist" });
  let shown = "";

  return {
    nodes: [place, element("h4", {}, "Check list"), list],
    /** @param {Sheet} sheet */
    show({ weld }) {
      place.replaceChildren(
        element("ul", { className: "cut-cautions" }, ...items(weld.cautions)),
        element("p", {}, element("strong", {}, "Side to weld: "), weld.side),
        ...weld.joints.map((text) => element("p", {}, text)),
        factTable([
          ["Lap on the tube", fine(weld.lap)],
          ["Leg of the seam", fine(weld.leg)],
          ...(weld.gap == null ? [] : [/** @type {[string, string]} */ (["Gap for the weld", fine(weld.gap)])]),
        ]),
        element("h4", {}, "Tacks, in order"),
        element("ol", {}, ...items(weld.tacks)),
      );
      // What is ticked stays ticked while the list is the same.
      const wanted = weld.checklist.join("\n");
      if (wanted === shown) return;
      shown = wanted;
      list.replaceChildren(...weld.checklist.map((text) => element("li", {}, element(
        "label", {}, element("input", { type: "checkbox", className: "flag-input", autocomplete: "off" }), element("span", {}, text),
      ))));
    },
  };
}

/** @param {string[]} texts */
function items(texts) {
  return texts.map((text) => element("li", {}, text));
}
