import { valueAt } from "./path.js";

/**
 * @typedef {import("./types.js").Setup} Setup
 * @typedef {import("./types.js").Edit} Edit
 * @typedef {{edit: (edit: Edit) => void, replace: (setup: Setup) => void, state: {setup: Setup}}} Holder
 */

/** Edits of one value that follow each other within this are one step. */
const ONE_STEP_MS = 1000;
const MOST_STEPS = 200;

/** Takes every change of the setup on its way to the controller, and remembers how to take it back. */
export class History {
  #holder;
  #changed;
  #past;
  #future;
  #lastPath = "";
  #lastTime = 0;
  #heldSince = Infinity;

  /**
   * @param {Holder} holder @param {() => void} changed  Told after each step.
   * @param {{past: Setup[], future: Setup[]}} steps  From before, the nearest last.
   */
  constructor(holder, changed, { past, future }) {
    this.#holder = holder;
    this.#changed = changed;
    this.#past = [...past];
    this.#future = [...future];
  }

  get steps() {
    return { past: this.#past, future: this.#future };
  }

  get canUndo() {
    return this.#past.length > 0;
  }

  get canRedo() {
    return this.#future.length > 0;
  }

  /** From here until `letGo` all edits of one value are one step: a finger is down. */
  hold() {
    this.#heldSince = performance.now();
  }

  letGo() {
    // A tap that changes nothing while the finger is down does not tie its change to one long ago.
    if (this.#lastTime >= this.#heldSince) this.#lastTime = performance.now();
    this.#heldSince = Infinity;
  }

  /** @param {Edit} edit */
  edit(edit) {
    const { setup } = this.#holder.state;
    if (Object.is(valueAt(setup, edit.path), edit.value)) return;
    const now = performance.now();
    const isSoon = now - this.#lastTime < ONE_STEP_MS || this.#lastTime >= this.#heldSince;
    const follows = edit.path === this.#lastPath && isSoon;
    this.#lastPath = edit.path;
    this.#lastTime = now;
    if (!follows) this.#remember(setup);
    this.#holder.edit(edit);
    if (!follows) this.#changed();
  }

  /** One step, whatever is different. @param {Setup} setup */
  replace(setup) {
    this.#lastPath = "";
    this.#remember(this.#holder.state.setup);
    this.#holder.replace(setup);
    this.#changed();
  }

  undo() {
    this.#step(this.#past, this.#future);
  }

  redo() {
    this.#step(this.#future, this.#past);
  }

  /** @param {Setup} setup */
  #remember(setup) {
    this.#past.push(setup);
    if (this.#past.length > MOST_STEPS) this.#past.shift();
    this.#future = [];
  }

  /** @param {Setup[]} from @param {Setup[]} to */
  #step(from, to) {
    const setup = from.pop();
    if (setup === undefined) return;
    this.#lastPath = "";
    to.push(this.#holder.state.setup);
    this.#holder.replace(setup);
    this.#changed();
  }
}
