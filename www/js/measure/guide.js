import { element, setText } from "../dom.js";
import { goToField } from "../focus.js";
import { exact } from "../numbers.js";
import { valueAt } from "../path.js";
import { bringIn } from "../unit-switch.js";
import { lengthText } from "../units.js";
import { createMeasuredCaliper, MEASURED } from "./caliper.js";
import { createFrame } from "./frame.js";
import { createHand } from "./hand.js";
import { createLine } from "./line.js";
import { createEntry } from "./number.js";
import { sensitivityWords } from "./sensitivity.js";

/**
 * The guide through one part: one measurement at a time, its picture on top.
 * @typedef {import("../types.js").Context} Context
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").Model} Model
 */

const DETAILED = "This caliper is drawn in more detail than these numbers tell. A change to its body here replaces all its pieces "
  + "by three plain ones that hold the whole of it; Undo takes that back.";
/** @type {Record<string, string>} */
const OWN_TITLES = { hand: "Left or right hand", line: "Where the line leaves" };

/** @param {Context} context @param {typeof import("./steps.js").PARTS[number]} part @param {Field[]} fields */
export function createGuide(context, part, fields) {
  const { core, goodSetup } = context;
  const root = element("section", { className: "guide", "aria-label": part.name });
  const caliper = part.kind === "caliper" ? createMeasuredCaliper(context, root) : null;
  caliper?.refresh();

  const total = part.steps.length;
  const count = element("p", { className: "remark" });
  const heading = element("h3");
  const frame = createFrame();
  const place = element("div");
  const how = element("p");
  const wrong = element("ul", { className: "measure-wrong" });
  const detailed = element("p", { className: "remark" }, DETAILED);
  const outlines = element("button", { type: "button", className: "link" }, "All measurements: every piece by its corners");
  const back = element("button", { type: "button", className: "button" }, "Back");
  const next = element("button", { type: "button", className: "button" }, "Next");
  const list = element("ol", { className: "measure-list" });
  
  root.append(
    frame.element,
    element("div", { className: "measure-head" }, element("div", { className: "measure-title", "aria-live": "polite" }, count, heading), place),
    how,
    wrong,
    detailed,
    outlines,
    element("div", { className: "measure-steps" }, back, next),
    element("details", { className: "group" }, element("summary", {}, `All ${total} measurements`), list),
  );

  /** What stands for a step, made when first shown. @type {Map<string, {element: HTMLElement, update: (model: Model) => void}>} */
  const made = new Map();
  let index = 0;
  /** @type {Model|undefined} */
  let latest;

  const links = part.steps.map(([path], at) => {
    const value = element("span", { className: "measure-value" });
    const link = element("button", { type: "button", className: "link" }, titleOf(path), " ", value);
    link.addEventListener("click", () => go(at));
    list.append(element("li", {}, link));
    return { path, link, value };
  });

  /** @param {string} path @returns {Field|undefined} */
  function fieldOf(path) {
    return (path.startsWith(MEASURED) ? caliper?.fields : fields)?.find(({ key }) => key === path);
  }

  /** @param {string} path */
  function titleOf(path) {
    return OWN_TITLES[path] ?? fieldOf(path)?.label ?? path;
  }

  /** @param {string} path @param {Model} model */
  function valueOf(path, model) {
    return path.startsWith(MEASURED) ? caliper?.valueOf(path) : valueAt(model.setup, path);
  }

  /** @param {string} path @param {any} value */
  function valueText(path, value) {
    const field = fieldOf(path);
    if (!field) return "";
    if (field.kind === "choice") return field.choices.find((choice) => choice.value === value)?.label ?? "";
    if (field.kind === "flag") return value ? "yes" : "no";
    if (typeof value !== "number") return String(value);
    return field.unit === "mm" ? lengthText(value) : `${exact(value)}${field.unit}`;
  }

  /** @param {string} path */
  function make(path) {
    if (path === "hand") {
      const hand = createHand(core);
      return { element: hand.element, update: () => hand.show(goodSetup()) };
    }
    if (path === "line") {
      const line = createLine(core);
      return { element: line.element, update: (/** @type {Model} */ model) => line.show(model.setup, goodSetup()) };
    }
    const field = fieldOf(path);
    if (!field) throw new Error(`There is no field "${path}".`);
    const isMeasured = path.startsWith(MEASURED);
    const entry = createEntry(field, isMeasured ? caliper?.valueOf : undefined);
    return {
      element: entry.element,
      update(/** @type {Model} */ model) {
        const { problems, doubts } = isMeasured && caliper ? caliper.remarks(path) : { problems: [], doubts: [] };
        entry.update(model, problems, doubts);
      },
    };
  }

  function show() {
    if (!latest) return;
    const [path, words] = part.steps[index];
    let step = made.get(path);
    if (!step) made.set(path, step = make(path));
    if (place.firstElementChild !== step.element) bringIn(place, step.element);
    step.update(latest);

    const field = fieldOf(path);
    setText(count, `${index + 1} of ${total}`);
    setText(heading, titleOf(path));
    setText(how, words);
    const good = goodSetup();
    // The picture is of the last good setup: of a number refused it says nothing.
    const isRefused = path.startsWith(MEASURED) && caliper !== null && caliper.remarks(path).problems.length > 0;
    const value = path.startsWith(MEASURED) ? caliper?.valueOf(path) : valueAt(good, path);
    const text = isRefused ? "" : valueText(path, value);
    if (field?.kind === "number") frame.show(core, good, path, text, `${field.label}: where to measure. In the setup: ${text}.`);
    else frame.element.hidden = true;
    showSensitivity(field);
    const isBody = part.kind === "caliper" && path.startsWith(MEASURED) && !path.startsWith(`${MEASURED}hole_`);
    detailed.hidden = !(isBody && caliper?.isDetailed);
    outlines.hidden = !isBody;
    back.disabled = index === 0;
    setText(next, index === total - 1 ? "Start over" : "Next");
    for (const [at, link] of links.entries()) {
      setText(link.value, valueText(link.path, valueOf(link.path, latest)));
      if (at === index) link.link.setAttribute("aria-current", "step");
      else link.link.removeAttribute("aria-current");
    }
  }

  /** @param {Field|undefined} field */
  function showSensitivity(field) {
    const answer = field?.kind === "number" && core.measure(goodSetup(), "sensitivity", field.key);
    const sentences = answer && answer.ok && latest ? sensitivityWords(answer.answer, field.unit, latest.report.pairs) : [];
    wrong.hidden = sentences.length === 0;
    while (wrong.children.length > sentences.length) wrong.lastElementChild?.remove();
    sentences.forEach((sentence, at) => setText(wrong.children[at] ?? wrong.appendChild(element("li")), sentence));
  }

  /** @param {number} to */
  function go(to) {
    index = to;
    show();
    root.scrollIntoView({ block: "nearest" });
    root.closest(".panel-body")?.scrollTo({ top: 0 });
  }

  back.addEventListener("click", () => go(index - 1));
  next.addEventListener("click", () => go((index + 1) % total));
  outlines.addEventListener("click", () => {
    /** @type {HTMLDialogElement|null} */ (root.closest("dialog"))?.close();
    goToField("caliper.bodies");
  });
  root.addEventListener("keydown", (event) => {
    const { target } = event;
    if (event.key !== "Enter" || !(target instanceof HTMLInputElement) || target.type !== "text" || index === total - 1) return;
    event.preventDefault();
    go(index + 1);
    place.querySelector("input")?.focus();
  });
  root.addEventListener("edit", (event) => {
    const { path, value } = /** @type {CustomEvent} */ (event).detail;
    if (event.target === root || !caliper?.takes(path)) return;
    event.stopPropagation();
    caliper.set(path, value);
    show();
  });

  return {
    element: root,
    /** @param {Model} model */
    update(model) {
      latest = model;
      caliper?.refresh();
      show();
    },
  };
}
