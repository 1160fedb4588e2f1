/** Reading a setup from the text of a file: what can be read is taken over, everything else is told. */
import { hasForm } from "../adopt.js";
import { dotted, liesIn, valueAt, withValueAt } from "../path.js";
import { jsonFault } from "./json-fault.js";
import { isRecord, own, plainCopy } from "./plain.js";

/**
 * @typedef {import("../types.js").Core} Core
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").Problem} Problem
 * @typedef {import("../types.js").Setup} Setup
 *
 * @typedef {{ok: false, message: string}} Refusal
 * @typedef {{ok: true, setup: Setup|null, remarks: Problem[], parts: any[]}} Reading
 *   `setup` has a report, and is `null` where the file has parts only; `remarks` tell what was not taken over.
 */

/** A setup has a few thousand characters. */
export const MOST_CHARS = 1_000_000;
const MOST_ROUNDS = 20;
const BODY_KEYS = ["name", "outline", "inboard", "outboard", "bolted"];

/** @param {string} text @param {Core} core @returns {Refusal|Reading} */
export function readText(text, core) {
  if (text.length > MOST_CHARS) return refused(tooLong(text.length));
  const plain = text.replace(/^\uFEFF/, "");
  if (plain.trim() === "") return refused("There is nothing in it. Open a file that was saved here.");
  let data;
  try {
    data = JSON.parse(plain);
  } catch {
    return refused(jsonFault(plain));
  }
  return readData(data, core);
}

/** @param {number} size */
export function tooLong(size) {
  return `It is ${Math.ceil(size / 1000)} kB long, but a setup has only a few. The limit is ${MOST_CHARS / 1000} kB. `
    + "Open a file that was saved here.";
}

/** A setup by itself, or with parts beside it. @param {any} data @param {Core} core @returns {Refusal|Reading} */
export function readData(data, core) {
  const isWrapped = own(data, "setup") !== undefined || own(data, "parts") !== undefined;
  if (!isWrapped) return readSetup(data, core);
  const parts = own(data, "parts") ?? [];
  /** @type {Problem[]} */
  const remarks = Object.keys(data).filter((name) => name !== "setup" && name !== "parts").slice(0, 20).map((name) => ({
    field: name.slice(0, 40),
    value: "",
    message: "A file with parts has only \"setup\" and \"parts\".",
  }));
  if (!Array.isArray(parts)) remarks.push({ field: "parts", value: "", message: "The parts must be a list: [ … ]." });
  const list = Array.isArray(parts) ? parts : [];
  if (own(data, "setup") === undefined) {
    if (list.length === 0) return refused("There is neither a setup nor a part in it.");
    return { ok: true, setup: null, remarks, parts: list };
  }
  const reading = readSetup(own(data, "setup"), core);
  if (!reading.ok) return reading;
  return { ...reading, remarks: [...remarks, ...reading.remarks], parts: list };
}

/** @param {any} data @param {Core} core @returns {Refusal|Reading} */
function readSetup(data, core) {
  if (!isRecord(data)) return refused("There is no setup in it: a setup is an object with named fields, { … }.");
  const given = plainCopy(data);
  const defaults = core.defaultSetup();
  const version = own(given, "version");
  if (typeof version === "number" && version !== defaults.version) {
    return refused(`It is of version ${version}, and this page reads version ${defaults.version}. `
      + "Update the page, or save the setup again where it came from.");
  }
  const fields = core.fields().flatMap((group) => group.fields);
  let setup = defaults;
  let taken = 0;
  for (const field of fields) {
    const value = trimmed(valueIn(given, field.key), field);
    if (value === undefined || !hasForm(value, field)) continue;
    setup = withValueAt(setup, field.key, value);
    taken++;
  }
  if (taken === 0) return refused("There is no setup in it: none of its fields is one of a setup.");
  const told = core.report(given);
  if (told.ok) return { ok: true, setup, remarks: [], parts: [] };
  const settled = settle(setup, defaults, fields, core);
  if (!settled) return refused("The geometry failed on its values.");
  const remarks = [...told.errors, ...settled.remarks];
  const isNew = (/** @type {Problem} */ remark, /** @type {number} */ index) => remarks.findIndex(
    ({ field, message }) => field === remark.field && message === remark.message,
  ) === index;
  return { ok: true, setup: settled.setup, remarks: remarks.filter(isNew), parts: [] };
}

/** The value at a dotted path, through members of their own only. @param {any} data @param {string} path */
function valueIn(data, path) {
  return path.split(".").reduce((node, name) => own(node, name), data);
}

/** Bodies without members that are none of theirs. @param {any} value @param {Field} field */
function trimmed(value, field) {
  if (field.kind !== "bodies" || !Array.isArray(value)) return value;
  return value.map((body) => isRecord(body)
    ? Object.fromEntries(Object.entries(body).filter(([name]) => BODY_KEYS.includes(name)))
    : body);
}

/**
 * The setup with examples in the place of what the core refuses, until it takes it.
 * @param {Setup} setup @param {Setup} defaults @param {Field[]} fields @param {Core} core
 */
function settle(setup, defaults, fields, core) {
  /** @type {Problem[]} */
  const remarks = [];
  const isOwn = (/** @type {Field} */ { key }) => valueAt(setup, key) !== valueAt(defaults, key);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const answer = core.report(setup);
    if (answer.ok) return { setup, remarks };
    remarks.push(...answer.errors);
    const blamed = fields.filter((field) => isOwn(field) && answer.errors.some((problem) => concerns(problem, field)));
    if (blamed.length > 0) {
      setup = withExamples(setup, blamed, defaults);
      continue;
    }
    // A field that is an example already does not go with one that was read.
    const other = fields.filter(isOwn).find(
      (field) => solves(core.report(withExamples(setup, [field], defaults)), answer.errors),
    );
    if (!other) break;
    const reason = answer.errors[0].message;
    const message = `${other.label} does not go with the example values that stand for the rest. (${reason})`;
    remarks.push({ field: other.key, value: JSON.stringify(valueAt(setup, other.key)), message });
    setup = withExamples(setup, [other], defaults);
  }
  if (!core.report(defaults).ok) return null;
  const message = "The fields that could be read do not go together. All values are the example's.";
  return { setup: defaults, remarks: [...remarks, { field: "", value: "", message }] };
}

/** @param {Problem} problem @param {Field} field */
function concerns(problem, field) {
  const path = dotted(problem.field);
  return liesIn(path, field.key) || liesIn(field.key, path);
}

/** Whether it has fewer or other problems. @param {import("../types.js").ReportAnswer} answer @param {Problem[]} errors */
function solves(answer, errors) {
  return answer.ok || !answer.errors.some(({ field }) => field === errors[0].field);
}

/** @param {Setup} setup @param {Field[]} fields @param {Setup} defaults */
function withExamples(setup, fields, defaults) {
  return fields.reduce((before, { key }) => withValueAt(before, key, valueAt(defaults, key)), setup);
}

/** @param {string} message @returns {Refusal} */
function refused(message) {
  return { ok: false, message };
}
