import { element } from "../dom.js";
import { unitName } from "../units.js";
import { areaText, fine, fineDigits, massText, plusMinus } from "./words.js";

/**
 * @typedef {import("./shapes.js").Dimension} Dimension
 * @typedef {import("./shapes.js").HoleEntry} HoleEntry
 * @typedef {import("./shapes.js").Piece} Piece
 * @typedef {import("./shapes.js").Sheet} Sheet
 */

/** A table with a name and what belongs to it in each row. @param {[string|Node, ...(string|Node)[]][]} rows @param {string[]} [head] */
export function factTable(rows, head) {
  const top = head && element("thead", {}, element("tr", {}, ...head.map((text, index) => (
    element("th", { scope: "col", className: index > 0 ? "number" : "" }, text)
  ))));
  const lines = rows.map(([name, ...values]) => element("tr", {}, element("th", { scope: "row" }, name),
    ...values.map((value) => element("td", { className: "number" }, value))));
  return element("table", { className: "table cut-table" }, ...(top ? [top] : []), element("tbody", {}, ...lines));
}

/** @param {Piece} piece */
export function pieceFacts(piece) {
  return factTable([
    ["Size", `${fineDigits(piece.width)} × ${fine(piece.height)}`],
    ["Thickness", fine(piece.thickness)],
    ["Inner corners", piece.fillet_radius > 0 ? `R ${fine(piece.fillet_radius)}` : "none"],
    ["Area", areaText(piece.area)],
    ["Length of cut", fine(piece.cut_length)],
    ["Mass", massText(piece.mass)],
  ]);
}

/** A number with its tolerance below it. @param {number|null|undefined} value @param {number|null} [tolerance] */
function cell(value, tolerance = null) {
  if (value == null) return "\u2013";
  return element("span", { className: "cut-toleranced" }, fineDigits(value),
    ...(tolerance == null ? [] : [" ", element("small", {}, plusMinus(tolerance))]));
}

/** @type {[string, (hole: HoleEntry) => string|Node, ((holes: HoleEntry[]) => boolean)?][]} */
const HOLE_ROWS = [
  ["Drill", (hole) => cell(hole.diameter)],
  ["Bolt or thread", (hole) => hole.thread || "\u2013"],
  ["Back", (hole) => cell(hole.back, hole.back_plus_minus)],
  ["Up", (hole) => cell(hole.up, hole.up_plus_minus)],
  ["From the axle", (hole) => cell(hole.distance, hole.distance_plus_minus)],
  ["From the lower edge", (hole) => cell(hole.from_lower_edge)],
  ["From the neck\u2019s edge", (hole) => cell(hole.from_neck_edge)],
  ["Along that edge", (hole) => cell(hole.along_neck)],
  ["From the old plate\u2019s edge", (hole) => cell(hole.from_old_edge), (holes) => holes.some((hole) => hole.from_old_edge != null)],
  ["Rim to nearest edge", (hole) => cell(hole.edge)],
];
const KINDS = { clearance: "Hole", threaded: "Threaded hole", axle: "Axle hole", slot: "Axle slot" };

/** The holes, each from two datums. @param {Sheet} sheet @returns {Node[]} */
export function holeTable({ holes, sizes, tolerances, hole_fit: fit }) {
  const rows = HOLE_ROWS.filter(([, , isWanted]) => !isWanted || isWanted(holes));
  const bolts = holes.filter(({ kind }) => kind === "clearance" || kind === "threaded");
  const axle = holes.find(({ kind }) => kind === "axle" || kind === "slot");
  const table = factTable(
    rows.map(([name, value]) => [name, ...bolts.map(value)]),
    [`In ${unitName()}`, ...bolts.map((hole) => `${KINDS[hole.kind]} ${hole.name}`)],
  );
  const isThreaded = bolts.some(({ kind }) => kind === "threaded");
  const remarks = [
    "Back and up are square to each other, along and across the leg, from the axle\u2019s centre; a minus means ahead of or below it.",
    isThreaded
      ? "The holes are in the posts and are threaded: the drill is the tap drill."
      : `Clearance holes: ISO 273, ${fit.fit} (${fit.class}).`,
    `\u00b1 after ISO 2768-1, class ${tolerances.class}, where nothing else is said.`,
  ];
  return [
    table,
    ...(axle ? [element("p", {}, axle.kind === "slot"
      ? `Axle: a slot ${fine(axle.diameter)} wide, its round end about the axle\u2019s centre.`
      : `Axle: a hole of ${fine(axle.diameter)}, ${fine(axle.edge ?? 0)} from its rim to the edge.`)] : []),
    ...remarks.map((text) => element("p", { className: "remark" }, text)),
    element("h4", {}, "Sizes"),
    dimensionTable(sizes),
  ];
}

/** @param {Dimension[]} dimensions */
export function dimensionTable(dimensions) {
  return factTable(
    dimensions.map(({ label, value, plus_minus }) => [label, fineDigits(value), plus_minus == null ? "\u2013" : plusMinus(plus_minus)]),
    ["Measure", `Is, ${unitName()}`, "\u00b1"],
  );
}

/** @param {Sheet} sheet @returns {Node[]} */
export function postFacts({ posts }) {
  if (!posts) return [];
  const length = (/** @type {number|null} */ value) => (value == null ? "meets no plate" : fine(value));
  return [
    element("p", {}, posts.sentence),
    factTable([
      ["Face from the axle\u2019s centre", fine(posts.face_distance)],
      ["Bolt A along the face", fine(posts.along[0])],
      ["Bolt B along the face", fine(posts.along[1])],
      ["Bolt to bolt", fine(posts.spacing)],
      ["Dropout\u2019s inner face out to the bolts", fine(posts.from_inner_face)],
      ["Thread", posts.thread],
      ["Tap drill", fine(posts.tap_drill)],
      ["Thread, deep", fine(posts.thread_depth)],
      ["Drill, deep", fine(posts.drill_depth)],
      ["Boss, across", fine(posts.boss_diameter)],
      ["Boss A, face to dropout", length(posts.boss_length[0])],
      ["Boss B, face to dropout", length(posts.boss_length[1])],
    ]),
  ];
}

/** The narrow places and the gaps with fillets, each with what is asked for. @param {Sheet} sheet @returns {Node[]} */
export function narrowPlaces({ sections, gaps, pieces }) {
  const several = new Set(sections.map(({ piece }) => piece)).size > 1;
  const titleOf = (/** @type {string} */ key) => pieces.find((piece) => piece.key === key)?.title ?? key;
  return [
    rated("Material left", sections.map(({ label, piece, width, least, ok }) => ({
      name: several ? element("span", {}, label, " ", element("small", {}, titleOf(piece))) : label, value: width, least, word: ok ? "Enough" : "Thin", tone: ok ? "clears" : "hits",
    }))),
    rated("Gap with fillets", gaps.map(({ label, gap, required, verdict }) => ({
      name: label, value: gap, least: required, word: { clears: "Clears", tight: "Tight", hits: "Hits" }[verdict], tone: verdict,
    }))),
  ].filter((table) => table != null);
}

/** @param {string} title @param {{name: string|Node, value: number, least: number, word: string, tone: string}[]} rows */
function rated(title, rows) {
  if (rows.length === 0) return null;
  return factTable(
    rows.map(({ name, value, least, word, tone }) => [
      name, fineDigits(value), fineDigits(least), element("strong", { className: "cut-rating", "data-tone": tone }, word),
    ]),
    [`${title}, ${unitName()}`, "Is", "Least", "Verdict"],
  );
}
