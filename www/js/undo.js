import { byId, element, setText } from "./dom.js";
import { History } from "./history.js";
import { withValueAt } from "./path.js";

/**
 * @typedef {import("./types.js").Edit} Edit
 * @typedef {import("./types.js").Setup} Setup
 */

/**
 * Undo and Redo: the buttons, the keys, and the note after a change made in one go. Listens to "edit" events, to
 * "changes" events with `{changes: Edit[], words: string}`, which are one step together, and to "setup" events with
 * `{setup: Setup, words: string}`, which put a whole setup in the place of the one at hand.
 * @param {import("./history.js").Holder} holder @param {{past: Setup[], future: Setup[]}} steps  From before.
 */
export function startUndo(holder, steps) {
  const undo = /** @type {HTMLButtonElement} */ (byId("undo"));
  const redo = /** @type {HTMLButtonElement} */ (byId("redo"));
  const note = byId("changed");
  const words = element("p");
  const back = element("button", { type: "button", className: "button", textContent: "Undo" });
  const close = element("button", { type: "button", className: "button", textContent: "Close" });
  note.append(words, back, close);

  const history = new History(holder, () => {
    showSteps();
    tell("");
  }, steps);
  showSteps();

  function showSteps() {
    undo.disabled = !history.canUndo;
    redo.disabled = !history.canRedo;
  }

  /** @param {string} text */
  function tell(text) {
    setText(words, text);
    note.classList.toggle("shown", text !== "");
  }

  document.addEventListener("edit", (event) => history.edit(/** @type {CustomEvent} */ (event).detail));
  document.addEventListener("changes", (event) => {
    /** @type {{changes: Edit[], words: string}} */
    const { changes, words } = /** @type {CustomEvent} */ (event).detail;
    history.replace(changes.reduce((setup, { path, value }) => withValueAt(setup, path, value), holder.state.setup));
    tell(words);
  });
  document.addEventListener("setup", (event) => {
    const { setup, words } = /** @type {CustomEvent} */ (event).detail;
    history.replace(setup);
    tell(words);
  });
  addEventListener("pointerdown", () => history.hold(), true);
  for (const type of ["pointerup", "pointercancel"]) addEventListener(type, () => history.letGo(), true);

  undo.addEventListener("click", () => history.undo());
  redo.addEventListener("click", () => history.redo());
  back.addEventListener("click", () => history.undo());
  close.addEventListener("click", () => tell(""));
  document.addEventListener("keydown", (event) => {
    const step = stepOf(event);
    if (!step || isTyping(event.target)) return;
    event.preventDefault();
    history[step]();
  });
  return history;
}

/** @param {KeyboardEvent} event @returns {"undo"|"redo"|undefined} */
function stepOf({ key, ctrlKey, metaKey, shiftKey, altKey }) {
  if (!(ctrlKey || metaKey) || altKey) return undefined;
  const letter = key.toLowerCase();
  if (letter === "z") return shiftKey ? "redo" : "undo";
  return letter === "y" && !shiftKey ? "redo" : undefined;
}

/** In a text field the browser takes back what was typed there. @param {EventTarget|null} target */
function isTyping(target) {
  return target instanceof HTMLInputElement && target.type === "text";
}
