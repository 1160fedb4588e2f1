import { element, emit, setText } from "../dom.js";
import { createFrame } from "./frame.js";

/** The two hands of a caliper as pictures: the one at hand, and its mirror image. @param {import("../types.js").Core} core */
export function createHand(core) {
  const root = element("div", { className: "measure-hands" });
  /** @type {any} */
  let mirrored = null;
  const cards = [true, false].map((isOwn) => {
    const frame = createFrame("measure-hand-picture");
    const words = element("span");
    const button = element("button", { type: "button", className: "measure-hand", "aria-pressed": String(isOwn) }, frame.element, words);
    button.addEventListener("click", () => {
      if (!isOwn && mirrored) emit(root, "changes", { changes: [{ path: "caliper", value: mirrored }], words: "The caliper is now of the other hand." });
    });
    root.append(button);
    return { isOwn, frame, words };
  });

  return {
    element: root,
    /** @param {import("../types.js").Setup} setup  One that has an answer. */
    show(setup) {
      const answer = core.measure(setup, "mirrored");
      if (!answer.ok) return;
      mirrored = answer.answer.setup.caliper;
      for (const { isOwn, frame, words } of cards) {
        const one = isOwn ? setup : answer.answer.setup;
        const side = one.caliper.line.exit[0] < 0 ? "left" : "right";
        frame.show(core, one, "caliper", "", `Outboard face, the line leaves on the ${side}`);
        setText(words, `${isOwn ? "As now" : "The other hand"}: line on the ${side}`);
      }
    },
  };
}
