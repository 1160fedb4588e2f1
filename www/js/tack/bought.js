import { element, emit, mark, setText } from "../dom.js";
import { numberInput, readInput } from "../form/inputs.js";
import { withUnit } from "../form/simple.js";
import { bringIn } from "../unit-switch.js";
import { lengthAsTyped, lengthText } from "../units.js";
import { marginWords, pairWords, arcWords, angleWords, scribed } from "../search/words.js";
import { VERDICT_WORDS } from "../verdicts.js";
import { figure, plusMinus } from "./figures.js";
import { createUndoLine } from "./number.js";
import { createQuestion, refill, section } from "./question.js";
import { partSwitch } from "./switch.js";
import { createVerdictBox } from "./verdict-box.js";

/**
 * A tab that is there already, bought or drilled: which rotors and clock angles its two holes serve.
 * @typedef {import("../types.js").Context} Context
 * @typedef {import("../types.js").Setup} Setup
 * @typedef {import("../../../wasm/src/build.js").FitTab} FitTab
 * @typedef {import("../../../wasm/src/build.js").TabHoles} TabHoles
 * @typedef {FitTab["rotors"][number]} Rotor
 */

/** What is typed here is no part of a setup. */
const OWN = "bought.";
/** @type {[path: string, label: string, isSigned: boolean][][]} */
const WAYS = [
  [["bought.hole_1", "Axle to hole 1", false], ["bought.hole_2", "Axle to hole 2", false], ["bought.spacing", "Hole to hole", false]],
  [
    ["bought.points.0.0", "Hole 1 behind the axle", true], ["bought.points.0.1", "Hole 1 above the axle", true],
    ["bought.points.1.0", "Hole 2 behind the axle", true], ["bought.points.1.1", "Hole 2 above the axle", true],
  ],
];
const WAY_WORDS = ["Distances", "Places"];
const HOWS = [
  "Centre to centre, in millimetres or inches. Distances leave open where round the axle the tab sits: for a tab that is yet to be welded or clamped on.",
  "Square to the leg backwards, and along the leg upwards, from the axle\u2019s centre: for a tab that is fixed to the leg. Ahead of and below the axle is negative.",
];
const MORE = "Type all of them to see what this tab serves.";
/** Decimals of what a tap puts into the setup: millimetres, degrees. */
const REACH_DECIMALS = 2;
const CLOCK_DECIMALS = 1;
/** Off by less than this is not worth words, mm or degrees. */
const NOTHING = 0.05;
/** The rotor's size, which a sentence of its own begins with; the heading says it. */
const OWN_SIZE = /^[\d.]+: /;
const SKEWED = "The setup knows no turned caliper: with a tap it stands square to the radius. Mock it up before you rely on the gaps.";

