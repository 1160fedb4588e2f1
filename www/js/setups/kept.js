/** The setups kept in this browser: what stands in a record, and records made. */
import { newId } from "../store.js";
import { own, plainCopy } from "./plain.js";

/**
 * @typedef {import("../types.js").Core} Core
 * @typedef {import("../types.js").Report} Report
 * @typedef {import("../types.js").Setup} Setup
 * @typedef {import("../store.js").Kept} Kept
 *
 * @typedef {{record: Kept, name: string, when: Date, setup: Setup, report: Report}} Sound
 * @typedef {{record: Kept, name: string, fault: string}} Damaged
 */

const LAST_TIME = 8.64e15;

/** @param {Setup} setup */
export function nameOf(setup) {
  return String(setup.name).trim() || "Without a name";
}

/** @param {Setup} setup @param {Partial<Kept>} [place]  The record to put it in the place of. @returns {Kept} */
export function recordOf(setup, { id = newId() } = {}) {
  return { id, name: nameOf(setup), changed: Date.now(), data: setup };
}

/** A record that may hold anything at all. @param {any} record @param {Core} core @returns {Sound|Damaged} */
export function inspected(record, core) {
  const name = own(record, "name");
  const changed = own(record, "changed");
  const setup = plainCopy(own(record, "data"));
  const damaged = (/** @type {string} */ fault) => ({
    record,
    name: typeof name === "string" && name !== "" ? name.slice(0, 100) : "Without a name",
    fault,
  });
  if (typeof name !== "string" || name === "") return damaged("Damaged: it has no name.");
  if (typeof changed !== "number" || !(Math.abs(changed) <= LAST_TIME)) {
    return damaged("Damaged: it does not say when it was kept.");
  }
  const answer = core.report(setup);
  if (!answer.ok) {
    // A page that knows more fields finds none of them in what an older one kept.
    const isShort = answer.errors.every(({ value }) => value === "");
    return damaged(`${isShort ? "Incomplete" : "Damaged"}: ${answer.errors[0].message}`);
  }
  return { record, name, when: new Date(changed), setup, report: answer.report };
}

/** All of a record as text, even where it is no plain data. @param {any} record */
export function rawText(record) {
  const seen = new Set();
  const text = JSON.stringify(record, (_, value) => {
    if (typeof value === "bigint") return String(value);
    if (typeof value === "object" && value !== null) {
      if (seen.has(value)) return null;
      seen.add(value);
    }
    return value;
  }, 2);
  return `${text ?? "null"}\n`;
}
