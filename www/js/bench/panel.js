import { byId, element, mark, setMark, setText } from "../dom.js";
import { VERDICT_WORDS } from "../verdicts.js";
import { createAwake } from "./awake.js";
import { createSettings } from "./settings.js";
import { letTurnPages } from "./pages.js";
import { valuesOf } from "./values.js";

/**
 * @typedef {import("../types.js").Model} Model
 * @typedef {import("./values.js").Value} Value
 */

export const title = "At the bench";

/** What stands beside the digits, in digits' widths. */
const UNIT_ROOM = 0.7;

/**
 * One number at a time, as large as the screen allows, with the verdict over it: to be read from two metres off.
 * @param {import("../types.js").Context} context @returns {import("../types.js").Panel}
 */
export function createPanel({ goodSetup }) {
  const symbol = mark("clears");
  const word = element("strong");
  const verdict = element("p", { className: "verdict bench-verdict" }, symbol, word);
  const stale = element("p", { className: "bench-stale", hidden: true }, "Numbers of the last good values, not of what is typed now.");
  const choice = element("select", { className: "select-input", "aria-label": "Number to show" });
  const name = element("h3", { className: "bench-name" });
  const digits = element("span", { className: "bench-digits" });
  const unit = element("span", { className: "bench-unit" });
  const way = element("p", { className: "bench-way" });
  const live = element("p", { className: "hidden-text", "aria-live": "polite" });
  const show = element("section", { className: "bench-value", "aria-label": "The number" },
    name, element("p", { className: "bench-number" }, digits, " ", unit), way);
  const count = element("p", { className: "bench-count" });
  const back = element("button", { type: "button", className: "button" }, "\u25c0 Previous");
  const on = element("button", { type: "button", className: "button" }, "Next \u25b6");
  const settings = createSettings({ awake: (wanted) => awake.keep(wanted), changed: showLatest });
  const awake = createAwake(settings.tellAwake);
  const root = element("div", { className: "bench" },
    element("div", { className: "bench-top" }, verdict, choice), stale, show, live,
    element("p", { className: "remark bench-caution" }, "An estimate of geometry, no approval. Measure, tack, mock up, then weld."),
    settings.element,
    element("div", { className: "bench-pages" }, back, count, on));

  /** @type {Model|undefined} */
  let latest;
  /** @type {Value[]} */
  let values = [];
  let current = "gap";
  let isOpen = false;

  function place() {
    return Math.max(values.findIndex(({ key }) => key === current), 0);
  }

  /** @param {number} wanted */
  function goTo(wanted) {
    const value = values[Math.min(Math.max(wanted, 0), values.length - 1)];
    if (!value || value.key === current) return;
    current = value.key;
    showLatest();
    setText(live, `${value.name}: ${value.digits} ${value.unit}. ${value.way}.`);
  }

  function showLatest() {
    if (latest) update(latest);
  }

  function showChoices() {
    const names = values.map((value) => value.name);
    if (names.length !== choice.length || names.some((text, index) => choice.options[index].text !== text)) {
      choice.replaceChildren(...values.map(({ key, name: text }) => element("option", { value: key }, text)));
    }
    choice.value = values[place()].key;
  }

  /** @param {Model} model */
  function update(model) {
    latest = model;
    const { report, problems } = model;
    if (!isOpen) {
      isOpen = true;
      settings.opened();
    }
    const tone = problems.length === 0 ? report.verdict : "unchecked";
    verdict.dataset.tone = tone;
    setMark(symbol, tone);
    setText(word, tone === "unchecked" ? "Not checked" : VERDICT_WORDS[tone]);
    stale.hidden = tone !== "unchecked";

    values = valuesOf({ report, setup: goodSetup(), decimals: settings.decimals });
    const index = place();
    const value = values[index];
    showChoices();
    setText(name, value.name);
    setText(digits, value.digits);
    setText(unit, value.unit);
    setText(way, `${value.way}.`);
    // As large as its width lets it.
    show.style.setProperty("--digits", String(value.digits.length + UNIT_ROOM));
    show.dataset.tone = value.key === "gap" ? tone : "";
    setText(count, `${index + 1} of ${values.length}`);
    back.setAttribute("aria-disabled", String(index === 0));
    on.setAttribute("aria-disabled", String(index === values.length - 1));
  }

  choice.addEventListener("change", () => goTo(values.findIndex(({ key }) => key === choice.value)));
  back.addEventListener("click", () => goTo(place() - 1));
  on.addEventListener("click", () => goTo(place() + 1));
  letTurnPages({
    swiped: show,
    keyed: byId("panel"),
    isOpen: () => isOpen,
    by: (/** @type {number} */ pages) => goTo(place() + pages),
  });

  return {
    element: root,
    update,
    closed() {
      isOpen = false;
      setText(live, "");
      awake.keep(false);
    },
  };
}
