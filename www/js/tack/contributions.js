import { element, setText } from "../dom.js";
import { unitMark } from "../unit-switch.js";
import { lengthDigits } from "../units.js";
import { figure, shareText } from "./figures.js";
import { numberRow } from "./number.js";

/**
 * The table of what adds up sideways, with each ± to be changed in its place.
 * @typedef {import("../../../wasm/src/build.js").Stack} Stack
 */

const DECIMALS = 2;

/** @param {import("../types.js").Field[]} fields */
export function createContributions(fields) {
  const head = [
    element("th", { scope: "col" }, "Part of the stack"),
    element("th", { scope: "col" }, "±"),
    element("th", { scope: "col", className: "number" }, "Moves the slot", " ", unitMark("mm")),
    element("th", { scope: "col", className: "number" }, "Share"),
  ];
  /** @type {import("../types.js").Model|undefined} */
  let latest;
  /** @type {Map<string, ReturnType<typeof row>>} */
  const rows = new Map();
  const sums = ["Root sum of squares", "Worst case"].map((words) => ({ words, value: element("td", { className: "number" }) }));
  const table = element(
    "table",
    { className: "table tack-stack" },
    element("caption", { className: "hidden-text" }, "What adds up between the hub\u2019s face and the caliper\u2019s slot"),
    element("thead", {}, element("tr", {}, ...head)),
    element("tfoot", {}, ...sums.map(({ words, value }) => element("tr", {}, element("th", { scope: "row", colSpan: 2 }, words), value, element("td")))),
  );

  return {
    element: element("div", { className: "scroll-box" }, table),
    /** @param {Stack} stack */
    answer({ contributions, worst, rss, decisive }) {
      for (const one of contributions) {
        let known = rows.get(one.field);
        if (!known) {
          const field = fields.find(({ key }) => key === one.field);
          if (!field) continue;
          rows.set(one.field, known = row(field));
          table.tFoot?.before(known.element);
        }
        known.answer(one, one.field === decisive);
      }
      setText(sums[0].value, lengthDigits(rss, DECIMALS));
      setText(sums[1].value, lengthDigits(worst, DECIMALS));
    },
    /** @param {import("../types.js").Model} model */
    update(model) {
      latest = model;
      for (const { number } of rows.values()) number.update(model);
    },
  };

  /** @param {import("../types.js").Field} field */
  function row(field) {
    const number = numberRow(field, { isBare: true });
    if (latest) number.update(latest);
    const note = element("p", { className: "remark" });
    const most = element("strong", { className: "tack-most", hidden: true }, "matters most");
    const [effect, share] = [0, 1].map(() => element("td", { className: "number" }));
    const root = element(
      "tbody",
      {},
      element("tr", {}, element("th", { scope: "row" }, label(field.label), most), element("td", {}, number.element), effect, share),
      element("tr", { className: "tack-note" }, element("td", { colSpan: 4 }, note)),
    );
    return {
      element: root,
      number,
      /** @param {Stack["contributions"][number]} one @param {boolean} isDecisive */
      answer(one, isDecisive) {
        setText(note, one.unit === "mm" ? one.note : `${one.note.replace(/\.$/, "")}: ${figure(one.sensitivity)} for each degree.`);
        setText(effect, lengthDigits(one.effect, DECIMALS));
        setText(share, shareText(one.share));
        most.hidden = !isDecisive;
        root.classList.toggle("decisive", isDecisive);
      },
    };
  }
}

/** A tolerance's label without its sign, which heads the column. @param {string} text */
function label(text) {
  return element("span", {}, text.replace(/\s*±$/, ""));
}
