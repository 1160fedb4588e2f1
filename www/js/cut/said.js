import { element, mark } from "../dom.js";
import { goToField } from "../focus.js";
import { dotted, liesIn } from "../path.js";
import { VERDICT_WORDS } from "../verdicts.js";

/**
 * @typedef {import("../types.js").Model} Model
 * @typedef {import("../types.js").Remark} Remark
 */

const STALE = "What is typed now has no answer. Below is the sheet of the last good values: nothing can be saved or printed.";

/**
 * What is to be said before anything is cut: the verdict on the setup, what stops the sheet, and what is unusual.
 * @param {(path: string) => HTMLElement|null} ownField  A place on this page where the field can be changed.
 */
export function createSaid(ownField) {
  const verdict = element("div", { className: "cut-verdict" });
  const stale = element("p", { className: "cut-stale", hidden: true }, STALE);
  const problems = element("ul", { className: "cut-problems", hidden: true });
  const warnings = element("ul", { className: "warning-list cut-warnings", hidden: true });

  /** @param {Remark} remark */
  function link({ field, message }) {
    if (!field || field.startsWith("options.") && !ownField(field)) return document.createTextNode(message);
    const button = element("button", { type: "button", className: "link" }, message);
    button.addEventListener("click", () => {
      const own = ownField(field);
      if (own) {
        for (let outer = own.closest("details"); outer; outer = outer.parentElement?.closest("details") ?? null) outer.open = true;
        own.focus({ preventScroll: true });
        own.scrollIntoView({ block: "nearest" });
        return;
      }
      /** @type {HTMLDialogElement|null} */ (button.closest("dialog.panel"))?.close();
      goToField(field);
    });
    return button;
  }

  /** @param {HTMLElement} list @param {Remark[]} remarks @param {string} tone */
  function fill(list, remarks, tone) {
    list.hidden = remarks.length === 0;
    list.replaceChildren(...remarks.map((remark) => element("li", {}, mark(tone), element("span", {}, link(remark)))));
  }

  return {
    element: element("div", { className: "cut-said" }, stale, element("div", { role: "status" }, problems), verdict, warnings),
    /** @param {Model} model @param {Remark[]} refusals  Of the core, to make the sheet. */
    update({ problems: typed, report }, refusals) {
      stale.hidden = typed.length === 0;
      fill(problems, [...typed, ...refusals], "hits");
      verdict.dataset.tone = report.verdict;
      const word = VERDICT_WORDS[report.verdict];
      const rest = report.summary.startsWith(`${word}: `) ? report.summary.slice(word.length + 2) : report.summary;
      verdict.replaceChildren(mark(report.verdict), element("p", {}, element("strong", {}, `${word}. `), rest));
    },
    /** @param {Remark[]} remarks */
    warn(remarks) {
      fill(warnings, remarks, "tight");
    },
  };
}

/** @param {Remark} remark @param {string} key */
export function isAbout(remark, key) {
  return liesIn(dotted(remark.field), key);
}
