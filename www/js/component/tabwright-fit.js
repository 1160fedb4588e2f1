import styles from "tabwright:styles";
import { loadCore } from "../core.js";
import { element, emit, setText } from "../dom.js";
import { createPicture } from "../picture.js";
import { VERDICT_WORDS } from "../verdicts.js";

/**
 * @typedef {import("../types.js").Core} Core
 * @typedef {import("../types.js").Problem} Problem
 * @typedef {import("../types.js").Report} Report
 * @typedef {import("../types.js").Setup} Setup
 */

const CAUTION = "Geometry and estimates only, no approval: measure, mock up and proof-test the real parts.";
const NO_SETUP = "No setup is given: set the attribute \u201csetup\u201d to JSON text or the property to an object.";
const NOT_LOADED = "The geometry could not be loaded. Look whether its files lie beside tabwright-fit.js and whether the "
  + "page's policy allows them.";

/** @type {CSSStyleSheet|undefined} */
let sheet;
/** @type {Promise<Core>|undefined} */
let core;

/** The geometry core, loaded once for all elements; a failed load is tried anew at the next call. */
export function geometry() {
  core ??= loadCore().catch((error) => {
    core = undefined;
    throw error;
  });
  return core;
}

/** Draws a setup; see tabwright-fit.d.ts. */
export class TabwrightFit extends HTMLElement {
  static observedAttributes = ["setup", "view"];

  /** What was set last, by attribute or property. @type {{text: string}|{setup: Setup|null}} */
  #given = { setup: null };
  /** @type {Report|null} */
  #report = null;
  /** @type {Problem[]} */
  #problems = [];
  #isWaiting = false;
  #picture;
  #verdict = element("strong");
  #summary = element("span");
  #caption = element("figcaption", {}, this.#verdict, " ", this.#summary, element("small", {}, CAUTION));
  #figure = element("figure", { className: "picture", hidden: true }, element("div", { className: "picture-frame" }), this.#caption);
  #list = element("ul", { className: "problems", hidden: true });

  constructor() {
    super();
    const root = this.attachShadow({ mode: "open" });
    if (!sheet) {
      sheet = new CSSStyleSheet();
      sheet.replaceSync(styles);
    }
    root.adoptedStyleSheets = [sheet];
    this.#list.setAttribute("role", "alert");
    this.#caption.setAttribute("part", "caption");
    this.#list.setAttribute("part", "problems");
    root.append(this.#figure, this.#list);
    this.#picture = createPicture(this.#figure);
  }

  connectedCallback() {
    // Properties set before the element was defined hide its own.
    for (const name of ["setup", "view"]) {
      if (!Object.hasOwn(this, name)) continue;
      const value = /** @type {any} */ (this)[name];
      delete (/** @type {any} */ (this)[name]);
      /** @type {any} */ (this)[name] = value;
    }
    this.#drawSoon();
  }

  /** @param {string} name @param {string|null} _before @param {string|null} value */
  attributeChangedCallback(name, _before, value) {
    if (name === "setup") this.#given = value === null ? { setup: null } : { text: value };
    this.#drawSoon();
  }

  get setup() {
    if ("setup" in this.#given) return this.#given.setup;
    try {
      return JSON.parse(this.#given.text);
    } catch {
      return null;
    }
  }

  set setup(setup) {
    this.#given = { setup };
    this.#drawSoon();
  }

  get view() {
    return this.getAttribute("view") ?? "side";
  }

  set view(view) {
    this.setAttribute("view", view);
  }

  get report() {
    return this.#report;
  }

  get problems() {
    return this.#problems;
  }

  /** Once for all changes made in one go. */
  async #drawSoon() {
    if (this.#isWaiting || !this.isConnected) return;
    this.#isWaiting = true;
    try {
      const { update } = await geometry();
      this.#isWaiting = false;
      this.#draw(update);
    } catch (error) {
      this.#isWaiting = false;
      console.error(error);
      this.#refuse([{ field: "", value: "", message: NOT_LOADED }]);
    }
  }

  /** @param {Core["update"]} update */
  #draw(update) {
    const view = /** @type {import("../types.js").View} */ (this.view);
    let setup = null;
    try {
      setup = "text" in this.#given ? JSON.parse(this.#given.text) : this.#given.setup;
    } catch (error) {
      return this.#refuse([{ field: "", value: "", message: `The attribute \u201csetup\u201d is not JSON: ${error}` }]);
    }
    if (setup == null) return this.#refuse([{ field: "", value: "", message: NO_SETUP }]);
    const answer = update(setup, [view]);
    if (!answer.ok) return this.#refuse(answer.errors);

    const { report } = answer;
    this.#report = report;
    this.#problems = [];
    this.#list.hidden = true;
    this.#figure.hidden = false;
    this.#picture.show(answer.drawings[view] ?? "");
    this.#figure.dataset.tone = report.verdict;
    setText(this.#verdict, `${VERDICT_WORDS[report.verdict]}.`);
    setText(this.#summary, report.summary);
    emit(this, "report", report);
  }

  /** @param {Problem[]} problems */
  #refuse(problems) {
    this.#report = null;
    this.#problems = problems;
    this.#figure.hidden = true;
    this.#list.hidden = false;
    this.#list.replaceChildren(...problems.map(({ message }) => element("li", {}, message)));
    emit(this, "problems", problems);
  }
}

customElements.define("tabwright-fit", TabwrightFit);
