/** The setups that Undo and Redo go through, small enough to be kept over a reload: each as what differs from its neighbour. */
import { hasForm } from "./adopt.js";
import { valueAt, withValueAt } from "./path.js";

/**
 * @typedef {import("./types.js").Field} Field
 * @typedef {import("./types.js").Setup} Setup
 * @typedef {[key: string, value: any][]} Changes
 */

const MOST_KEPT = 60;

/** What led to a setup from its neighbour; that does not change any more. @type {WeakMap<Setup, {from: Setup, changes: Changes}>} */
const found = new WeakMap();

/**
 * @param {Setup} setup  Where they start from. @param {Setup[]} steps  The nearest last. @param {Field[]} fields
 * @returns {Changes[]} The nearest first.
 */
export function packed(setup, steps, fields) {
  let from = setup;
  return steps.slice(-MOST_KEPT).reverse().map((to) => {
    const changes = differences(from, to, fields);
    from = to;
    return changes;
  });
}

/** @param {Setup} from @param {Setup} to @param {Field[]} fields */
function differences(from, to, fields) {
  const known = found.get(to);
  if (known?.from === from) return known.changes;
  /** @type {Changes} */
  const changes = fields
    .filter(({ key }) => !Object.is(valueAt(from, key), valueAt(to, key)))
    .map(({ key }) => [key, valueAt(to, key) ?? null]);
  found.set(to, { from, changes });
  return changes;
}

/**
 * The steps that `packed` told of, up to the first that cannot be used.
 * @param {Setup} setup @param {any} list @param {Field[]} fields
 */
export function unpacked(setup, list, fields) {
  /** @type {Setup[]} */
  const steps = [];
  let from = setup;
  for (const changes of Array.isArray(list) ? list.slice(0, MOST_KEPT) : []) {
    if (!Array.isArray(changes) || !changes.every((change) => isChange(change, fields))) break;
    from = changes.reduce((before, [key, value]) => withValueAt(before, key, value), from);
    steps.unshift(from);
  }
  return steps;
}

/** @param {any} change @param {Field[]} fields */
function isChange(change, fields) {
  if (!Array.isArray(change)) return false;
  const field = fields.find(({ key }) => key === change[0]);
  return field !== undefined && hasForm(change[1], field);
}
