import { withValueAt } from "./path.js";

/**
 * @typedef {import("./types.js").Core} Core
 * @typedef {import("./types.js").Setup} Setup
 * @typedef {import("./types.js").View} View
 * @typedef {import("./types.js").Edit} Edit
 * @typedef {import("./types.js").Model} Model
 * @typedef {import("./types.js").Part} Part
 */

/**
 * Holds the setup, asks the core about it and hands the answer to every part, at most once per painted frame.
 * A setup the core refuses is kept as typed; report and drawings then stay those of the last good one.
 */
export class Controller {
  #core;
  #parts;
  #setup;
  #goodSetup;
  #report;
  /** @type {Model["drawings"]} */
  #drawings = {};
  /** @type {View[]} */
  #views = [];
  #frame = 0;

  /**
   * @param {Core} core
   * @param {Part[]} parts
   * @param {{setup: Setup, goodSetup: Setup}} start  `goodSetup` must be one the core accepts.
   */
  constructor(core, parts, start) {
    const answer = core.report(start.goodSetup);
    if (!answer.ok) throw new Error(answer.errors.map((problem) => problem.message).join(" "));
    this.#core = core;
    this.#parts = parts;
    this.#setup = start.setup;
    this.#goodSetup = start.goodSetup;
    this.#report = answer.report;
  }

  /** The state worth keeping: what is typed, and the last setup that had an answer. */
  get state() {
    return { setup: this.#setup, goodSetup: this.#goodSetup };
  }

  /** @param {Edit} edit */
  edit({ path, value }) {
    this.replace(withValueAt(this.#setup, path, value));
  }

  /** @param {Setup} setup */
  replace(setup) {
    this.#setup = setup;
    this.#schedule();
  }

  /** The same values once more, for parts that only look at what has changed: all is to be said in another way. */
  renew() {
    const isGood = this.#setup === this.#goodSetup;
    this.#setup = structuredClone(this.#setup);
    this.#goodSetup = isGood ? this.#setup : structuredClone(this.#goodSetup);
    this.#schedule();
  }

  /** @param {View[]} views */
  show(views) {
    this.#views = views;
    this.#schedule();
  }

  #schedule() {
    if (this.#frame) return;
    this.#frame = requestAnimationFrame(() => {
      this.#frame = 0;
      this.#refresh();
    });
  }

  #refresh() {
    const answer = this.#core.update(this.#setup, this.#views);
    if (answer.ok) this.#goodSetup = this.#setup;
    // The views may have changed since the last good answer.
    const shown = answer.ok ? answer : this.#core.update(this.#goodSetup, this.#views);
    if (shown.ok) {
      this.#report = shown.report;
      this.#drawings = shown.drawings;
    }
    /** @type {Model} */
    const model = {
      setup: this.#setup,
      problems: answer.ok ? [] : answer.errors,
      report: this.#report,
      drawings: this.#drawings,
    };
    for (const part of this.#parts) part.update(model);
  }
}
