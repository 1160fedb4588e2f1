/** Real parts that the builder has measured and keeps in this browser: their shape, and what may come in from outside. */
import { hasForm } from "../adopt.js";
import { valueAt, withValueAt } from "../path.js";
import { drop, keep, listKept, newId } from "../store.js";

/**
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").Setup} Setup
 * @typedef {import("./steps.js").PartKind} PartKind
 * @typedef {{id: string, name: string, kind: PartKind, changed: number, data: Record<string, any>}} KeptPart
 *   `data` is that group of a setup; `changed` in milliseconds since 1970.
 */

/** @type {PartKind[]} */
const KINDS = ["wheel", "caliper", "fork", "dropout"];
const MOST_NAME_CHARS = 80;

/**
 * Every part that is kept, by name; records that this page cannot read are left out.
 * @param {Field[]} fields @returns {Promise<KeptPart[]>}
 */
export async function listParts(fields) {
  const records = await listKept("parts");
  return records.flatMap((record) => asPart(record, fields) ?? []);
}

/**
 * Keeps parts, each in the place of one with the same id, and says how many were kept and how many could not be read.
 * @param {unknown[]} records @param {Field[]} fields
 */
export async function keepParts(records, fields) {
  const parts = records.flatMap((record) => asPart(record, fields) ?? []);
  for (const part of parts) await keep("parts", part);
  return { kept: parts.length, refused: records.length - parts.length };
}

/** @param {string} id */
export function dropPart(id) {
  return drop("parts", id);
}

/**
 * A part of a setup under a name of its own.
 * @param {Setup} setup @param {PartKind} kind @param {string} name @param {Field[]} fields @returns {KeptPart|null}
 */
export function partOf(setup, kind, name, fields) {
  return asPart({ id: newId(), name, kind, changed: Date.now(), data: setup[kind] }, fields);
}

/**
 * A record with nothing in it but what belongs there; null where something is missing or has the wrong form.
 * @param {any} record @param {Field[]} fields @returns {KeptPart|null}
 */
function asPart(record, fields) {
  const { id, kind, changed } = record ?? {};
  const name = tidyName(record?.name);
  if (typeof id !== "string" || id === "" || !name || !KINDS.includes(kind) || !Number.isFinite(changed)) return null;
  /** @type {Record<string, any>} */
  let whole = { [kind]: {} };
  for (const field of fields.filter(({ key }) => key.startsWith(`${kind}.`))) {
    const value = valueAt({ [kind]: record.data }, field.key);
    if (!hasForm(value, field)) return null;
    if (value != null) whole = withValueAt(whole, field.key, value);
  }
  return { id, name, kind, changed, data: whole[kind] };
}

/** One line, not too long; empty where it is no text. @param {unknown} name */
export function tidyName(name) {
  if (typeof name !== "string") return "";
  return name.replace(/[\p{Cc}\s]+/gu, " ").trim().slice(0, MOST_NAME_CHARS);
}
