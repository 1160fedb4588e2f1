// What the builder has typed, step by step as the page keeps it, and what no action may do to it.
import assert from "node:assert/strict";
import { readNumber } from "../../../www/js/numbers.js";
import { valueAt } from "../../../www/js/path.js";
import { unpacked } from "../../../www/js/steps.js";
import { readLength, useUnit } from "../../../www/js/units.js";
import { fields } from "../codec.js";

const KEY = "tabwright-setup";
/** Inches are shown in four decimals, mm. */
const AS_SHOWN = 2e-3;
/** Of large numbers, as a share. */
const DIGITS_SHOWN = 1e-12;
/** Of the 60 steps that outlive a reload, those that no action pushes out. */
const LEAST_KEPT = 50;

/**
 * @typedef {Object} State
 * @property {any} setup
 * @property {string} unit
 * @property {string[]} line  Every step there is, oldest first: what Undo leads to, the setup at hand, what Redo leads to.
 * @property {number} at  The setup at hand among them.
 * @property {string} good  The last setup that had an answer.
 * @property {Record<string, string>} others  What else the browser keeps by name.
 * @property {[path: string, unit: string, text: string|boolean][]} inputs
 */

/** Inside the page, once it has answered: it keeps its state as if it were left, and says what it shows. */
async function look(key) {
  await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
  dispatchEvent(new Event("pagehide"));
  const { [key]: kept, ...others } = { ...localStorage };
  const unit = document.querySelector("#unit-switch :checked").value;
  const inputs = [...document.querySelectorAll("#main [data-path], .head [data-path]")]
    .filter((input) => (input instanceof HTMLInputElement || input instanceof HTMLSelectElement) && (input.type !== "radio" || input.checked));
  return {
    kept,
    others,
    unit,
    inputs: inputs.map((input) => [input.dataset.path, input.dataset.unit ?? "", input.type === "checkbox" ? input.checked : input.value]),
    otherMarks: [...document.querySelectorAll("[data-length-unit]")].filter((mark) => mark.textContent !== unit).map((mark) => mark.parentElement.parentElement.textContent),
    isThere: !document.querySelector("#main").hidden && document.querySelector("#verdict-word").textContent !== "",
  };
}

/** What was kept last, with what it says: most actions leave it as it is. @type {{kept: string, state: Pick<State, "setup"|"line"|"at"|"good">}|null} */
let latest = null;

/** Fails where the page is blank or its parts contradict each other. @param {import("playwright-core").Page} page @returns {Promise<State>} */
export async function stateOf(page) {
  const { kept, others, unit, inputs, otherMarks, isThere } = await page.evaluate(look, KEY);
  assert.ok(isThere, "the page is there, with a verdict");
  assert.deepEqual(otherMarks, [], `marks of another unit than ${unit}`);
  if (latest?.kept !== kept) latest = { kept, state: readKept(kept) };
  const state = { ...latest.state, unit, others, inputs };
  assertShown(state);
  return state;
}

/** @param {string} kept */
function readKept(kept) {
  const { setup, goodSetup, past, future } = JSON.parse(kept);
  const [back, ahead] = [past, future].map((packed) => {
    const steps = unpacked(setup, packed, fields);
    assert.equal(steps.length, packed.length, "every step that is kept can be read");
    return steps.map(textOf);
  });
  return { setup, line: [...back, textOf(setup), ...ahead.reverse()], at: back.length, good: textOf(goodSetup) };
}

/** The same for the same setup, however it was put together. @param {any} setup */
function textOf(setup) {
  return JSON.stringify(fields.map(({ key }) => valueAt(setup, key) ?? null));
}

/** Fails where an input says something else than the setup. @param {State} state */
function assertShown({ setup, unit, inputs }) {
  useUnit(unit);
  for (const [path, lengths, text] of inputs) {
    const value = valueAt(setup, path);
    const read = lengths === "mm" ? readLength : readNumber;
    const isShown = Array.isArray(value)
      // Several that were typed as one are refused as one, and shown as they were typed.
      ? isSame(readingsOf(text), value.flatMap((one) => typeof one === "string" ? readingsOf(one) : one))
      : isSame([meant(text, read)], [meant(value ?? "", read)]);
    assert.ok(isShown, `${path} is ${JSON.stringify(value)}, and its input says ${JSON.stringify(text)}`);
  }
  useUnit("mm");
}

