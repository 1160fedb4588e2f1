import { element, emit, mark } from "../dom.js";
import { exact } from "../numbers.js";
import { exactLength, unitName } from "../units.js";
import { errorText } from "./table.js";
import { WAY_WORDS, marginWords, pairWords } from "./words.js";

/**
 * @typedef {import("../types.js").Field} Field
 * @typedef {{field: string, from: number, to: number}} Change
 */

/**
 * What would fix a setup that does not clear.
 * @param {Map<string, Field>} fields
 * @returns {import("./section.js").Search}
 */
export function fixesSearch(fields) {
  /** @param {Change} change */
  function changeWords({ field, from, to }) {
    const { label, unit } = /** @type {Field} */ (fields.get(field));
    if (unit === "mm") return `${label} ${exactLength(from)} \u2192 ${exactLength(to)} ${unitName()}`;
    const space = unit === "°" ? "" : " ";
    return `${label} ${exact(from)}${unit === "°" ? unit : ""} \u2192 ${exact(to)}${space}${unit}`;
  }

  /** @param {any} fix */
  function fixButton({ changes, margin, binding, line, wheel_out }) {
    const title = changes.map(changeWords).join(" and ");
    const wheel = wheel_out ? "the wheel drops out" : "the wheel does not drop out";
    const then = `then ${marginWords(margin)}, closest ${pairWords(binding)}; the line runs ${WAY_WORDS[line]}; ${wheel}`;
    const button = element(
      "button",
      { type: "button", className: "choice", "data-tone": "clears", "data-name": title },
      mark("clears"),
      element("span", {}, element("strong", {}, title), `: ${then}.`),
    );
    button.addEventListener("click", () => emit(button, "changes", {
      changes: changes.map((/** @type {Change} */ { field, to }) => ({ path: field, value: to })),
      words: `Changed: ${title}.`,
    }));
    return element("li", {}, button);
  }

  return {
    calls: (setup) => [["fixes", setup]],
    show([reply]) {
      if (!reply.ok) return [errorText(reply.errors)];
      const { fixes } = reply.answer;
      if (fixes.length === 0) return [element("p", {}, "No change, and no pair of changes, of those tried helps.")];
      return [element("ol", { className: "choices" }, ...fixes.map(fixButton))];
    },
  };
}
