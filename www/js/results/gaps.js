import { byId, element, mark, setMark, setText } from "../dom.js";
import { lengthDigits } from "../units.js";
import { VERDICT_WORDS } from "../verdicts.js";

/** @typedef {import("../types.js").Pair} Pair */

/** The table of gaps, the smallest margin first. */
export function createGaps() {
  const body = byId("gap-rows");
  /** @type {Map<string, ReturnType<typeof createRow>>} */
  const rows = new Map();

  /** @param {Pair} pair */
  function rowOf(pair) {
    const row = rows.get(pair.name) ?? createRow();
    rows.set(pair.name, row);
    return row;
  }

  return {
    /** @param {import("../types.js").Model} model */
    update({ report }) {
      const pairs = [...report.pairs].sort((one, other) => one.margin - other.margin);
      for (const pair of pairs) rowOf(pair).show(pair, pair.name === report.binding);
      const wanted = pairs.map((pair) => rowOf(pair).element);
      wanted.forEach((row, index) => {
        if (body.children[index] !== row) body.insertBefore(row, body.children[index] ?? null);
      });
      while (body.childElementCount > wanted.length) body.lastElementChild?.remove();
    },
  };
}

function createRow() {
  const name = element("th", { scope: "row" });
  const gap = element("td", { className: "number" });
  const required = element("td", { className: "number" });
  const symbol = mark("clears");
  const word = element("span");
  const row = element("tr", {}, name, gap, required, element("td", { className: "pair-verdict" }, symbol, word));

  return {
    element: row,
    /** @param {Pair} pair @param {boolean} isBinding */
    show(pair, isBinding) {
      row.dataset.tone = pair.verdict;
      row.classList.toggle("binding", isBinding);
      setText(name, pair.label);
      setText(gap, lengthDigits(pair.gap, 2));
      setText(required, lengthDigits(pair.required, 2));
      setMark(symbol, pair.verdict);
      setText(word, VERDICT_WORDS[pair.verdict]);
    },
  };
}
