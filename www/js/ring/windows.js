import { byId, element, emit, setText } from "../dom.js";
import { angleWords, arcWords, arcsWords, marginWords, pairWords, scribed } from "../search/words.js";

/** The stretches of clock angles that clear, in words. */
export function createWindows() {
  const list = byId("window-list");
  const rules = byId("window-rules");

  return {
    /** @param {import("../types.js").RingAnswer} reply */
    update(reply) {
      if (!reply.ok) {
        list.replaceChildren(element("li", {}, reply.errors.map(({ message }) => message).join(" ")));
        setText(rules, "");
        return;
      }
      const { windows, line_up, wheel_out, buildable } = reply.answer.ring;
      const rows = windows.map(windowRow);
      list.replaceChildren(...(rows.length > 0 ? rows : [element("li", {}, "No clock angle clears.")]));
      const build = buildable ? "" : " Whatever the angle, this cannot be built: see the verdict.";
      setText(rules, `The line runs up the leg: ${arcsWords(line_up)}. The wheel drops out: ${arcsWords(wheel_out)}.${build}`);
    },
  };
}

/** @param {import("../types.js").RingWindow} row */
function windowRow({ from, width, best, margin, binding }) {
  const angle = scribed(best);
  const go = element("button", { type: "button", className: "button", "aria-label": `Go to best, ${angleWords(angle)}` }, "Go to best");
  go.addEventListener("click", () => emit(go, "changes", {
    changes: [{ path: "tab.clock", value: angle }],
    words: `Changed to clock angle ${angleWords(angle)}.`,
  }));
  const words = `best ${angleWords(angle)}: ${marginWords(margin)}, closest ${pairWords(binding)}`;
  return element("li", {}, element("p", {}, element("strong", {}, arcWords({ from, width })), `; ${words}`), go);
}
