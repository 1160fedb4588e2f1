import { element, mark, setMark, setText } from "../dom.js";

/** What it comes to, in large words with a mark and a colour, and a sentence or two under it. @param {{isLive?: boolean}} [options]  Told by screen readers when it changes. */
export function createVerdictBox({ isLive = false } = {}) {
  const sign = mark("unchecked");
  const words = element("strong");
  const title = element("p", { className: "tack-title" }, sign, words);
  if (isLive) title.setAttribute("role", "status");
  const root = element("div", { className: "tack-advice" }, title);
  return {
    element: root,
    /** @param {string} tone  Of a verdict, or "unchecked". @param {string} text @param {string} [shape]  Of the mark. */
    show(tone, text, shape = tone) {
      root.dataset.tone = tone;
      setMark(sign, shape);
      setText(words, text);
    },
  };
}
