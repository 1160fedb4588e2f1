import { element, setText } from "../dom.js";
import { inputId, numberInput, showNumber } from "../form/inputs.js";
import { isSigned, withUnit } from "../form/simple.js";
import { dotted, liesIn, valueAt } from "../path.js";

/**
 * A number of the setup with its own input on this page: the same field has its place in the form behind.
 * @param {import("../types.js").Field} field @param {{isBare?: boolean}} [options]  Without a label in sight.
 */
export function numberRow(field, { isBare = false } = {}) {
  const input = numberInput(field.key, { isSigned: isSigned(field), unit: field.unit });
  input.id = `tack-page-${inputId(field.key)}`;
  const label = element("label", { className: isBare ? "hidden-text" : "field-label", htmlFor: input.id }, field.label);
  const help = element("span", { className: "remark" }, field.help);
  const words = isBare ? [label] : [element("span", { className: "tack-number-words" }, label, help)];
  const root = element("div", { className: "tack-number" }, ...words, withUnit(input, field.unit));
  return {
    element: root,
    /** @param {import("../types.js").Model} model */
    update({ setup, problems }) {
      showNumber(input, valueAt(setup, field.key));
      const own = problems.find((problem) => liesIn(dotted(problem.field), field.key));
      if (own) input.setAttribute("aria-invalid", "true");
      else input.removeAttribute("aria-invalid");
    },
  };
}

/** A status line with a way back, shown after a change made in one go until the next change of the setup. */
export function createUndoLine() {
  const words = element("p", { className: "tack-said-words" });
  const undo = element("button", { type: "button", className: "button", hidden: true }, "Undo");
  const root = element("div", { className: "tack-said", role: "status", hidden: true }, words, undo);
  /** The setup that was made. @type {import("../types.js").Setup|null} */
  let made = null;
  let isFresh = false;

  undo.addEventListener("click", () => {
    // The page's own step back, which lies behind the dialog.
    /** @type {HTMLButtonElement|null} */ (document.querySelector("#undo"))?.click();
    setText(words, "Taken back.");
    undo.hidden = true;
    isFresh = true;
  });
  return {
    element: root,
    /** @param {string} text  What was done just now. */
    tell(text) {
      setText(words, text);
      root.hidden = false;
      undo.hidden = false;
      isFresh = true;
    },
    /** @param {import("../types.js").Setup} setup  As typed. */
    update(setup) {
      if (isFresh) made = setup;
      else if (made && setup !== made) {
        root.hidden = true;
        made = null;
      }
      isFresh = false;
    },
  };
}
