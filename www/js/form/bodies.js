import { element, emit } from "../dom.js";
import { flagInput, numberInput, showNumber, showText, textInput } from "./inputs.js";
import { outlineControl } from "./points.js";
import { inFullTarget, withUnit } from "./simple.js";

/**
 * The solid pieces of the caliper.
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("./row.js").Control} Control
 * @typedef {{name: string, outline: number[][], inboard: number, outboard: number, bolted: boolean}} Body
 */

/** @param {Field} field @returns {Control} */
export function bodiesControl(field) {
  const list = element("div", { className: "bodies" });
  const add = element("button", { type: "button", className: "button" }, "Add a piece");
  const root = element("div", {}, list, add);
  /** @type {Body[]} */
  let bodies = [];
  /** @type {Control[]} */
  let controls = [];

  /** @param {Body[]} value */
  function replace(value) {
    emit(root, "edit", { path: field.key, value });
  }

  /** @param {number} index */
  function removeBody(index) {
    replace(bodies.toSpliced(index, 1));
    add.focus();
  }

  add.addEventListener("click", () => {
    const model = bodies.at(-1) ?? field.default[0];
    replace([...bodies, { ...model, name: `piece ${bodies.length + 1}`, bolted: false }]);
  });

  return {
    element: root,
    show(value) {
      bodies = value;
      if (controls.length !== bodies.length) {
        controls = bodies.map((_, index) => bodyControl(`${field.key}.${index}`, field.unit, () => removeBody(index)));
        list.replaceChildren(...controls.map((control) => control.element));
      }
      controls.forEach((control, index) => control.show(bodies[index]));
    },
  };
}

/** @param {string} path @param {string} unit @param {() => void} remove @returns {Control} */
function bodyControl(path, unit, remove) {
  const title = element("summary");
  const name = textInput(`${path}.name`);
  const inboard = numberInput(`${path}.inboard`, { isSigned: true, unit });
  const outboard = numberInput(`${path}.outboard`, { isSigned: true, unit });
  const bolted = flagInput(`${path}.bolted`);
  const outline = outlineControl(`${path}.outline`, "Outline", unit);
  const removeButton = element("button", { type: "button", className: "button" }, "Remove this piece");
  removeButton.addEventListener("click", remove);

  return {
    element: element(
      "details",
      { className: "body" },
      title,
      labelled("Name", name, name),
      labelled("Inboard end, from the slot", inboard, withUnit(inboard, unit)),
      labelled("Outboard end, from the slot", outboard, withUnit(outboard, unit)),
      labelled("Sits flat on the tab", bolted, inFullTarget(bolted)),
      element("p", { className: "field-label" }, "Outline, convex, from the pad centre"),
      outline.element,
      removeButton,
    ),
    /** @param {Body} body */
    show(body) {
      title.textContent = body.name || "Piece without a name";
      showText(name, body.name);
      showNumber(inboard, body.inboard);
      showNumber(outboard, body.outboard);
      bolted.checked = body.bolted;
      outline.show(body.outline);
    },
  };
}

/** @param {string} text @param {HTMLInputElement} input @param {HTMLElement} shown  The input, or what holds it. */
function labelled(text, input, shown) {
  const label = element("label", { className: "field-label", htmlFor: input.id }, text);
  return element("div", { className: "body-line" }, label, shown);
}
