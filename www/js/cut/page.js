import { element, setText } from "../dom.js";
import { createWriter } from "../link/write.js";
import { unitName } from "../units.js";
import { createChoices } from "./choices.js";
import { createPieces } from "./drawing.js";
import { FILE_KINDS, createFiles } from "./files.js";
import { keepOptions, keptOptions } from "./options.js";
import { createSaid } from "./said.js";
import { dimensionTable, holeTable, narrowPlaces, pieceFacts, postFacts } from "./tables.js";
import { PAPERS, createTemplate } from "./template.js";
import { createWeld } from "./weld.js";
import { massText } from "./words.js";

/**
 * @typedef {import("../types.js").Context} Context
 * @typedef {import("../types.js").Model} Model
 * @typedef {import("../types.js").Panel} Panel
 * @typedef {import("../types.js").Problem} Problem
 * @typedef {import("../types.js").Remark} Remark
 * @typedef {import("./shapes.js").Sheet} Sheet
 */

export const name = "Cut";

const CAUTION = "Wrong brake work can injure or kill. Geometry and estimates only, no approval: measure the real parts, and have brake welds done or checked by a qualified welder. Local rules and the makers\u2019 instructions come first.";
const WORKING = "Working out the sheet\u2026";
const SHEET = 0;
const TEMPLATE = 1;
/** The first file among the calls. */
const FILES = 2;

/** The part from numbers to steel: pieces, holes, files, template, and how it is welded. @param {Context} context @returns {Panel} */
export function createPage(context) {
  const { core, client } = context;
  const writer = createWriter(core);
  const owner = {};
  const options = keptOptions();
  /** @type {Model|undefined} */
  let latest;
  /** What the sheet on show, or the one under way, is for. @type {any[]} */
  let asked = [];
  /** @type {Problem[]} */
  let refusals = [];
  /** @type {Problem[]} */
  let fileProblems = [];
  /** @type {Remark[]} */
  let warnings = [];
  let link = "";

  const choices = createChoices(core.fields().flatMap((group) => group.fields));
  const files = createFiles((kerf) => {
    options.kerf = kerf;
    ask();
  });
  const said = createSaid((path) => files.inputFor(path) ?? choices.inputFor(path));
  const pieces = createPieces();
  const template = createTemplate();
  const weld = createWeld();
  const status = element("p", { className: "cut-status", role: "status" });
  const again = element("button", { type: "button", className: "button", hidden: true }, "Try again");
  again.addEventListener("click", () => {
    asked = [];
    ask();
  });
  const total = element("p", { className: "cut-total" });
  const holes = element("div");
  const posts = section("Posts");
  posts.hidden = true;
  const checks = element("div");
  const narrow = element("div");
  const otherSide = element("input", { type: "checkbox", className: "flag-input", id: "cut-other-side", checked: options.other_side, autocomplete: "off" });
  otherSide.addEventListener("change", () => change({ other_side: otherSide.checked }));

  const sections = [
    section("Pieces", total, pieces.element,
      element("label", { className: "cut-tick" }, otherSide, "With the other leg\u2019s dropout, which has no tab")),
    section("On paper, 1:1", paperChoice(options.paper, (paper) => change({ paper })), ...template.nodes),
    section("Files for the shop", files.element),
    section("Holes", holes),
    posts,
    section("Checks while tacking", checks),
    section("Enough left", narrow),
    section("Welding", ...weld.nodes),
  ];
  const ways = jumps(sections);
  const answer = element("div", { className: "cut-answer", hidden: true }, ways.element, ...sections);
  const root = element("div", { className: "cut" },
    said.element, element("p", { className: "cut-caution" }, CAUTION), choices.element, status, again, answer);

  /** @param {Partial<import("./options.js").Options>} changed */
  function change(changed) {
    Object.assign(options, changed);
    keepOptions(options);
    ask();
  }

  function ask() {
    if (!latest) return;
    const setup = context.goodSetup();
    const { kerf, paper, other_side } = options;
    const isStale = latest.problems.length > 0;
    const wanted = [setup, unitName(), kerf, paper, other_side, isStale];
    if (wanted.every((part, index) => part === asked[index])) return;
    asked = wanted;
    link = writer.links(setup, location.origin + location.pathname).shortest;
    const date = new Date().toLocaleDateString(undefined, { year: "numeric", month: "long", day: "numeric" });
    const onPaper = { other_side, date, link };
    answer.classList.add("outdated");
    setText(status, WORKING);
    again.hidden = true;
    files.clear();
    template.clear();
    fileProblems = [];
    /** @type {import("../search/client.js").Call[]} */
    const calls = [["cut_sheet", setup, { other_side }]];
    // What must not be cut can be looked at, not taken along.
    if (!isStale) {
      calls.push(["cut_template", setup, { ...onPaper, paper }]);
      for (const kind of FILE_KINDS) calls.push(["cut_file", setup, kind, kind === "template_svg" ? onPaper : { other_side, kerf }]);
    }
    client.run(owner, calls, { answer: take, done, failed });
  }

  /** @type {any} */
  let pages = null;

  /** @param {any} reply @param {number} index */
  function take(reply, index) {
    if (index === SHEET) {
      refusals = reply.ok ? [] : reply.errors;
      pages = null;
      answer.hidden = !reply.ok;
      if (reply.ok) showSheet(reply.answer);
      tell();
      return;
    }
    if (index === TEMPLATE) {
      pages = reply.ok ? reply.answer : null;
      return;
    }
    const kind = FILE_KINDS[index - FILES];
    if (reply.ok) files.show(kind, reply.answer);
    else fileProblems = reply.errors;
    if (reply.ok && kind === "template_svg" && pages) template.show(pages, link, reply.answer.name);
  }

  function done() {
    answer.classList.remove("outdated");
    setText(status, "");
    tell();
  }

  /** @param {string} message */
  function failed(message) {
    asked = [];
    setText(status, message);
    again.hidden = false;
  }

  /** @param {Sheet} sheet */
  function showSheet(sheet) {
    warnings = sheet.warnings;
    setText(total, `${sheet.build_sentence} ${sheet.metal.label[0].toUpperCase()}${sheet.metal.label.slice(1)}, ${massText(sheet.mass)} in all.`);
    pieces.show(sheet.pieces, pieceFacts);
    holes.replaceChildren(...holeTable(sheet));
    posts.hidden = !sheet.posts;
    posts.replaceChildren(/** @type {Node} */ (posts.firstChild), ...postFacts(sheet));
    checks.replaceChildren(dimensionTable(sheet.checks));
    narrow.replaceChildren(...narrowPlaces(sheet));
    weld.show(sheet);
    ways.update();
  }

  /** Says all that is known to be wrong or unusual, here and beside the fields. */
  function tell() {
    if (!latest) return;
    const shown = refusals.length > 0 ? [] : warnings;
    said.update(latest, refusals);
    said.warn(shown);
    choices.update(latest, refusals, shown);
    files.tell(options.kerf, fileProblems);
  }

  return {
    element: root,
    update(model) {
      latest = model;
      tell();
      ask();
    },
    closed() {
      template.close();
    },
  };
}

