import { adopt } from "./adopt.js";
import { unpacked } from "./steps.js";

/**
 * @typedef {import("./types.js").Core} Core
 * @typedef {import("./types.js").Setup} Setup
 */

const STORAGE_KEY = "tabwright-setup";
/** No more than this is lost when the browser falls over. */
const SAVE_DELAY_MS = 250;

/**
 * The setup to start with: the one kept from last time, else the defaults; and the steps that Undo and Redo go through.
 * `remark` says in a sentence what of the kept one could not be used.
 * @param {Core} core
 * @returns {{setup: Setup, goodSetup: Setup, past: Setup[], future: Setup[], remark: string}}
 */
export function startingState(core) {
  const defaults = core.defaultSetup();
  const afresh = { setup: defaults, goodSetup: defaults, past: [], future: [] };
  try {
    const text = localStorage.getItem(STORAGE_KEY);
    if (text === null) return { ...afresh, remark: "" };
    const kept = JSON.parse(text);
    const fields = core.fields().flatMap((group) => group.fields);
    const { setup, complete } = adopt(kept.setup, defaults, fields);
    const good = adopt(kept.goodSetup, defaults, fields);
    if (!core.report(good.setup).ok) throw new Error("no usable setup");
    return {
      setup,
      goodSetup: good.setup,
      past: unpacked(setup, kept.past, fields),
      future: unpacked(setup, kept.future, fields),
      remark: complete && good.complete
        ? ""
        : "Part of the setup kept from last time could not be read; example values stand in its place.",
    };
  } catch {
    return { ...afresh, remark: "The setup kept from last time could not be read. These are the example values." };
  }
}

/**
 * Keeps the state again and again while it changes, and at once when the page is left or out of sight.
 * @param {() => Record<string, any>} currentState
 * @param {(message: string) => void} complain  Told once when nothing can be kept.
 */
export function createKeeper(currentState, complain) {
  let timer = 0;
  let hasComplained = false;

  function save() {
    clearTimeout(timer);
    timer = 0;
    try {
      localStorage.setItem(STORAGE_KEY, JSON.stringify(currentState()));
    } catch {
      if (!hasComplained) complain("This browser does not let the page keep your setup: it will be gone after a reload.");
      hasComplained = true;
    }
  }

  addEventListener("pagehide", save);
  document.addEventListener("visibilitychange", () => document.hidden && save());
  return {
    update() {
      timer ||= setTimeout(save, SAVE_DELAY_MS);
    },
  };
}
