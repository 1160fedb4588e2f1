import { element, mark, setMark, setText } from "../dom.js";
import { shareBar, verdictMark } from "./result.js";
import { TONES, passedWithoutBreaking, percentText, shareText, weakestFirst, worstOf } from "./words.js";

/**
 * @typedef {import("./words.js").Loads} Loads
 * @typedef {import("./words.js").Result} Result
 */

/** So many are listed even where they are far from their limits, and more only where they are near. */
const LEAST_LISTED = 3;
/** Quiet time before a screen reader is told. */
const ANNOUNCE_AFTER_MS = 800;
const WORDS = { over: "Too much", close: "Close to a limit", holds: "No limit passed", told: "Not judged" };
/** Below the headline where something passes a limit that is none of strength. */
const AS_WELL = "Parts that move wear, and work loose.";

/** What stands first: the verdict in words, the sentence to it, and the caution right with it. */
export function createHead() {
  const symbol = mark("unchecked");
  const word = element("strong");
  const share = element("span", { className: "load-percent" });
  const bar = element("p", { className: "load-bar", "data-tone": "unchecked", hidden: true }, symbol, word, share);
  const headline = element("p", { className: "load-headline" });
  const caution = element("p", { className: "load-caution" });
  const live = element("p", { className: "hidden-text", "aria-live": "polite" });
  let timer = 0;

  return {
    bar,
    element: element("div", { className: "load-head" }, headline, caution, live),
    /** @param {Loads} loads */
    show(loads) {
      const worst = worstOf(loads);
      const moving = loads.state === "over" ? [] : passedWithoutBreaking(loads);
      const tone = moving.length > 0 ? "tight" : TONES[loads.state] || "unchecked";
      const sentence = loads.headline ?? [...moving.map(movingSentence), ...(moving.length > 0 ? [AS_WELL] : []), calmSentence(loads, worst)].join(" ");
      bar.hidden = false;
      bar.dataset.tone = tone;
      setMark(symbol, tone);
      setText(word, moving.length > 0 ? moving.map(({ verdict }) => verdict).join(", ") : WORDS[loads.state]);
      setText(share, worst && moving.length === 0 ? shareText(worst) : "");
      headline.dataset.tone = tone;
      setText(headline, sentence);
      setText(caution, loads.caution);
      clearTimeout(timer);
      timer = setTimeout(() => setText(live, sentence), ANNOUNCE_AFTER_MS);
    },
  };
}

/** @param {Loads} loads @param {Result|undefined} worst */
function calmSentence({ state }, worst) {
  if (!worst) return "Nothing here has a limit to judge by.";
  const what = `${worst.label}: ${shareText(worst)}`;
  if (state === "close") return `Close to a limit: ${what}. What is left is less than such an estimate can be off by.`;
  return `No limit of strength passed in this estimate. Nearest: ${what}.`;
}

/** @param {Result} result */
function movingSentence(result) {
  return `${result.label}: ${shareText(result)}.`;
}

/** The results nearest to their limits, each leading to its place. @param {(id: string) => void} lead */
export function createWeakest(lead) {
  const list = element("ol", { className: "load-weakest" });
  let shown = "";

  return {
    element: list,
    /** @param {Loads} loads */
    show(loads) {
      const sorted = weakestFirst(loads.groups.flatMap(({ results }) => results));
      const near = sorted.filter(({ state }) => state !== "holds").length;
      const rows = sorted.slice(0, Math.max(near, LEAST_LISTED));
      const now = JSON.stringify(rows);
      if (now === shown) return;
      shown = now;
      const focused = list.contains(document.activeElement) ? document.activeElement?.getAttribute("data-name") : null;
      list.replaceChildren(...rows.map((result) => {
        const button = element(
          "button",
          { type: "button", className: "load-weak", "data-name": result.id, "data-tone": TONES[result.state] },
          element("span", { className: "load-weak-name" }, result.label),
          verdictMark(result),
          shareBar(result),
          element("span", { className: "load-percent" }, percentText(result), element("span", { className: "hidden-text" }, " of its limit")),
        );
        button.addEventListener("click", () => lead(result.id));
        return element("li", {}, button);
      }));
      if (focused) /** @type {HTMLElement|null} */ (list.querySelector(`[data-name="${CSS.escape(focused)}"]`))?.focus();
    },
  };
}
