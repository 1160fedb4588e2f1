/**
 * Where the page and its search worker find what they load. The start page asks for its script with the build's version,
 * as in js/main.js?v=…; everything else is asked for with the same, so that a browser that keeps files for long never
 * puts two versions together. Unpacked there is no version.
 */
const IN_PAGE = "document" in globalThis;
const OWN_SCRIPT = IN_PAGE ? /** @type {HTMLScriptElement} */ (document.querySelector("script[src]")).src : location.href;
const BUILD = new URL(OWN_SCRIPT).search;
const ROOT = IN_PAGE ? document.baseURI : new URL("../../", OWN_SCRIPT);

/** The build's version, or null. */
export const version = new URL(OWN_SCRIPT).searchParams.get("v");

/** Whether all of the page is one file, without a host. */
export const isOneFile = false;

/** @param {string} path  From the page's folder. */
export function part(path) {
  return new URL(path + BUILD, ROOT).href;
}

/** What of the geometry core a first verdict needs, started. */
export function loadStart() {
  return started("tabwright_start");
}

/** All of the geometry core, started. */
export function loadGeometry() {
  return started("tabwright_wasm");
}

/** @param {string} name  Of a package. */
async function started(name) {
  const wasm = await import(part(`pkg/${name}.js`));
  await wasm.default({ module_or_path: part(`pkg/${name}_bg.wasm`) });
  return wasm;
}

/** @returns {Pick<Worker, "postMessage"|"addEventListener"|"terminate">} */
export function startSearchWorker() {
  return new Worker(part("js/search/worker.js"), { type: "module" });
}
