import { element, emit, setText } from "../dom.js";
import { valueAt } from "../path.js";
import { figure } from "./figures.js";
import { refill } from "./question.js";
import { createVerdictBox } from "./verdict-box.js";

/**
 * The one thing to do now, in large words.
 * @typedef {import("../../../wasm/src/build.js").Tacked} Tacked
 * @typedef {import("../../../wasm/src/build.js").Advice} Advice
 * @typedef {import("../../../wasm/src/build.js").Reading} Reading
 */

/** Of the verdicts' marks and colours. @type {Record<Advice["kind"], string>} */
export const TONES = {
  weld: "clears",
  shim: "tight",
  file: "tight",
  break: "hits",
  redesign: "cannot_build",
  measure_again: "cannot_build",
  measure_more: "unchecked",
};
/** A move of less than this is not worth a tack, mm or degrees. */
const NOTHING = 0.05;
const CLOSE = "A close call";

/** @param {{setup: () => import("../types.js").Setup}} context @param {{read: (key: Reading) => void, changed: (words: string) => void}} act */
export function createAdvice({ setup }, { read, changed }) {
  const box = createVerdictBox({ isLive: true });
  const text = element("p");
  const close = element("p", { className: "tack-close", hidden: true }, CLOSE);
  const more = element("div", { className: "tack-steps" });
  const rest = element("div", { className: "tack-advice-text" }, close, text, more);

  /** @param {Tacked} tacked @param {"before"|"after"} state */
  function steps(tacked, state) {
    const { advice, contradiction } = tacked;
    const swap = contradiction?.swap;
    // Of what is missing, the next one: the others are named above it, and Enter goes on to them.
    const wanted = tacked.missing.length > 0 ? [tacked.missing[0].key] : advice.readings;
    const surer = tacked.state === "solved" ? tacked.useful.map(({ key }) => key) : [];
    const why = new Map([...tacked.missing, ...tacked.useful].map((one) => [one.key, one]));
    const labels = new Map([...tacked.readings, ...tacked.missing, ...tacked.useful].map(({ key, label }) => [key, label]));
    const readList = (/** @type {Reading[]} */ keys) => element("ul", { className: "tack-wanted" }, ...keys.map((key) => {
      const verb = tacked.readings.some((one) => one.key === key) ? "Read again" : "Read";
      const button = element("button", { type: "button", className: "button", "data-name": `read ${key}` }, `${verb}: ${labels.get(key) ?? key}`);
      button.addEventListener("click", () => read(key));
      const reason = why.get(key)?.why;
      return element("li", {}, button, ...(reason ? [element("span", { className: "remark" }, reason)] : []));
    }));
    return [
      ...(contradiction && contradiction.message !== advice.text ? [element("p", {}, contradiction.message)] : []),
      ...(swap && !advice.text.includes(swap.message) ? [element("p", {}, swap.message)] : []),
      ...(swap ? [swapButton(swap.exchange, state, labels)] : []),
      ...(wanted.length > 0 ? [readList(wanted)] : []),
      ...figuresOf(advice),
      ...(surer.length > 0 ? [element(
        "details",
        { className: "group tack-surer", "data-name": "surer", open: advice.close },
        element("summary", {}, "What would make it surer"),
        readList(surer),
      )] : []),
    ];
  }

  /** @param {[Reading, Reading]} pair @param {"before"|"after"} state @param {Map<Reading, string>} labels */
  function swapButton([one, other], state, labels) {
    const words = `\u201c${labels.get(one) ?? one}\u201d and \u201c${labels.get(other) ?? other}\u201d`;
    const button = element("button", { type: "button", className: "button tack-swap", "data-name": "swap" }, `Change round ${words}`);
    button.addEventListener("click", () => {
      const [first, second] = [one, other].map((key) => `tack.${state}.${key}`);
      const changes = [{ path: first, value: valueAt(setup(), second) }, { path: second, value: valueAt(setup(), first) }];
      emit(more, "changes", { changes, words: `Changed round: ${words}.` });
      changed(`Changed round: ${words}.`);
    });
    return button;
  }

  return {
    /** Stays in sight; `rest` does not. */
    title: box.element,
    rest,
    /** @param {Tacked} tacked @param {"before"|"after"} state */
    show(tacked, state) {
      const { kind } = tacked.advice;
      box.show(TONES[kind], tacked.advice.title, kind === "measure_again" ? "unchecked" : TONES[kind]);
      setText(text, tacked.advice.text);
      close.hidden = !tacked.advice.close;
      refill(more, ...steps(tacked, state));
    },
  };
}

/** The numbers of an advice, one a line. @param {Advice} advice @returns {HTMLElement[]} */
export function figuresOf({ shim, file, move }) {
  /** @type {[string, string][]} */
  const lines = [];
  if (shim) {
    shim.pieces.forEach((pieces, hole) => lines.push([`Under hole ${hole + 1}`, pieces.length > 0 ? `${pieces.join(" + ")} mm` : "nothing"]));
    lines.push(["Then off sideways", figure(shim.misalignment)], ["Then tilted", figure(shim.tilt, "°")]);
  }
  if (file) lines.push([`Slot hole ${file.hole}`, `by ${figure(file.amount)} ${file.towards}`]);
  if (move) {
    lines.push(
      ["In or out", way(move.radial, "mm", "away from the axle", "towards the axle")],
      ["Round the axle", way(move.tangential, "mm", "towards greater clock angles", "towards smaller clock angles")],
      ["Sideways", way(move.out, "mm", "outboard", "inboard")],
      ["Tilt", way(move.tilt, "°", "hole 2 outboard", "hole 2 inboard")],
      ["Turn", way(move.turn, "°", "towards greater clock angles", "towards smaller clock angles")],
    );
  }
  if (lines.length === 0) return [];
  return [element("dl", { className: "tack-figures" }, ...lines.map(([words, value]) => element("div", {}, element("dt", {}, words), element("dd", {}, value))))];
}

/** @param {number} size @param {string} unit @param {string} more @param {string} less */
function way(size, unit, more, less) {
  return Math.abs(size) < NOTHING ? "as it is" : `${figure(Math.abs(size), unit)} ${size > 0 ? more : less}`;
}
