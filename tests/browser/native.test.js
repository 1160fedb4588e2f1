// The geometry compiled for this machine says the same as in WebAssembly.
import assert from "node:assert/strict";
import { test } from "node:test";
import { wasm } from "./codec.js";
import { SETUPS, drawn } from "./same/drawn.js";

/** Numbers of any report agree to this, mm or degrees. */
const NUMBERS_AGREE = 1e-9;
/** Two points are nearest to each other as well as two others where they are as far apart to this, mm: what a gap is certified to. */
const AS_NEAR = 2e-3;

/**
 * Every place where two reports say something else, with both. Nearest points, and the pieces they are on, need not be the
 * only ones: there, it is enough that they are as far apart as the gap says.
 */
function differences(one, other, path = "") {
  if (typeof one === "number" && typeof other === "number") {
    return Math.abs(one - other) <= NUMBERS_AGREE ? [] : [[path, one, other]];
  }
  if (one === null || other === null || typeof one !== "object" || typeof other !== "object") return one === other ? [] : [[path, one, other]];
  const found = [...new Set([...Object.keys(one), ...Object.keys(other)])].flatMap((key) => differences(one[key], other[key], `${path}.${key}`));
  const isPair = "points" in one && "gap" in one;
  if (!isPair || found.every(([where]) => !/\.(points|parts)\./.test(where))) return found;
  const apart = ({ points: [a, b] }) => Math.hypot(...a.map((number, index) => number - b[index]));
  const areAsNear = [one, other].every((pair) => Math.abs(apart(pair) - Math.abs(pair.gap)) <= AS_NEAR);
  return areAsNear ? found.filter(([where]) => !/\.(points|parts)\./.test(where)) : found;
}

test(`this machine's own code and WebAssembly agree on ${SETUPS} setups`, (t) => {
  const all = drawn(SETUPS);
  assert.ok(all.length > SETUPS * 0.9, `${all.length} setups`);
  const wrong = all.flatMap(({ setup, report }, index) => {
    const told = wasm.report(setup);
    assert.ok(told.ok, `setup ${index}: ${JSON.stringify(told.errors)}`);
    return differences(report, told.report, String(index));
  });
  t.diagnostic(`${all.length} setups, ${wrong.length} numbers differ by more than ${NUMBERS_AGREE}`);
  assert.deepEqual(wrong.slice(0, 10), []);
});
