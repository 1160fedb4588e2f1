import { element, setText } from "../dom.js";
import { bringIn } from "../unit-switch.js";
import { resultCard, verdictMark } from "./result.js";
import { createRotors } from "./rotors.js";
import { createSeating } from "./seating.js";
import { TONES, amountText, shareText, weakestFirst } from "./words.js";

/**
 * @typedef {import("./words.js").Group} Group
 * @typedef {import("./words.js").Loads} Loads
 * @typedef {import("../types.js").Setup} Setup
 */

/** Of the element of a result. @param {string} id */
function cardId(id) {
  return `load-${id.replaceAll("_", "-")}`;
}

/**
 * The results by part, each in a fold with what it hangs on. Outside stands how the worst of them does.
 * @param {Record<string, HTMLElement>} inputs  What the groups hang on.
 */
export function createGroups(inputs) {
  const root = element("div", { className: "load-groups" });
  /** What stands in a group besides its results. @type {Record<string, {element: HTMLElement, show: (loads: Loads, setup: Setup) => void}>} */
  const extras = { pads: createRotors(), axle: createSeating() };
  /** @type {Map<string, ReturnType<typeof createFold>>} */
  const folds = new Map();

  return {
    element: root,
    /** @param {Loads} loads @param {Setup} setup */
    show(loads, setup) {
      for (const group of loads.groups) {
        let fold = folds.get(group.id);
        if (!fold) {
          fold = createFold(group, extras[group.id]?.element, inputs[group.id]);
          folds.set(group.id, fold);
          root.append(fold.element);
        }
        fold.show(group);
        extras[group.id]?.show(loads, setup);
      }
    },
    /** Opens the fold around a result and leads to it. @param {string} id */
    lead(id) {
      const card = /** @type {HTMLElement|null} */ (root.querySelector(`[data-result="${CSS.escape(id)}"]`));
      const fold = card?.closest("details");
      if (!card || !fold) return;
      fold.open = true;
      card.focus({ preventScroll: true });
      card.scrollIntoView({ block: "start" });
    },
  };
}

/** Of a group without a limit to judge by. @param {Group} group */
function plainOutcome({ results: [first] }) {
  return first ? amountText(first.value, first.unit) : "Not computed";
}

/** @param {Group} group @param {HTMLElement|undefined} extra @param {HTMLElement|undefined} inputs */
function createFold({ id, label }, extra, inputs) {
  const outcome = element("span", { className: "load-outcome" });
  const note = element("p", { className: "remark" });
  const results = element("div", { className: "load-results" });
  const details = element("details", { className: "group load-group", "data-load": id });
  bringIn(
    details,
    element("summary", {}, element("span", { className: "load-group-name" }, label), outcome),
    note,
    results,
    ...(extra ? [extra] : []),
    ...(inputs ? [element("h4", { className: "load-hangs" }, "It depends on"), inputs] : []),
  );
  let shown = "";

  return {
    element: details,
    /** @param {Group} group */
    show(group) {
      const now = JSON.stringify(group);
      if (now === shown) return;
      shown = now;
      setText(note, group.note);
      note.hidden = group.note === "";
      const [worst] = weakestFirst(group.results);
      outcome.dataset.tone = worst ? TONES[worst.state] : "";
      outcome.replaceChildren(...(worst ? [verdictMark(worst), " ", shareText(worst)] : [plainOutcome(group)]));
      results.replaceChildren(...group.results.map((result) => resultCard(result, cardId(result.id))));
    },
  };
}
