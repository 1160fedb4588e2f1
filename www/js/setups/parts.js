/** Saved parts that travel in a setup's file. */
import { keep, listKept, newId } from "../store.js";
import { isRecord, own } from "./plain.js";

/** @typedef {import("../store.js").Kept} Kept */

const MOST_PARTS = 500;
const MOST_NAME_CHARS = 80;

/** Those that have the form of a record; what is in them is for the parts' own reader to check. */
export async function partsKept() {
  return (await listKept("parts")).filter(isPart);
}

/**
 * Keeps the parts of a file beside those there are, each once.
 * @param {any[]} list
 */
export async function takeParts(list) {
  const sound = list.slice(0, MOST_PARTS).filter(isPart);
  const there = await partsKept();
  let added = 0;
  for (const part of sound) {
    if (there.some((other) => isSame(part, other))) continue;
    // One of the same id that says something else stays.
    const record = there.some(({ id }) => id === part.id) ? { ...part, id: newId() } : part;
    await keep("parts", record);
    there.push(record);
    added++;
  }
  return { added, known: sound.length - added, refused: list.length - sound.length };
}

/** @param {any} part @returns {part is Kept} */
function isPart(part) {
  const [id, name, changed] = ["id", "name", "changed"].map((key) => own(part, key));
  return isRecord(part)
    && isLine(id) && isLine(name)
    && Number.isFinite(changed)
    && own(part, "data") !== undefined;
}

/** @param {any} text */
function isLine(text) {
  return typeof text === "string" && text !== "" && text.length <= MOST_NAME_CHARS;
}

/** Whether they differ in nothing but id and time. @param {Kept} one @param {Kept} other */
function isSame(one, other) {
  const [left, right] = [one, other].map(({ id, changed, ...rest }) => JSON.stringify(Object.entries(rest).sort()));
  return left === right;
}
