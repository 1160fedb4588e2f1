import { loadGeometry, loadStart } from "./loading.js";
import { unitName } from "./units.js";

/** @typedef {import("./types.js").Core} Core */

/**
 * Loads and starts what the page itself asks the geometry core.
 * @returns {Promise<Core>}
 */
export async function loadCore() {
  const wasm = await loadStart();
  return {
    speakIn: wasm.speak_in,
    fields: wasm.fields,
    defaultSetup: wasm.default_setup,
    report: guarded(wasm.report),
    update: guarded(wasm.update),
    ring: guarded(wasm.ring),
  };
}

/**
 * Loads and starts the questions on measuring parts.
 * @returns {Promise<Pick<import("./types.js").MeasuringCore, "measure">>}
 */
export async function loadMeasuring() {
  const wasm = await loadGeometry();
  return {
    measure: guarded((setup, what, path = "", text = "", measured = null) => {
      wasm.speak_in(unitName());
      return wasm.measure(setup, what, path, text, measured);
    }),
  };
}

/**
 * The same question, with a fault of the core itself answered like a refused value. What the engine alone did wrong, as WebKit
 * now and then on a busy machine (a trap that the same values do not bring about again), it does right when asked once more.
 * @template {(...input: any[]) => any} Question
 * @param {Question} ask
 * @returns {Question}
 */
function guarded(ask) {
  const askOrTell = (/** @type {any[]} */ ...input) => {
    try {
      return ask(...input);
    } catch (error) {
      console.error(error);
      const message = "The geometry failed on these values. Take the last change back; if that does not help, "
        + "load the page again.";
      return { ok: false, errors: [{ field: "", value: "", message }] };
    }
  };
  const askGuarded = (/** @type {any[]} */ ...input) => {
    try {
      return ask(...input);
    } catch {
      return askOrTell(...input);
    }
  };
  return /** @type {Question} */ (askGuarded);
}
