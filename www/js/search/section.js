import { byId, element, setText } from "../dom.js";

/**
 * @typedef {import("../types.js").Setup} Setup
 * @typedef {import("./client.js").Call} Call
 * @typedef {import("./client.js").SearchClient} SearchClient
 *
 * @typedef {Object} Search  One question about a setup.
 * @property {(setup: Setup) => Call[]} calls
 * @property {(answers: any[], setup: Setup) => Node[]} show  With the answers so far, in the calls' order.
 */

/** A search that takes longer shows how far it is; a bar that flashes by would only move the page about. */
const SLOW_MS = 500;

/**
 * The visible part of a search: its answer, how far it is, and a way on where it failed or was stopped.
 * @param {string} id  Of the element to fill. @param {Search} search @param {SearchClient} client
 */
export function createSection(id, search, client) {
  const root = byId(id);
  const message = element("p", { className: "remark", role: "status" });
  const progress = element("progress", { "aria-label": "Progress of the search" });
  const stop = element("button", { type: "button", className: "button", textContent: "Stop" });
  const again = element("button", { type: "button", className: "button", textContent: "Try again" });
  const running = element("div", { className: "search-state", hidden: true }, progress, stop);
  const halted = element("div", { className: "search-state", hidden: true }, message, again);
  const answer = element("div", { className: "answer" });
  root.append(running, halted, answer);
  const fold = root.closest("details");
  const owner = {};
  /** What the answer on show, or the search under way, belongs to. @type {any[]} */
  let asked = [];
  /** @type {[Setup, any[]]} */
  let latest;
  /** @type {any[]} */
  let answers = [];
  let frame = 0;
  let slow = 0;

  /** A list fills up as its answers come, at most once per painted frame. */
  function draw() {
    frame ||= requestAnimationFrame(() => {
      frame = 0;
      if (asked.length === 0) return;
      answer.classList.remove("outdated");
      replaceKeepingPlace(answer, search.show(answers, latest[0]));
    });
  }

  function start() {
    const calls = search.calls(latest[0]);
    answers = [];
    progress.max = Math.max(calls.length, 1);
    progress.value = 0;
    show(null);
    slow = setTimeout(() => show(running), SLOW_MS);
    client.run(owner, calls, { answer: take, done: () => show(null), failed: halt });
    if (calls.length === 0) show(null);
    if (calls.length !== 1) draw();
  }

  /** @param {any} one @param {number} index */
  function take(one, index) {
    answers[index] = one;
    progress.value = index + 1;
    draw();
  }

  /** @param {string} words */
  function halt(words) {
    asked = [];
    answer.classList.add("outdated");
    show(halted);
    setText(message, words);
  }

  /** @param {HTMLElement|null} shown */
  function show(shown) {
    clearTimeout(slow);
    running.hidden = shown !== running;
    halted.hidden = shown !== halted;
    setText(message, "");
  }

  stop.addEventListener("click", () => {
    client.cancel(owner);
    halt(`Stopped after ${progress.value} of ${progress.max}.`);
    again.focus();
  });
  again.addEventListener("click", () => ask(...latest));

  /**
   * Searches, unless it has for the same setup and options.
   * @param {Setup} setup @param {any[]} options  Compared one by one.
   */
  function ask(setup, options) {
    latest = [setup, options];
    const wanted = [setup, ...options];
    if (wanted.length === asked.length && wanted.every((part, index) => part === asked[index])) return;
    asked = wanted;
    answer.classList.add("outdated");
    start();
  }

  return {
    root,
    ask,
    /** Shows the same answers in another way. */
    draw,
    get isOpen() {
      return fold ? fold.open : !root.closest("[hidden]");
    },
    /** @param {() => void} act */
    whenOpened(act) {
      fold?.addEventListener("toggle", () => fold.open && act());
    },
    /** Greys the answer and stops working on it. */
    outdate() {
      const isDone = asked.length === 0 && running.hidden && halted.hidden;
      if (isDone) return;
      asked = [];
      client.cancel(owner);
      answer.classList.add("outdated");
      show(null);
    },
  };
}

/**
 * New content in the place of the old, with the focus left on the element of the same name.
 * @param {HTMLElement} place @param {Node[]} content
 */
function replaceKeepingPlace(place, content) {
  const focused = place.contains(document.activeElement) ? document.activeElement?.getAttribute("data-name") : null;
  const scrolled = place.querySelector(".scroll-box")?.scrollLeft ?? 0;
  place.replaceChildren(...content);
  const box = place.querySelector(".scroll-box");
  if (box) box.scrollLeft = scrolled;
  if (focused) /** @type {HTMLElement|null} */ (place.querySelector(`[data-name="${CSS.escape(focused)}"]`))?.focus();
}
