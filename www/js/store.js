/** What the builder keeps in this browser by name: parts and whole setups. */
import { openDB } from "idb";

/**
 * @typedef {"parts"|"setups"} StoreName
 * @typedef {{id: string, name: string, changed: number, data: any} & Record<string, any>} Kept  `changed` in milliseconds since 1970.
 */

const DATABASE = "tabwright";
const VERSION = 1;

/** @type {Promise<import("idb").IDBPDatabase>|undefined} */
let opened;

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

/** All records, by name; it is for the caller to check their data. @param {StoreName} store @returns {Promise<Kept[]>} */
export async function listKept(store) {
  /** @type {Kept[]} */
  const records = await (await database()).getAll(store);
  return records.sort((one, other) => one.name.localeCompare(other.name));
}

/** Keeps a record, in the place of one with the same id. @param {StoreName} store @param {Kept} record */
export async function keep(store, record) {
  await (await database()).put(store, record);
}

/** @param {StoreName} store @param {string} id */
export async function drop(store, id) {
  await (await database()).delete(store, id);
}
