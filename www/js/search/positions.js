import { element, emit } from "../dom.js";
import { cellButton, cellTable, errorText } from "./table.js";
import { WAY_WORDS, angleWords, marginWords, pairWords, scribed } from "./words.js";

const SIDES = ["left", "right"];
const PLACES = [
  { behind: true, above: true, label: "Behind above" },
  { behind: true, above: false, label: "Behind below" },
  { behind: false, above: true, label: "Ahead above" },
  { behind: false, above: false, label: "Ahead below" },
];
/** @type {Record<string, string>} */
const AXLE_WORDS = {
  seats: "seats the axle",
  lifts: "lifts the axle",
  neither: "axle neither way",
};
const REMARK = "Whether braking seats or lifts the axle is told from the pads' force alone; the loads of road and rider come on top.";

/** The eight places a caliper could go. @returns {import("./section.js").Search} */
export function positionsSearch() {
  return {
    calls: (setup) => [["positions", setup]],
    show([reply], setup) {
      if (!reply.ok) return [errorText(reply.errors)];
      const table = cellTable({
        caption: "Best clock angle of each place",
        corner: "Place",
        columns: ["Left", "Right"],
        rows: PLACES.map(({ label }) => label),
        cell: (row, column) => placeCell(reply.answer, SIDES[column], PLACES[row], setup),
      });
      return [table, element("p", { className: "remark" }, REMARK)];
    },
  };
}

/** @param {any[]} places @param {string} side @param {typeof PLACES[0]} wanted @param {any} setup */
function placeCell(places, side, { behind, above, label }, setup) {
  const place = places.find((one) => one.side === side && one.behind === behind && one.above === above);
  if (!place) return document.createTextNode("\u2013");
  const name = `${side === "left" ? "Left" : "Right"}, ${label.toLowerCase()}`;
  const clock = scribed(place.clock);
  const button = cellButton({
    name,
    verdict: place.verdict,
    lines: [
      `at ${angleWords(clock)}`,
      marginWords(place.margin),
      pairWords(place.binding),
      `line ${WAY_WORDS[place.line]}`,
      place.wheel_out ? "wheel drops out" : "wheel stays in",
      AXLE_WORDS[place.axle],
    ],
    isCurrent: setup.side === side && setup.tab.clock === clock,
    act: () => emit(button, "changes", {
      changes: [{ path: "side", value: side }, { path: "tab.clock", value: clock }],
      words: `Changed to ${name.toLowerCase()}, at ${angleWords(clock)}.`,
    }),
  });
  return button;
}
