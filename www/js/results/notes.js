import { byId, element, setText } from "../dom.js";

/** @typedef {import("../types.js").Report} Report */

/** @type {[string, (report: Report) => string][]} */
const NOTES = [
  ["Pad on the band", (report) => report.pad.sentence],
  ["Sideways", (report) => report.lateral.sentence],
  ["Brake line", (report) => report.line.sentence],
  ["Plate and tube", (report) => report.recess.sentence],
  ["Wheel removal", (report) => report.wheel_removal.sentence],
];

/** What is not a gap, in sentences. */
export function createNotes() {
  const list = byId("notes");
  const rows = NOTES.map(([title, sentence]) => {
    const text = element("dd");
    list.append(element("div", {}, element("dt", {}, title), text));
    return { text, sentence };
  });

  return {
    /** @param {import("../types.js").Model} model */
    update({ report }) {
      for (const { text, sentence } of rows) setText(text, sentence(report));
    },
  };
}
