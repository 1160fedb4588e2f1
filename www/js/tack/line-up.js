import { element, emit, setText } from "../dom.js";
import { lengthText } from "../units.js";
import { classFolds } from "./classes.js";
import { createContributions } from "./contributions.js";
import { figure, plusMinus, shareText } from "./figures.js";
import { numberRow } from "./number.js";
import { createFigure } from "./picture.js";
import { createQuestion, refill, section } from "./question.js";
import { createVerdictBox } from "./verdict-box.js";

/**
 * Whether pads and rotor will meet: everything between the hub's face and the caliper's slot, against its adjustment.
 * @typedef {import("../types.js").Context} Context
 * @typedef {import("../../../wasm/src/build.js").Stack} Stack
 */

const TAB_OFFSET = "tolerance.tab_offset";
const RUNNING = "tack.running";
/** A tab is held to no finer step than this, mm. */
const TAB_STEP = 0.05;
/** @type {Record<string, string>} */
const SHAPES = { normal: "normal", uniform: "uniform", triangular: "triangular" };
const TEMPER = "Sizes and tolerances are yours to check: the stack is only as good as the ± typed here.";

/** @param {Context} context @returns {import("./page.js").Section} */
export function createLineUp(context) {
  const fields = context.core.fields().flatMap((group) => group.fields);
  const verdict = createVerdictBox({ isLive: true });
  const share = element("p", { className: "tack-share" });
  const bar = createFigure("tack-bar");
  const sentences = element("ul", { className: "tack-sentences" });
  const table = createContributions(fields);
  const held = element("p");
  const [hold, tilts, folds, workings] = [0, 1, 2, 3].map(() => element("div"));
  const tilt = element("p");
  const running = numberRow(fieldOf(fields, RUNNING));
  const question = createQuestion(
    context,
    { call: () => ["stack", context.goodSetup()], show },
    verdict.element,
    share,
    bar.element,
    sentences,
    section("What adds up", table.element, element("p", { className: "remark" }, TEMPER)),
    section("How true the tab must be", held, hold),
    section("A tilted tab", tilt, tilts, running.element),
    section("Usual classes of tolerance", folds),
    workings,
  );

  /** @param {{stack: Stack, svg: string}} answer */
  function show({ stack, svg }) {
    verdict.show(...verdictOf(stack));
    setText(share, `${shareText(stack.within)} of builds lie within the caliper\u2019s adjustment of ±${lengthText(stack.adjust)}.`);
    bar.show(svg, `Bar to scale: the caliper adjusts by ${plusMinus(stack.adjust, "mm")}, the slot lies ${figure(stack.misalignment)} from the rotor, `
      + `worst case ${plusMinus(stack.worst, "mm")}, root sum of squares ${plusMinus(stack.rss, "mm")}.`);
    const told = [stack.tab.sentence, stack.tilt.sentence];
    sentences.replaceChildren(...stack.sentences.filter((one) => !told.includes(one)).map((one) => element("li", {}, one)));
    table.answer(stack);
    setText(held, stack.tab.sentence);
    refill(hold, ...holdButton(stack, root));
    setText(tilt, stack.tilt.sentence);
    refill(tilts, tiltTable(stack.tilt));
    refill(folds, ...classFolds(stack.classes, root));
    refill(workings, shareFold(stack));
  }

  const root = element("div", { className: "tack-line-up" }, question.element);
  return {
    element: root,
    update(model) {
      table.update(model);
      running.update(model);
      question.ask(context.goodSetup());
    },
    closed: question.stop,
  };
}

/** @param {import("../types.js").Field[]} fields @param {string} key */
function fieldOf(fields, key) {
  const field = fields.find((one) => one.key === key);
  if (!field) throw new Error(`There is no field "${key}".`);
  return field;
}

/** @param {Stack} stack @returns {[tone: string, words: string]} */
function verdictOf({ always, misalignment, adjust, tab }) {
  if (Math.abs(misalignment) > adjust) return ["hits", "Does not line up even as drawn"];
  return tab.held || always ? ["clears", "Lines up"] : ["tight", "May not line up"];
}

/** Sets the tab's ± to what is needed. @param {Stack} stack @param {HTMLElement} root */
function holdButton({ tab }, root) {
  const most = tab.tolerance === null ? 0 : Math.floor(tab.tolerance / TAB_STEP + 1e-9) * TAB_STEP;
  const wanted = Number(most.toFixed(2));
  if (tab.held || wanted <= 0) return [];
  const button = element("button", { type: "button", className: "button", "data-name": "hold" }, `Hold the tab to ${plusMinus(wanted, "mm")}`);
  button.addEventListener("click", () => emit(root, "edit", { path: TAB_OFFSET, value: wanted }));
  return [button];
}

/** @param {Stack["tilt"]} tilt */
function tiltTable({ length, height }) {
  const rows = /** @type {[string, Stack["tilt"]["length"]][]} */ ([["Along the rotor\u2019s edge", length], ["Towards the axle", height]]);
  const head = ["Direction", "Taper", "Rubs from", "With runout"];
  return element("div", { className: "scroll-box", tabIndex: 0, role: "region", "aria-label": "Tilt" }, element(
    "table",
    { className: "table" },
    element("caption", { className: "hidden-text" }, "What the tab\u2019s tilt does to the pads"),
    element("thead", {}, element("tr", {}, ...head.map((text, index) => element("th", { scope: "col", className: index > 0 ? "number" : "" }, text)))),
    element("tbody", {}, ...rows.map(([words, way]) => element(
      "tr",
      {},
      element("th", { scope: "row" }, `${words}, pad ${lengthText(way.pad)}`),
      element("td", { className: "number" }, figure(way.taper)),
      element("td", { className: "number", "data-tone": way.rubs ? "hits" : "" }, figure(way.rub, "°")),
      element("td", { className: "number", "data-tone": way.drags ? "tight" : "" }, figure(way.clear, "°")),
    ))),
  ));
}

/** @param {Stack} stack */
function shareFold({ within, simulation, rss }) {
  const drawn = simulation.shapes.map((one) => element("li", {}, `${SHAPES[one.shape] ?? one.shape}: ${shareText(one.within)}`
    + ` (give or take ${(one.standard_error * 100).toFixed(2)} %)`));
  return element(
    "details",
    { className: "group", "data-name": "workings" },
    element("summary", {}, "How the share is worked out"),
    element("p", {}, `Each ± counts as three standard deviations of a normal distribution; together they are ${plusMinus(rss, "mm")}, `
      + `and ${shareText(within)} of that distribution lies within the adjustment. ${simulation.builds} builds drawn at random give, by the shape of each part\u2019s spread:`),
    element("ul", {}, ...drawn),
  );
}
