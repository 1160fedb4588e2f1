/**
 * What a link leaves out stands at the default it had when the link was made. So defaults are part of a link's version:
 * whoever changes one raises `VERSION` and adds what was before to `OLDER`, and old links mean what they meant.
 *
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").Setup} Setup
 * @typedef {Object} Before  How a version differs from the one after it.
 * @property {Record<string, any>} defaults  The values that were changed after it, by path.
 * @property {string[]} absent  The fields that came after it.
 */
import { withValueAt } from "../path.js";

/** The version of the links written today. */
export const VERSION = 2;
/** @type {Record<number, Before>} */
export const OLDER = {
  1: {
    defaults: {},
    absent: [
      "dropout.slot_chamfer", "tab.old_edge", "cut.hole_fit", "cut.tolerance_class", "cut.least_edge",
      "cut.least_net", "load.own_force", "load.wheel", "load.wheelbase", "load.slope", "load.bicycle", "load.scheme",
      "load.nut_torque", "load.nut_factor", "load.metal_friction", "load.bolt_class", "load.bolt_torque",
      "load.yield_strength", "load.tensile_strength", "load.weld.electrode", "load.weld.method", "load.weld.category",
      "tack.accuracy", "tack.running", "tack.before.hole_1", "tack.before.hole_2", "tack.before.spacing",
      "tack.before.neck_1", "tack.before.neck_2", "tack.before.step_1", "tack.before.step_2", "tack.before.rotor",
      "tack.before.tube", "tack.after.hole_1", "tack.after.hole_2", "tack.after.spacing", "tack.after.neck_1",
      "tack.after.neck_2", "tack.after.step_1", "tack.after.step_2", "tack.after.rotor", "tack.after.tube",
    ],
  },
};

/** The versions after `version` up to the one before `newest`, the latest first. @param {number} version @param {number} newest */
function since(version, newest) {
  return Array.from({ length: Math.max(newest - version, 0) }, (_, index) => newest - 1 - index);
}

/**
 * The defaults of a version, made from today's.
 * @param {number} version @param {Setup} defaults @param {Record<number, Before>} [older]
 * @returns {Setup}
 */
export function defaultsOf(version, defaults, older = OLDER) {
  return since(version, newest(older))
    .flatMap((before) => Object.entries(older[before].defaults))
    .reduce((setup, [path, value]) => withValueAt(setup, path, value), defaults);
}

/**
 * The fields that a version knew, in the order of their names.
 * @param {number} version @param {Field[]} fields @param {Record<number, Before>} [older]
 */
export function fieldsOf(version, fields, older = OLDER) {
  const absent = since(version, newest(older)).flatMap((before) => older[before].absent);
  return fields.filter(({ key }) => !absent.includes(key)).sort((one, other) => (one.key < other.key ? -1 : 1));
}

/** @param {Record<number, Before>} older */
export function newest(older) {
  return older === OLDER ? VERSION : Math.max(...Object.keys(older).map(Number)) + 1;
}
