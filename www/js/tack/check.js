import { element, setText } from "../dom.js";
import { createAdvice } from "./advice.js";
import { asBuiltTables } from "./as-built.js";
import { createCheckList } from "./check-list.js";
import { createEntries } from "./entries.js";
import { createUndoLine, numberRow } from "./number.js";
import { createFigure } from "./picture.js";
import { pullTable } from "./pull.js";
import { createQuestion, refill, section } from "./question.js";
import { printRecord } from "./record.js";
import { partSwitch } from "./switch.js";

/**
 * The tacked part, and then the welded one: what was read on it, where it really is, and what to do with it.
 * @typedef {import("../types.js").Context} Context
 * @typedef {import("../../../wasm/src/build.js").TackDrawing} TackDrawing
 */

/** @type {("before"|"after")[]} */
const STATES = ["before", "after"];
const WORDS = ["Tacked", "Welded"];
const ACCURACY = "tack.accuracy";
const LEGEND = "Dashed: as drawn. Solid: as built. The true centre of a hole lies inside its ellipse 19 times in 20.";
const NOT_WELDED = "Nothing is read on the welded part yet. Read the same lengths again once it is cold.";

/** @param {Context} context @returns {import("./page.js").Section} */
export function createCheck(context) {
  const fields = context.core.fields().flatMap((group) => group.fields);
  const accuracyField = fields.find(({ key }) => key === ACCURACY);
  if (!accuracyField) throw new Error(`There is no field "${ACCURACY}".`);
  const accuracy = numberRow(accuracyField);
  const choice = partSwitch("tack-state", "State of the part", WORDS, chosen);
  const entries = STATES.map((state) => createEntries(fields, state));
  const place = element("div");
  const undo = createUndoLine();
  const advice = createAdvice(context, { read: (key) => entries[choice.index].focus(key), changed: undo.tell });
  const none = element("p", { className: "remark", hidden: true }, NOT_WELDED);
  const picture = createFigure("tack-drawing");
  const legend = element("p", { className: "remark" });
  const built = section("As built");
  const tables = element("div", { className: "tack-tables" });
  built.append(tables);
  const pulled = element("div");
  const pull = section("What welding did", pulled);
  const list = createCheckList();
  const cautions = element("ul", { className: "tack-cautions" });
  const print = element("button", { type: "button", className: "button" }, "Print the record on one page");
  const question = createQuestion(
    context,
    { call: () => ["tack_check", context.goodSetup()], show },
    advice.rest,
    none,
  );
  advice.title.hidden = true;
  const results = element(
    "div",
    { className: "tack-results", hidden: true },
    picture.element,
    legend,
    built,
    pull,
    section("In this order", list.element),
    section("Take care", cautions),
    print,
  );
  /** @type {TackDrawing|undefined} */
  let latest;

  const root = element(
    "div",
    { className: "tack-check" },
    choice.element,
    advice.title,
    question.element,
    undo.element,
    section("Readings", place, accuracy.element),
    results,
  );

  function chosen() {
    place.replaceChildren(entries[choice.index].element);
    if (latest) show(latest);
  }

  /** @param {TackDrawing} answer */
  function show(answer) {
    latest = answer;
    const { check, svg } = answer;
    const state = STATES[choice.index];
    const tacked = check[state];
    entries.forEach((one, index) => one.answer(check, check[STATES[index]]));
    none.hidden = tacked !== null;
    advice.title.hidden = advice.rest.hidden = tacked === null;
    if (tacked) advice.show(tacked, state);
    picture.show(svg[state], "The part as built over the part as drawn; errors and uncertainties are drawn enlarged. The numbers stand below.");
    legend.hidden = svg[state] === null;
    setText(legend, legendOf(svg[state] ?? ""));
    built.hidden = !tacked?.as_built;
    refill(tables, ...(tacked?.as_built ? asBuiltTables(tacked.as_built) : []));
    pull.hidden = check.pull === null;
    refill(pulled, ...(check.pull ? pullTable(check.pull) : []));
    list.show(check.check_list);
    cautions.replaceChildren(...check.cautions.map((caution) => element("li", {}, caution)));
    results.hidden = false;
  }

  print.addEventListener("click", () => {
    if (latest) printRecord(context.goodSetup(), latest, list.isDone);
  });
  place.replaceChildren(entries[0].element);

  return {
    element: root,
    update(model) {
      for (const one of entries) one.update(model);
      accuracy.update(model);
      undo.update(model.setup);
      question.ask(context.goodSetup());
    },
    closed: question.stop,
  };
}

/** @param {string} svg */
function legendOf(svg) {
  const times = Number(/data-enlarged="([\d.]+)"/.exec(svg)?.[1] ?? 1);
  return times > 1 ? `Errors are drawn ${times} times as large as they are. ${LEGEND}` : LEGEND;
}
