import { element, mark } from "../dom.js";
import { unitMark } from "../unit-switch.js";
import { VERDICT_WORDS } from "../verdicts.js";
import { allowed, figure, signed, withDoubt } from "./figures.js";

/**
 * The part as it is: every number with its ±, against what is allowed.
 * @typedef {import("../../../wasm/src/build.js").AsBuilt} AsBuilt
 */

const LENGTH_UNIT = /( mm|")$/;

/** @param {AsBuilt} built @returns {HTMLElement[]} */
export function asBuiltTables(built) {
  const ofPairs = new Set(built.pairs.map(({ name }) => name));
  const limits = built.limits.filter(({ key }) => !ofPairs.has(key));
  return [
    table("Limits", ["As built", "Allowed"], limits.map((limit) => [
      judged(limit.label, limit.ok ? "clears" : "hits", limit.ok ? "good" : "out", limit.sure),
      withDoubt(limit, limit.unit),
      allowed(limit.low, limit.high, limit.unit),
    ])),
    table("Gaps", ["As built", "Wanted"], built.pairs.map((pair) => [
      judged(pair.label, pair.verdict, VERDICT_WORDS[pair.verdict].toLowerCase(), pair.sure),
      withDoubt(pair.gap),
      figure(pair.required),
    ])),
    table("Against the drawing", ["As built", "Drawn"], [
      ["Hole to hole", withDoubt(built.spacing), figure(built.spacing.designed)],
      ["Pads\u2019 radius", withDoubt(built.pads.radius), figure(built.pads.radius.designed)],
      ["Pads\u2019 clock angle", withDoubt(built.pads.clock, "°"), figure(built.pads.clock.designed, "°")],
      ["Pad on the band", withDoubt(built.pads.coverage, ""), figure(built.pads.coverage.designed, "")],
      ["Tab offset sideways", withDoubt(built.offset), figure(built.offset.designed)],
      ["Rotor inset", withDoubt(built.rotor_inset), figure(built.rotor_inset.designed)],
      ["Slot from the rotor", withDoubt(built.misalignment), figure(built.misalignment.designed)],
      ["Tilt along the holes", withDoubt(built.tilt, "°"), figure(built.tilt.designed, "°")],
    ]),
    table("Holes off by", ["From the axle", "Round the axle", "Known to"], built.holes.map((hole, index) => [
      `Hole ${index + 1}`,
      signed(hole.off.radial),
      signed(hole.off.tangential),
      `±${figure(hole.ellipse.major)}`,
    ])),
    element("p", { className: "remark" }, `${built.pads.sentence} ${built.rotation.sentence}`),
  ];
}

/** What a row is about, with what is to be said of it. @param {string} label @param {string} tone @param {string} word @param {boolean} sure */
export function judged(label, tone, word, sure) {
  const isGood = tone === "clears";
  return element(
    "span",
    { className: "tack-judged", "data-tone": tone },
    mark(tone),
    element("span", {}, label, " ", element("span", { className: isGood ? "hidden-text" : "pair-verdict" }, word), ...(sure ? [] : [isGood ? " " : ", ", element("span", { className: "tack-unsure" }, "not sure")])),
  );
}

/**
 * A table with words in its first column and numbers in the others, whose lengths leave their unit to the head.
 * @param {string} caption  Over the first column too. @param {string[]} head  Over the others. @param {(string|HTMLElement)[][]} rows
 */
export function table(caption, head, rows) {
  const cellOf = (/** @type {string|HTMLElement} */ cell, /** @type {number} */ index) => index === 0
    ? element("th", { scope: "row" }, cell)
    : element("td", { className: "number" }, typeof cell === "string" ? cell.replace(LENGTH_UNIT, "") : cell);
  return element("div", { className: "scroll-box", tabIndex: 0, role: "region", "aria-label": caption }, element(
    "table",
    { className: "table tack-numbers" },
    element("thead", {}, element("tr", {}, element("th", { scope: "col", className: "tack-caption" }, caption), ...head.map((text) => element("th", { scope: "col", className: "number" }, text, " ", unitMark("mm"))))),
    element("tbody", {}, ...rows.map((row) => element("tr", {}, ...row.map(cellOf)))),
  ));
}