/** @param {"a4"|"letter"} paper @param {(paper: "a4"|"letter") => void} changed */
function paperChoice(paper, changed) {
  const labels = Object.entries(PAPERS).map(([value, label]) => element("label", {},
    element("input", { type: "radio", name: "cut-paper", value, checked: value === paper, autocomplete: "off" }), element("span", {}, label)));
  const set = element("fieldset", { className: "switch" }, element("legend", { className: "hidden-text" }, "Paper"), ...labels);
  set.addEventListener("change", (event) => changed(/** @type {any} */ (event.target).value));
  return set;
}

/** Ways to the parts of a long page. @param {HTMLElement[]} sections */
function jumps(sections) {
  const links = sections.map((part) => {
    const heading = /** @type {HTMLElement} */ (part.firstChild);
    const link = element("button", { type: "button", className: "link" }, heading.textContent ?? "");
    link.addEventListener("click", () => {
      heading.tabIndex = -1;
      heading.focus({ preventScroll: true });
      heading.scrollIntoView({ block: "start" });
    });
    return link;
  });
  return {
    element: element("nav", { className: "cut-jumps", "aria-label": "Parts of the cut sheet" }, ...links),
    update() {
      for (const [index, link] of links.entries()) link.hidden = sections[index].hidden;
    },
  };
}

/** @param {string} heading @param {...Node} children */
function section(heading, ...children) {
  return element("section", {}, element("h3", {}, heading), ...children);
}