/** @param {any} value @param {(text: string) => number|string} read */
function meant(value, read) {
  // An input holds one line.
  return typeof value === "string" ? read(value.replace(/[\n\r]/g, "")) : value;
}

/** @param {string} text */
function readingsOf(text) {
  return text.split(";").filter((piece) => piece.trim() !== "").map((piece) => readLength(piece.trim()));
}

/** @param {any[]} some @param {any[]} others */
function isSame(some, others) {
  return some.length === others.length && some.every((one, index) => {
    const other = others[index];
    if (typeof one !== "number" || typeof other !== "number") return one === other;
    return Math.abs(one - other) <= Math.max(AS_SHOWN, DIGITS_SHOWN * Math.abs(other));
  });
}

/** Fails where the setup, or what Undo leads to, is another. @param {State} now @param {State} before @param {string} [what] */
export function assertTakenBack(now, before, what = "taken back") {
  assertSameSteps(now.line.slice(0, now.at + 1), before.line.slice(0, before.at + 1), what);
}

/** Fails where the setup or a step from it is another. @param {State} now @param {State} before @param {string} what */
export function assertSame(now, before, what) {
  assertTakenBack(now, before, what);
  assertSameSteps(now.line.slice(now.at), before.line.slice(before.at), `${what}, Redo`);
}

/** Fails where an action that changes nothing has changed something. @param {State} now @param {State} before @param {string} what */
export function assertKept(now, before, what) {
  assertSame(now, before, what);
  // The answer to the setup at hand may have come late.
  if (now.good !== now.line[now.at]) assertSameSteps([now.good], [before.good], `${what}, the last setup with an answer`);
}

/** @param {string[]} now @param {string[]} before @param {string} what */
function assertSameSteps(now, before, what) {
  assert.equal(now.length, before.length, `${what}: steps`);
  const place = now.findLastIndex((step, index) => step !== before[index]);
  if (place >= 0) assert.fail(`${what}: step ${place} of ${now.length}: ${changes(before[place], now[place]).join("; ")}`);
}

/** @param {string} from @param {string} to */
function changes(from, to) {
  const [before, now] = [from, to].map((text) => JSON.parse(text).map((value) => JSON.stringify(value)));
  return fields.flatMap(({ key }, index) => before[index] === now[index] ? [] : [`${key} was ${before[index]} and is ${now[index]}`]);
}

/**
 * Fails where Undo and Redo no longer lead back to what was there before an action; only where the action retypes the value
 * that the last step changed may the setup itself be gone.
 * @param {State} now @param {State} before
 * @returns {number} So many steps back to it; less than none where it lies ahead. NaN where it was retyped.
 */
export function stepsBackTo(before, now) {
  for (let place = now.line.length - 1; place >= 0; place -= 1) {
    if (now.line[place] === before.line[before.at] && agree(before, now, place - before.at)) return now.at - place;
  }
  // An action of several touches may go on from what it retyped.
  const start = { line: before.line.slice(0, before.at) };
  const isRetypedAt = (place) => agree(start, now, place - before.at) && isRetyped(now.line[place - 1], before.line[before.at], now.line[place]);
  const places = Array.from({ length: Math.min(before.at, now.at) }, (_, index) => index + 1);
  const isGone = now.line.length > now.at + 1 || !places.some(isRetypedAt);
  if (isGone) assert.fail(`what was there is none of the steps: of ${before.at} now ${now.at}, ${changes(before.line[before.at], now.line[now.at]).join("; ")}`);
  return NaN;
}

/** Whether the steps that led to the setup at hand are still there, so many places further on. @param {{line: string[], at?: number}} before @param {State} now @param {number} shift */
function agree({ line, at = line.length }, now, shift) {
  return at + shift >= Math.min(at, LEAST_KEPT) && line.slice(0, at).every((step, index) => index + shift < 0 || step === now.line[index + shift]);
}

/** Whether two setups differ from a third in one and the same value; the guide to a caliper changes it as one. */
function isRetyped(...setups) {
  const [first, ...others] = setups.map((text) => JSON.parse(text ?? "[]").map((value) => JSON.stringify(value)));
  const changed = fields.filter((_, index) => others.some((values) => values[index] !== first[index])).map(({ key }) => key);
  return new Set(changed.map((key) => key.replace(/^caliper\..*/, "caliper"))).size <= 1;
}
