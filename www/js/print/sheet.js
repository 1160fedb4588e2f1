import { byId, element, mark } from "../dom.js";
import { exact } from "../numbers.js";
import { valueAt } from "../path.js";
import { exactLength, unitName } from "../units.js";
import { VERDICT_WORDS } from "../verdicts.js";

/**
 * @typedef {import("../types.js").Core} Core
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").Setup} Setup
 */

const CAUTION = "Geometry and estimates only, no approval of any part, weld or fork. Wrong brake work can injure or kill. "
  + "Measure the real parts, tack, mock up with wheel, caliper and line, then weld; have brake welds done or checked by a "
  + "qualified welder. Local rules, licensed practice and the makers' instructions come first.";

/**
 * What stands on paper besides gaps, holes and notes: the setup's name and the day, the verdict, both drawings whole, and
 * every value that is not the example's. Made when the page is printed, taken away afterwards.
 * @param {Core} core @param {() => {setup: Setup, goodSetup: Setup}} state
 */
export function startSheet(core, state) {
  /** @type {HTMLElement[]} */
  let sheets = [];

  function clear() {
    for (const sheet of sheets) sheet.remove();
    sheets = [];
  }

  function lay() {
    clear();
    const { setup, goodSetup } = state();
    const answer = core.update(goodSetup, ["side", "section"]);
    if (!answer.ok) return;
    const isChecked = core.report(setup).ok;
    const head = element("section", { className: "sheet" },
      ...heading(setup), ...verdict(isChecked, answer.report), element("p", { className: "sheet-caution" }, CAUTION), ...pictures(answer.drawings));
    const values = element("section", { className: "sheet sheet-values" }, ...valuesOf(core, goodSetup));
    byId("main").prepend(head);
    byId("results").after(values);
    sheets = [head, values];
  }

  addEventListener("beforeprint", lay);
  addEventListener("afterprint", clear);
}

/** @param {Setup} setup */
function heading({ name }) {
  const day = new Date().toLocaleDateString(undefined, { year: "numeric", month: "long", day: "numeric" });
  return [
    element("h1", {}, name || "Brake tab without a name"),
    element("p", { className: "sheet-day" }, `Tabwright, ${day}`),
  ];
}

/** @param {boolean} isChecked @param {import("../types.js").Report} report */
function verdict(isChecked, report) {
  const shown = element("p", { className: "verdict", "data-tone": report.verdict }, mark(report.verdict), element("strong", {}, VERDICT_WORDS[report.verdict]));
  const stale = "What is typed now has no answer: this is the sheet of the last good values.";
  return [shown, ...(isChecked ? [] : [element("p", { className: "sheet-stale" }, stale)]), element("p", { className: "sheet-summary" }, report.summary)];
}

/** @param {import("../types.js").Drawings} drawings */
function pictures(drawings) {
  return Object.entries(drawings).map(([view, text]) => {
    const svg = document.importNode(new DOMParser().parseFromString(text, "image/svg+xml").documentElement, true);
    // The page holds the same drawing; no two things may go by one name.
    for (const part of svg.querySelectorAll("[id]")) part.id = `sheet-${part.id}`;
    for (const part of svg.querySelectorAll("[clip-path]")) part.setAttribute("clip-path", `url(#sheet-page-${view})`);
    svg.removeAttribute("aria-labelledby");
    return element("figure", { className: "sheet-picture" }, svg);
  });
}

/** @param {Core} core @param {Setup} setup */
function valuesOf(core, setup) {
  const rows = core.fields().flatMap((group) => group.fields
    .filter(({ key, kind, default: usual }) => kind !== "text" && !isSame(valueAt(setup, key), usual))
    .map((field) => element("tr", {},
      element("th", { scope: "row" }, `${group.label}: ${field.label}`),
      element("td", { className: "number" }, words(valueAt(setup, field.key), field)),
      element("td", { className: "number" }, words(field.default, field)))));
  const title = element("h2", {}, "Values other than the example's");
  if (rows.length === 0) return [title, element("p", {}, "None: every value is the example's. Measure the real parts.")];
  const head = ["Value", "Here", "Example"].map((text, index) => element("th", { scope: "col", className: index > 0 ? "number" : "" }, text));
  return [
    title,
    element("table", { className: "table" }, element("thead", {}, element("tr", {}, ...head)), element("tbody", {}, ...rows)),
    element("p", { className: "remark" }, "All other values are those of the example that the page starts with."),
  ];
}

/** @param {any} one @param {any} other */
function isSame(one, other) {
  return JSON.stringify(one ?? null) === JSON.stringify(other ?? null);
}

/** @param {any} value @param {Field} field @returns {string} */
function words(value, { kind, unit, choices }) {
  if (value == null) return "\u2013";
  if (kind === "choice") return choices.find((choice) => choice.value === value)?.label ?? String(value);
  if (kind === "flag") return value ? "yes" : "no";
  if (kind === "bodies") return value.map((/** @type {any} */ body) => `${body.name} (${body.outline.length} corners)`).join(", ");
  const digits = (/** @type {number} */ number) => (unit === "mm" ? exactLength(number) : exact(number));
  const point = (/** @type {number[]} */ row) => row.map(digits).join(", ");
  const mark = unit === "mm" ? unitName() : unit;
  const space = mark === "" || mark === "°" ? "" : " ";
  if (kind === "points") return value.map(point).join("; ") + space + mark;
  if (kind === "readings") return (value.length === 0 ? "\u2013" : value.map(digits).join("; ")) + space + mark;
  if (kind === "vector") return point(value) + space + mark;
  return digits(value) + space + mark;
}
