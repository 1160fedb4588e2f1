import { element } from "../dom.js";
import { picturePair, sentenceList } from "../search/pair.js";
import { errorText } from "../search/table.js";

/**
 * @typedef {import("../types.js").Context} Context
 * @typedef {import("../types.js").Setup} Setup
 */

const AT_HAND = "at-hand";

/**
 * Two setups side by side: the one at hand and those that are kept to choose from.
 * @param {Context} context
 */
export function createComparison({ client, goodSetup }) {
  const owner = {};
  const selects = ["First", "Second"].map((label) => element("select", {
    id: `setups-${label.toLowerCase()}`, className: "select-input", "aria-label": `${label} setup to compare`,
  }));
  const answer = element("div", { className: "answer", "aria-live": "polite" });
  const root = element(
    "section",
    { hidden: true },
    element("h3", {}, "Compare two"),
    element("div", { className: "setups-pair" }, ...selects),
    answer,
  );
  /** @type {Map<string, {name: string, setup: Setup}>} */
  let offered = new Map();
  for (const select of selects) select.addEventListener("change", ask);

  function ask() {
    const chosen = selects.map((select) => select.value === AT_HAND
      ? { name: "At hand", setup: goodSetup() }
      : offered.get(select.value));
    client.cancel(owner);
    const [one, other] = chosen;
    if (!one || !other) {
      answer.replaceChildren();
      return;
    }
    /** @type {any[]} */
    const answers = [];
    client.run(owner, [["drawing", one.setup, "side"], ["drawing", other.setup, "side"], ["compare", one.setup, other.setup]], {
      answer: (reply, index) => { answers[index] = reply; },
      done: () => answer.replaceChildren(...shown(answers, [one.name, other.name])),
      failed: (message) => answer.replaceChildren(element("p", { className: "search-error" }, message)),
    });
  }

  return {
    element: root,
    ask,
    stop: () => client.cancel(owner),
    /** @param {import("./kept.js").Sound[]} items */
    offer(items) {
      offered = new Map(items.map(({ record, name, setup }) => [record.id, { name, setup }]));
      root.hidden = offered.size === 0;
      selects.forEach((select, index) => {
        const before = select.value;
        const options = [
          ...(index === 0 ? [] : [["", "Choose\u2026"]]),
          [AT_HAND, "The setup at hand"],
          ...[...offered].map(([id, { name }]) => [id, name]),
        ];
        select.replaceChildren(...options.map(([value, text]) => element("option", { value }, text)));
        select.value = options.some(([value]) => value === before) ? before : options[0][0];
      });
    },
  };
}

/** @param {any[]} answers @param {string[]} names */
function shown(answers, names) {
  const wrong = answers.find((reply) => !reply.ok);
  if (wrong) return [errorText(wrong.errors)];
  const [one, other, comparison] = answers;
  return [picturePair([one.svg, other.svg], names, "setups-pair"), sentenceList(comparison.answer.sentences)];
}

