import { element } from "../dom.js";
import { exact, readable } from "../numbers.js";
import { amountText } from "./words.js";

/** The hand's force with other rotors, as a table. */
export function createRotors() {
  const body = element("tbody");
  let shown = "";

  return {
    element: element(
      "div",
      { className: "load-rotors" },
      element("h4", {}, "Hand force for the same stop"),
      element(
        "table",
        { className: "table" },
        element("thead", {}, element("tr", {}, ...["Rotor", "Hand", "Pad force"].map((text, index) => element("th", { scope: "col", className: index > 0 ? "number" : "" }, text)))),
        body,
      ),
      element("p", { className: "remark" }, "1 is the rotor at hand. A larger rotor spares hand and tab alike."),
    ),
    /** @param {import("./words.js").Loads} loads @param {import("../types.js").Setup} setup */
    show({ rotors }, { wheel }) {
      const now = JSON.stringify([rotors, wheel.rotor_diameter]);
      if (now === shown) return;
      shown = now;
      body.replaceChildren(...rotors.map(({ rotor, hand, pad_force }) => element(
        "tr",
        {},
        element("th", { scope: "row" }, `${exact(rotor)}\u00a0mm${rotor === wheel.rotor_diameter ? ", at hand" : ""}`),
        element("td", { className: "number" }, `${readable(hand, 2)}\u00a0×`),
        element("td", { className: "number" }, amountText(pad_force, "N")),
      )));
    },
  };
}
