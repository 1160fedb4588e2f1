import { element, setText } from "../dom.js";

/** What was just done, or why not, with a way back where there is one. */
export function createStatus() {
  const words = element("p");
  const undo = element("button", { type: "button", className: "button", textContent: "Undo", hidden: true });
  const live = element("div", { role: "status", className: "setups-words" }, words);
  const root = element("div", { className: "setups-status", hidden: true }, live, undo);
  /** @type {(() => void)|undefined} */
  let back;
  undo.addEventListener("click", () => {
    const act = back;
    say("");
    act?.();
  });

  /** @param {string} text @param {() => void} [takeBack] */
  function say(text, takeBack) {
    back = takeBack;
    root.hidden = text === "";
    undo.hidden = !takeBack;
    setText(words, text);
  }

  return { element: root, say, focus: () => undo.focus() };
}