/** @param {Context} context @returns {import("./page.js").Section} */
export function createBought(context) {
  const choice = partSwitch("tack-bought", "What is known of its holes", WAY_WORDS, changed);
  const how = element("p");
  const groups = WAYS.map((inputs) => inputs.map(([path, label, isSigned]) => createNumber(path, label, isSigned)));
  const [place, wanted] = [element("div", { className: "tack-bought-numbers" }), element("p", { className: "remark" }, MORE)];
  const box = createVerdictBox({ isLive: true });
  const sentence = element("p");
  const skewed = element("p", { className: "tack-close", hidden: true }, SKEWED);
  const [facts, rotors] = [element("div"), element("div")];
  const undo = createUndoLine();
  const question = createQuestion(
    context,
    { call: () => ["fit_tab", context.goodSetup(), holes()], show },
    box.element,
    sentence,
    facts,
    skewed,
    section("Rotors", rotors),
  );
  const fill = element("button", { type: "button", className: "button" }, "Start from the setup\u2019s holes");
  const root = element("div", { className: "tack-bought" }, choice.element, how, place, fill, wanted, undo.element, question.element);
  /** What was typed, as it was asked for; a new object for each change. @type {TabHoles|null} */
  let asked = null;

  root.addEventListener("edit", (event) => {
    if (!/** @type {CustomEvent} */ (event).detail.path.startsWith(OWN)) return;
    event.stopPropagation();
    changed();
  });
  fill.addEventListener("click", () => {
    const answer = context.core.report(context.goodSetup());
    if (!answer.ok) return;
    const { holes: [one, other], hole_spacing: spacing } = answer.report;
    const values = [[one.distance, other.distance, spacing], [one.back, one.up, other.back, other.up]][choice.index];
    groups[choice.index].forEach((number, index) => number.show(scribed(values[index], REACH_DECIMALS)));
    changed();
  });
  document.addEventListener("unit", () => groups.flat().forEach((number) => number.renew()));

  /** @returns {TabHoles|null} */
  function holes() {
    const values = groups[choice.index].map(({ value }) => value());
    if (!values.every((value) => typeof value === "number")) return null;
    const [a, b, c, d] = values;
    return choice.index === 0 ? { hole_1: a, hole_2: b, spacing: c } : { points: [[a, b], [c, d]] };
  }

  function changed() {
    setText(how, HOWS[choice.index]);
    const shown = groups[choice.index].map((number) => number.element);
    if (place.firstElementChild !== shown[0]) bringIn(place, ...shown);
    asked = holes();
    wanted.hidden = asked !== null;
    groups[choice.index].forEach((number) => number.mark());
    if (asked) question.ask(context.goodSetup(), JSON.stringify(asked));
    else question.clear();
  }

  /** @param {FitTab} fit */
  function show(fit) {
    const serving = fit.rotors.filter(({ serves }) => serves);
    const isGood = fit.bolts_fit && fit.sideways && serving.length > 0;
    box.show(isGood ? "clears" : "hits", isGood
      ? `Serves ${serving.map(({ rotor_diameter: size }) => lengthText(size, 0)).join(", ")}`
      : fit.bolts_fit ? "Serves no usual rotor" : "The caliper does not go on");
    setText(sentence, fit.sentence);
    skewed.hidden = Math.abs(fit.skew) < NOTHING;
    refill(facts, factList(fit));
    const others = fit.rotors.filter(({ serves }) => !serves);
    const lists = [serving, others].map((list) => element("ul", { className: "tack-rotors" }, ...list.map((rotor) => card(rotor, fit))));
    const fold = element("details", { className: "group", "data-name": "others", open: serving.length === 0 }, element("summary", {}, `Rotors that it does not serve (${others.length})`), lists[1]);
    refill(rotors, ...(serving.length > 0 ? [lists[0]] : []), ...(others.length > 0 ? [fold] : []));
  }

  /** @param {Rotor} rotor @param {FitTab} fit */
  function card(rotor, fit) {
    const { rotor_diameter: size, serves, windows, here, sentence: words } = rotor;
    const uses = serves ? [
      ...(here && here.verdict !== "hits" && here.verdict !== "cannot_build" ? [useButton(rotor, here.clock, fit.clock === null ? "as the setup has it" : "where the tab is", here)] : []),
      ...(fit.clock === null ? windows.map((arc) => useButton(rotor, arc.best, arcWords(arc), arc)) : []),
    ] : [];
    const tone = serves ? "clears" : "hits";
    return element(
      "li",
      { className: "tack-rotor", "data-tone": tone },
      element("h4", {}, mark(tone), `Rotor ${lengthText(size, 0)}: ${serves ? "serves" : "does not serve"}`),
      element("p", { className: "tack-rotor-words" }, words.replace(OWN_SIZE, "")),
      ...(here ? [element("p", { className: "remark" }, `At ${angleWords(here.clock)}: ${VERDICT_WORDS[here.verdict].toLowerCase()}, ${marginWords(here.margin)}, ${pairWords(here.binding)}.`)] : []),
      ...uses,
    );
  }

  /** Makes it the setup. @param {Rotor} rotor @param {number} clock @param {string} where @param {{margin: number}} there */
  function useButton(rotor, clock, where, { margin }) {
    const size = lengthText(rotor.rotor_diameter, 0);
    const at = angleWords(clock);
    const button = element(
      "button",
      { type: "button", className: "button tack-use", "data-name": `use ${rotor.rotor_diameter} ${where}` },
      element("strong", {}, `Use rotor ${size} at ${at}`),
      element("span", {}, `${where}; ${marginWords(margin)}`),
    );
    button.addEventListener("click", () => {
      const words = `The setup is now this tab with rotor ${size} at ${at}.`;
      emit(root, "changes", {
        changes: [
          { path: "wheel.rotor_diameter", value: rotor.rotor_diameter },
          { path: "tab.reach", value: scribed(rotor.reach, REACH_DECIMALS) },
          { path: "tab.clock", value: scribed(clock, CLOCK_DECIMALS) },
        ],
        words,
      });
      undo.tell(words);
    });
    return button;
  }

  changed();
  return {
    element: root,
    update(model) {
      undo.update(model.setup);
      changed();
    },
    closed: question.stop,
  };
}

/** @param {string} path @param {string} label @param {boolean} isSigned */
function createNumber(path, label, isSigned) {
  const input = numberInput(path, { isSigned, unit: "mm" });
  input.id = `tack-${input.id}`;
  /** The length last read, to be shown in another unit. @type {number|string|null} */
  let known = null;
  const value = () => (input.value.trim() === "" ? null : readInput(input));
  input.addEventListener("input", () => { known = value(); });
  return {
    element: element("div", { className: "tack-number" }, element("label", { className: "field-label", htmlFor: input.id }, label), withUnit(input, "mm")),
    value,
    /** @param {number} wanted */
    show(wanted) {
      known = wanted;
      input.value = lengthAsTyped(wanted);
    },
    renew() {
      if (typeof known === "number") input.value = lengthAsTyped(known);
    },
    mark() {
      if (typeof value() === "string") input.setAttribute("aria-invalid", "true");
      else input.removeAttribute("aria-invalid");
    },
  };
}

/** @param {FitTab} fit */
function factList({ misfit, play, bolts_fit: fits, pad_radius: radius, skew, misalignment, sideways }) {
  const spread = Math.abs(misfit) < NOTHING ? "holes as far apart as the caliper\u2019s" : `holes ${figure(Math.abs(misfit))} too ${misfit < 0 ? "near" : "far apart"}`;
  /** @type {[string, string][]} */
  const lines = [
    ["Bolts", `${fits ? "go in" : "do not go in"}: ${spread}, play ${plusMinus(play, "mm")}`],
    ["Pads\u2019 middle from the axle", figure(radius)],
    ["Caliper turned against the radius", figure(skew, "°")],
    ["Slot from the rotor", `${figure(misalignment)}, ${sideways ? "within" : "beyond"} the caliper\u2019s adjustment`],
  ];
  return element("dl", { className: "tack-figures" }, ...lines.map(([words, text]) => element("div", {}, element("dt", {}, words), element("dd", {}, text))));
}
