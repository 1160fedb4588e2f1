import { element, mark } from "../dom.js";
import { VERDICT_WORDS } from "../verdicts.js";
import { allowed, figure, signed, withDoubt } from "./figures.js";

/**
 * The part as it is: every number with its ±, against what is allowed.
 * @typedef {import("../../../wasm/src/build.js").AsBuilt} AsBuilt
 */

/** @param {AsBuilt} built @returns {HTMLElement[]} */
export function asBuiltTables(built) {
  const ofPairs = new Set(built.pairs.map(({ name }) => name));
  const limits = built.limits.filter(({ key }) => !ofPairs.has(key));
  return [
    table("Where the part is good, and where not", ["Number", "As built", "Allowed", ""], limits.map((limit) => [
      limit.label,
      withDoubt(limit, limit.unit),
      allowed(limit.low, limit.high, limit.unit),
      verdictCell(limit.ok ? "clears" : "hits", limit.ok ? "Good" : "Out", limit.sure),
    ])),
    table("Gaps as built", ["Gap", "As built", "Wanted", ""], built.pairs.map((pair) => [
      pair.label,
      withDoubt(pair.gap),
      figure(pair.required),
      verdictCell(pair.verdict, VERDICT_WORDS[pair.verdict], pair.sure),
    ])),
    table("Against the drawing", ["Number", "As built", "Drawn"], [
      ["Hole to hole", withDoubt(built.spacing), figure(built.spacing.designed)],
      ["Pads' radius", withDoubt(built.pads.radius), figure(built.pads.radius.designed)],
      ["Pads' clock angle", withDoubt(built.pads.clock, "°"), figure(built.pads.clock.designed, "°")],
      ["Pad on the band", withDoubt(built.pads.coverage, ""), figure(built.pads.coverage.designed, "")],
      ["Tab offset sideways", withDoubt(built.offset), figure(built.offset.designed)],
      ["Rotor inset", withDoubt(built.rotor_inset), figure(built.rotor_inset.designed)],
      ["Slot from the rotor", withDoubt(built.misalignment), figure(built.misalignment.designed)],
      ["Tilt along the holes", withDoubt(built.tilt, "°"), figure(built.tilt.designed, "°")],
    ]),
    table("Holes", ["Hole", "Away from axle", "Round the axle", "Known to"], built.holes.map((hole, index) => [
      `Hole ${index + 1}`,
      signed(hole.off.radial),
      signed(hole.off.tangential),
      `${figure(hole.ellipse.major)} by ${figure(hole.ellipse.minor)}`,
    ])),
    element("p", { className: "remark" }, `${built.pads.sentence} ${built.rotation.sentence}`),
  ];
}

/** @param {string} tone @param {string} word @param {boolean} sure */
function verdictCell(tone, word, sure) {
  const cell = element("span", { className: "pair-verdict", "data-tone": tone }, mark(tone), word);
  return sure ? cell : element("span", {}, cell, element("span", { className: "remark tack-unsure" }, "not sure"));
}

/**
 * A table with words in its first column and numbers in the others.
 * @param {string} caption @param {string[]} head @param {(string|HTMLElement)[][]} rows
 */
export function table(caption, head, rows) {
  const cellOf = (/** @type {string|HTMLElement} */ cell, /** @type {number} */ index) => {
    const className = typeof cell === "string" ? "number" : "";
    return index === 0 ? element("th", { scope: "row" }, cell) : element("td", { className }, cell);
  };
  return element("div", { className: "scroll-box", tabIndex: 0, role: "region", "aria-label": caption }, element(
    "table",
    { className: "table" },
    element("caption", { className: "tack-caption" }, caption),
    element("thead", {}, element("tr", {}, ...head.map((text, index) => text === ""
      ? element("td")
      : element("th", { scope: "col", className: index > 0 ? "number" : "" }, text)))),
    element("tbody", {}, ...rows.map((row) => element("tr", {}, ...row.map(cellOf)))),
  ));
}
