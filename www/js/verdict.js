import { byId, setMark, setText } from "./dom.js";
import { remarkLink } from "./focus.js";
import { VERDICT_WORDS } from "./verdicts.js";

/** Quiet time before a screen reader is told, so that a moving slider does not flood it. */
const ANNOUNCE_AFTER_MS = 800;

/** The verdict line: mark, word and the sentence that names what binds. */
export function createVerdict() {
  const line = byId("verdict");
  const word = byId("verdict-word");
  const summary = byId("verdict-summary");
  const live = byId("verdict-live");
  const symbol = /** @type {Element} */ (line.querySelector(".mark"));
  let timer = 0;
  /** What a screen reader was told last. */
  let told = { word: "", summary: "" };

  /** Tells what is different from what was told last: nothing where all is back to it. */
  function tell() {
    const now = { word: word.textContent ?? "", summary: summary.textContent ?? "" };
    if (now.word === told.word && now.summary === told.summary) return;
    const change = told.word && now.word !== told.word ? `${now.word}, no longer ${told.word.toLowerCase()}.` : `${now.word}.`;
    // Most sentences begin with the verdict's word.
    const rest = now.summary.startsWith(`${now.word}: `) ? now.summary.slice(now.word.length + 2) : now.summary;
    setText(live, `${change} ${rest}`);
    told = now;
  }

  function announceLater() {
    clearTimeout(timer);
    timer = setTimeout(tell, ANNOUNCE_AFTER_MS);
  }

  return {
    /** @param {import("./types.js").Model} model */
    update({ problems, report }) {
      const isChecked = problems.length === 0;
      const tone = isChecked ? report.verdict : "unchecked";
      line.dataset.tone = tone;
      setMark(symbol, tone);
      setText(word, isChecked ? VERDICT_WORDS[report.verdict] : "Not checked");
      if (isChecked) setText(summary, report.summary);
      else summary.replaceChildren(remarkLink(problems[0]));
      announceLater();
    },
  };
}
