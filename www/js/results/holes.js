import { byId, element, setText } from "../dom.js";
import { readable } from "../numbers.js";
import { lengthDigits } from "../units.js";

/**
 * @typedef {import("../types.js").Report} Report
 * @typedef {{label: string, cells: (report: Report) => string[]}} Line
 */

/** @type {Line[]} */
const LINES = [
  { label: "Back from the axle", cells: ({ holes }) => holes.map((hole) => lengthDigits(hole.back, 2)) },
  { label: "Up from the axle", cells: ({ holes }) => holes.map((hole) => lengthDigits(hole.up, 2)) },
  { label: "Straight from the axle", cells: ({ holes }) => holes.map((hole) => lengthDigits(hole.distance, 2)) },
  { label: "From the plate's lower end", cells: ({ holes }) => holes.map((hole) => lengthDigits(hole.from_lower_edge, 2)) },
  { label: "From the neck's edge", cells: ({ holes }) => holes.map((hole) => lengthDigits(hole.from_neck_edge, 2)) },
  { label: "Hole to hole", cells: ({ hole_spacing }) => [lengthDigits(hole_spacing, 2)] },
];

/** @type {Line[]} */
const POST_LINES = [
  { label: "Post face from the axle", cells: ({ post }) => [post ? lengthDigits(post.face_distance, 2) : ""] },
  { label: "Bolts along the face", cells: ({ post }) => post ? post.along.map((place) => lengthDigits(place, 2)) : [] },
  {
    label: "Bolt axis (back, up, out)",
    cells: ({ post }) => [post ? post.axis.map((part) => readable(part, 3)).join(", ") : ""],
  },
];

/** The numbers a builder scribes on the plate. */
export function createHoles() {
  const body = byId("hole-rows");
  const rows = new Map();

  /** @param {Line} line @param {Report} report */
  function rowOf(line, report) {
    const cells = line.cells(report);
    const row = rows.get(line) ?? createRow(line.label, cells.length);
    rows.set(line, row);
    row.show(cells);
    return row.element;
  }

  return {
    /** @param {import("../types.js").Model} model */
    update({ report }) {
      const lines = report.post ? [...LINES, ...POST_LINES] : LINES;
      const wanted = lines.map((line) => rowOf(line, report));
      if (body.childElementCount !== wanted.length) body.replaceChildren(...wanted);
    },
  };
}

/** A row with two cells, one per hole, or a single one across both. @param {string} label @param {number} count */
function createRow(label, count) {
  const cells = Array.from({ length: count }, () => element("td", { className: "number", colSpan: 3 - count }));
  return {
    element: element("tr", {}, element("th", { scope: "row" }, label), ...cells),
    /** @param {string[]} texts */
    show(texts) {
      cells.forEach((cell, index) => setText(cell, texts[index]));
    },
  };
}
