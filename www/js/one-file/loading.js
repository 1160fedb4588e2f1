/**
 * Takes the place of ../loading.js where all of the page is one file: the geometry core stands in the page as base64, the
 * search worker as text in this script.
 */
import * as geometry from "tabwright:package";
import workerText from "tabwright:worker";
import { createAnswerer } from "../search/answerer.js";
import { createSearcher } from "./searcher.js";

const CORE_ID = "core";

export const version = null;
export const isOneFile = true;

/** @param {string} path @returns {string} */
export function part(path) {
  throw new Error(`${path} is asked for, but all of the page is in one file.`);
}

export async function loadGeometry() {
  await geometry.default({ module_or_path: coreBytes() });
  return geometry;
}

function coreBytes() {
  const text = /** @type {HTMLElement} */ (document.getElementById(CORE_ID)).textContent ?? "";
  return Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
}

/** One package does for all. */
export const loadStart = loadGeometry;

export const startSearchWorker = createSearcher(startWorker, createAnswerer(loadGeometry));

/** Throws, or fails later, where an engine allows a file no worker. */
function startWorker() {
  const address = URL.createObjectURL(new Blob([workerText], { type: "text/javascript" }));
  const worker = new Worker(address);
  worker.postMessage({ core: coreBytes() });
  return worker;
}
