import { element, setText } from "../dom.js";
import { remarkWay } from "./refusals.js";

/**
 * @typedef {import("../types.js").Context} Context
 * @typedef {import("../search/client.js").Call} Call
 */

/**
 * One question to the core's worker: asked anew when the setup is another, with the last answer greyed until the next one
 * is there, and a way on where none came.
 * @param {Context} context
 * @param {{call: () => Call, show: (answer: any) => void}} wanted  `show` is given answers without errors.
 * @param {...Node} content  What `show` fills in; out of sight before the first answer, and while there is none but errors.
 */
export function createQuestion({ client }, { call, show }, ...content) {
  const message = element("p", { className: "remark", role: "status" });
  const again = element("button", { type: "button", className: "button" }, "Try again");
  const halted = element("div", { className: "search-state", hidden: true }, message, again);
  const errors = element("ul", { className: "tack-errors", hidden: true });
  const place = element("div", { className: "tack-answer", hidden: true }, ...content);
  const root = element("div", {}, halted, errors, place);
  const owner = {};
  /** What the answer on show, or the one to come, belongs to. @type {any[]} */
  let asked = [];
  /** @type {any[]} */
  let latest = [];
  let isWaiting = false;

  function start() {
    asked = latest;
    halted.hidden = true;
    wait(true);
    client.run(owner, [call()], {
      answer: take,
      done: () => wait(false),
      failed(words) {
        asked = [];
        halted.hidden = false;
        setText(message, words);
      },
    });
  }

  /** @param {boolean} waits */
  function wait(waits) {
    isWaiting = waits;
    root.classList.toggle("outdated", waits);
    place.setAttribute("aria-busy", String(waits));
  }

  /** @param {any} given */
  function take(given) {
    const problems = given.ok ? [] : given.errors;
    errors.hidden = given.ok;
    place.hidden = !given.ok;
    errors.replaceChildren(...problems.map((/** @type {any} */ problem) => element("li", {}, remarkWay(problem, root))));
    if (given.ok) show(given.answer);
  }

  again.addEventListener("click", start);
  return {
    element: root,
    /** Asks, unless it has for the same. @param {...any} about  Compared one by one. */
    ask(...about) {
      latest = about;
      if (about.length === asked.length && about.every((part, index) => part === asked[index])) return;
      start();
    },
    /** Gives up on an answer that is still to come. */
    stop() {
      if (!isWaiting) return;
      client.cancel(owner);
      asked = [];
    },
    /** Nothing to ask: nothing to show. */
    clear() {
      client.cancel(owner);
      asked = [];
      wait(false);
      for (const part of [halted, errors, place]) part.hidden = true;
    },
  };
}

/**
 * New content in the place of the old, with the focus, and the folds that were opened, left on what goes by the same name.
 * @param {HTMLElement} place @param {...Node} content
 */
export function refill(place, ...content) {
  const focused = place.contains(document.activeElement) ? document.activeElement?.getAttribute("data-name") : null;
  const open = [...place.querySelectorAll("details[open]")].map((fold) => fold.getAttribute("data-name") ?? "");
  place.replaceChildren(...content);
  const named = (/** @type {string} */ name) => place.querySelector(`[data-name="${CSS.escape(name)}"]`);
  for (const name of open) named(name)?.setAttribute("open", "");
  if (focused) /** @type {HTMLElement|null} */ (named(focused))?.focus({ preventScroll: true });
}

/** A part of an answer under its heading. @param {string} heading @param {...Node} children */
export function section(heading, ...children) {
  return element("section", {}, element("h3", {}, heading), ...children);
}
