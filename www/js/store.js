/** What the builder keeps in this browser by name: parts and whole setups. */
import { openDB } from "idb";

/**
 * @typedef {"parts"|"setups"} StoreName
 * @typedef {{id: string, name: string, changed: number, data: any} & Record<string, any>} Kept  `changed` in milliseconds since 1970.
 */

const DATABASE = "tabwright";
const VERSION = 1;
const ID_BYTES = 12;

/** @type {Promise<import("idb").IDBPDatabase>|undefined} */
let opened;
/** @type {BroadcastChannel|null|undefined} */
let channel;

/** Through which windows of the page tell each other what was changed; some browsers have none. */
function otherWindows() {
  channel ??= "BroadcastChannel" in globalThis ? new BroadcastChannel("tabwright-kept") : null;
  return channel;
}

function database() {
  opened ??= openDB(DATABASE, VERSION, {
    upgrade(db) {
      for (const name of ["parts", "setups"]) db.createObjectStore(name, { keyPath: "id" });
    },
    // Another window of the page wants a newer version.
    blocking() { closeDatabase(); },
    terminated() { opened = undefined; },
  });
  // A browser that refuses once may be asked again.
  opened.catch(() => { opened = undefined; });
  return opened;
}

async function closeDatabase() {
  const closing = opened;
  opened = undefined;
  (await closing)?.close();
}

/** All records, by name; it is for the caller to check them, even their names. @param {StoreName} store @returns {Promise<Kept[]>} */
export async function listKept(store) {
  /** @type {Kept[]} */
  const records = await (await database()).getAll(store);
  return records.sort((one, other) => String(one.name).localeCompare(String(other.name)));
}

/** Keeps a record, in the place of one with the same id. @param {StoreName} store @param {Kept} record */
export async function keep(store, record) {
  await (await database()).put(store, record);
  otherWindows()?.postMessage(store);
}

/** @param {StoreName} store @param {string} id */
export async function drop(store, id) {
  await (await database()).delete(store, id);
  otherWindows()?.postMessage(store);
}

/** An id that no other record has. Also where the page has not come over https. */
export function newId() {
  return [...crypto.getRandomValues(new Uint8Array(ID_BYTES))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/**
 * Calls `act` when another window has changed something in the store, and when this one has been out of sight.
 * @param {StoreName} store @param {() => void} act
 */
export function whenKeptElsewhere(store, act) {
  otherWindows()?.addEventListener("message", ({ data }) => data === store && act());
  document.addEventListener("visibilitychange", () => !document.hidden && act());
}

/** Why nothing could be kept, in words. @param {unknown} error */
export function storeTrouble(error) {
  console.warn(error);
  return error instanceof DOMException && error.name === "QuotaExceededError"
    ? "This browser has no room left for it. Delete what you no longer need, or save the setup as a file."
    : "This browser does not let the page keep anything here; a private window often does not. Save the setup as a file instead.";
}
