import { element, mark } from "../dom.js";
import { VERDICT_WORDS } from "../verdicts.js";

/** @typedef {import("../types.js").Verdict} Verdict */

/** So many columns fit a phone. */
const FEW = 2;

/**
 * A table that scrolls inside its own box, with its first column staying in sight.
 * @param {{caption: string, corner: string, columns: string[], rows: string[], cell: (row: number, column: number) => Node}} wanted
 */
export function cellTable({ caption, corner, columns, rows, cell }) {
  const head = columns.map((label) => element("th", { scope: "col" }, label));
  const lines = rows.map((label, row) => element(
    "tr",
    {},
    element("th", { scope: "row" }, label),
    ...columns.map((_, column) => element("td", {}, cell(row, column))),
  ));
  return element("div", { className: "scroll-box" }, element(
    "table",
    { className: columns.length > FEW ? "cells" : "cells few" },
    element("caption", { className: "hidden-text" }, caption),
    element("thead", {}, element("tr", {}, element("th", { scope: "col" }, corner), ...head)),
    element("tbody", {}, ...lines),
  ));
}

/**
 * A verdict with lines under it, as one button.
 * @param {{name: string, verdict: Verdict, word?: string, lines: string[], isCurrent?: boolean, act: () => void}} wanted
 *   `name` says what it is about, for those who do not see the table around it.
 */
export function cellButton({ name, verdict, word = VERDICT_WORDS[verdict], lines, isCurrent = false, act }) {
  const button = element(
    "button",
    { type: "button", className: "cell", "data-tone": verdict, "data-name": name },
    element("span", { className: "hidden-text" }, `${name}: `),
    element("strong", { className: "pair-verdict" }, mark(verdict), word),
    ...lines.map((line) => element("span", {}, line)),
  );
  if (isCurrent) button.setAttribute("aria-current", "true");
  button.addEventListener("click", act);
  return button;
}

/** What is wrong, in the place of an answer. @param {{message: string}[]} errors */
export function errorText(errors) {
  return element("p", { className: "search-error" }, errors.map(({ message }) => message).join(" "));
}

/** In the place of an answer to come. */
export function pending() {
  return element("p", { className: "pending" }, "\u2026");
}
