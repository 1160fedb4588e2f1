import { element, mark } from "../dom.js";
import { exactLength, unitName } from "../units.js";
import { TONES, figuresOf } from "./advice.js";
import { allowed, figure, withDoubt } from "./figures.js";

/**
 * The tack check on one page of paper: readings, what they say, what to do, and room for names.
 * @typedef {import("../types.js").Setup} Setup
 * @typedef {import("../../../wasm/src/build.js").TackDrawing} TackDrawing
 * @typedef {import("../../../wasm/src/build.js").Tacked} Tacked
 */

/** The style sheet prints nothing but the record while the page's body has this class. */
const PRINTING = "printing-record";
const CAUTION = "Geometry and estimates only, no approval of any part, weld or fork. Wrong brake work can injure or kill. Local rules, "
  + "licensed practice and the makers\u2019 instructions come first.";

/** @param {Setup} setup @param {TackDrawing} drawing @param {(key: string) => boolean} isDone  Whether an item of the check list is ticked. */
export function printRecord(setup, drawing, isDone) {
  document.querySelector(".record")?.remove();
  const record = recordOf(setup, drawing, isDone);
  document.body.append(record);
  document.body.classList.add(PRINTING);
  addEventListener("afterprint", () => {
    record.remove();
    document.body.classList.remove(PRINTING);
  }, { once: true });
  print();
}

/** @param {Setup} setup @param {TackDrawing} drawing @param {(key: string) => boolean} isDone */
function recordOf(setup, { check, svg }, isDone) {
  const last = check.after ?? check.before;
  const picture = check.after ? svg.after : svg.before;
  const day = new Date().toLocaleDateString(undefined, { year: "numeric", month: "long", day: "numeric" });
  const list = element("ol", { className: "record-list" }, ...check.check_list.map(({ key, title }) => element("li", {}, isDone(key) ? "\u2612 " : "\u2610 ", title)));
  return element(
    "section",
    { className: "record" },
    element("h1", {}, `Tack check: ${setup.name || "brake tab without a name"}`),
    element("p", { className: "record-day" }, `Tabwright, ${day}. Rotor ${figure(setup.wheel.rotor_diameter)}. Lengths in ${unitName() === "mm" ? "millimetres" : "inches"}; ± holds 19 times in 20.`),
    element("p", { className: "record-advice" }, mark(TONES[last.advice.kind]), element("strong", {}, `${check.after ? "Welded" : "Tacked"}: ${last.advice.title}`)),
    element("p", {}, last.advice.text),
    element("p", { className: "record-caution" }, CAUTION),
    element("div", { className: "record-columns" }, element("div", {}, readings(check), list), element("div", {}, ...(picture ? [drawn(picture)] : []), ...figuresOf(last.advice))),
    ...(last.as_built ? [limits(last)] : []),
    ...(check.pull ? [element("p", {}, element("strong", {}, "What welding did: "), check.pull.sentence)] : []),
    element("p", { className: "record-sign" }, ...["Tacked by", "Checked by", "Welded by", "Date"].map((words) => element("span", {}, words))),
  );
}

/** @param {TackDrawing["check"]} check */
function readings({ readings: asked, before, after }) {
  const givenIn = (/** @type {Tacked|null} */ tacked, /** @type {string} */ key) => tacked?.readings.find((one) => one.key === key)?.given.map(exactLength).join("; ") ?? "\u2013";
  const head = ["Reading", "Drawn", "Tacked", ...(after ? ["Welded"] : [])];
  return element(
    "table",
    { className: "table" },
    element("thead", {}, element("tr", {}, ...head.map((words, index) => element("th", { scope: "col", className: index > 0 ? "number" : "" }, words)))),
    element("tbody", {}, ...asked.map(({ key, label, designed }) => element(
      "tr",
      {},
      element("th", { scope: "row" }, label),
      ...[figure(designed), givenIn(before, key), ...(after ? [givenIn(after, key)] : [])].map((text) => element("td", { className: "number" }, text)),
    ))),
  );
}

/** @param {Tacked} tacked */
function limits({ as_built: built }) {
  const lines = (built?.limits ?? []).map((limit) => element(
    "tr",
    {},
    element("th", { scope: "row" }, limit.label),
    element("td", { className: "number" }, withDoubt(limit, limit.unit)),
    element("td", { className: "number" }, allowed(limit.low, limit.high, limit.unit)),
    element("td", {}, `${limit.ok ? "good" : "OUT"}${limit.sure ? "" : ", not sure"}`),
  ));
  const head = ["As built", "", "Allowed", ""];
  return element(
    "table",
    { className: "table record-limits" },
    element("thead", {}, element("tr", {}, ...head.map((words) => element(words ? "th" : "td", { className: words === "Allowed" ? "number" : "" }, words)))),
    element("tbody", {}, ...lines),
  );
}

/** @param {string} text  An SVG document. */
function drawn(text) {
  const svg = document.importNode(new DOMParser().parseFromString(text, "image/svg+xml").documentElement, true);
  for (const part of svg.querySelectorAll("[id]")) part.removeAttribute("id");
  return element("figure", { className: "tack-picture tack-drawing record-picture" }, svg);
}
