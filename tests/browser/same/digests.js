// What the geometry says of links and setups, as digests; the same module in Node and in every engine.
import { createReader } from "../../../www/js/link/read.js";

/** @param {string} text */
async function digest(text) {
  const bytes = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return [...new Uint8Array(bytes).slice(0, 12)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/**
 * Of each link its setup, both drawings and the ring.
 * @param {any} wasm  The module of the geometry, ready. @param {string[]} links
 */
export function ofLinks(wasm, links) {
  const read = createReader({ fields: wasm.fields, defaultSetup: wasm.default_setup, report: wasm.report });
  return Promise.all(links.map((link) => {
    const { setup } = read(link);
    return digest(JSON.stringify([setup, wasm.update(setup, ["side", "section"]), wasm.ring(setup)]));
  }));
}

/** Of each setup its report. @param {any} wasm @param {object[]} setups */
export function ofSetups(wasm, setups) {
  return Promise.all(setups.map((setup) => digest(JSON.stringify(wasm.report(setup)))));
}
