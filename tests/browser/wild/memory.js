// Memory that the page takes, each time in the same state of the page and with what nothing leads to thrown away. Chromium only.
import assert from "node:assert/strict";
import { DESK, untilPainted } from "../harness.js";
import { BUILD_PAGES, PANELS, openBuildPage, openPanel } from "./panel.js";

const MOST_GROWTH = 0.1;
/** More than the page keeps steps. */
const EDITS = 250;
/** The browser throws away in several goes. */
const COLLECTIONS = 3;

/**
 * Inside the page: nothing kept by name, no notes, every search open for the setup that the page starts with, and more steps
 * back than it keeps.
 */
async function tidyUp(edits) {
  document.querySelectorAll("dialog[open]").forEach((dialog) => dialog.close());
  document.querySelectorAll(".notice button").forEach((close) => close.click());
  document.querySelector("#view-switch input[value=side]").click();
  document.querySelector("#unit-switch input[value=mm]").click();
  document.querySelectorAll("#main details").forEach((fold) => { fold.open = true; });
  const startAgain = document.querySelector("#start-again");
  if (!startAgain.classList.contains("asking")) startAgain.click();
  for (let count = 0; count < edits; count += 1) {
    const detail = count % 2 ? { path: "wheel.hub_width", value: 100 + (count % 40) } : { path: "wheel.rotor_diameter", value: 160 + (count % 40) };
    document.dispatchEvent(new CustomEvent("edit", { detail }));
  }
  startAgain.click();
  const opened = indexedDB.open("tabwright");
  const database = await new Promise((resolve, reject) => Object.assign(opened, { onsuccess: () => resolve(opened.result), onerror: reject }));
  const clearing = database.transaction([...database.objectStoreNames], "readwrite");
  for (const name of clearing.objectStoreNames) clearing.objectStore(name).clear();
  await new Promise((resolve) => { clearing.oncomplete = resolve; });
  database.close();
}

/** Inside the page: whether no search is under way and none has an answer to another setup. */
function isAtRest() {
  return document.querySelector("#shortest .answer").textContent !== "" && document.querySelector("#searches :is(.outdated, .search-state:not([hidden]))") === null;
}

/** Inside the page or its worker: bytes of the geometry's own memory. */
async function wasmBytes([root, names]) {
  const sizes = await Promise.all(names.map(async (name) => {
    const { default: start } = await import(new URL(`pkg/${name}.js${new URL(root).search}`, root));
    return (await start()).memory.buffer.byteLength;
  }));
  return sizes.reduce((sum, size) => sum + size);
}

/**
 * What is there of each: bytes but for `nodes` and `listeners`.
 * @param {import("playwright-core").Page} page
 */
export async function memoryOf(page) {
  await page.setViewportSize(DESK);
  // Whatever is made when first shown is there.
  for (const name of PANELS) await openPanel(page, name);
  for (const name of BUILD_PAGES) await openBuildPage(page, name);
  await page.evaluate(tidyUp, EDITS);
  await page.waitForFunction(isAtRest);
  await openPanel(page, "setups");
  await page.evaluate(() => {
    document.querySelectorAll("dialog[open]").forEach((dialog) => dialog.close());
    document.querySelectorAll("#main details").forEach((fold) => { fold.open = false; });
  });
  await untilPainted(page);

  const session = await page.context().newCDPSession(page);
  for (let count = 0; count < COLLECTIONS; count += 1) await session.send("HeapProfiler.collectGarbage");
  const { usedSize: scripts, embedderHeapUsedSize: document, backingStorageSize: buffers } = await session.send("Runtime.getHeapUsage");
  const { nodes, jsEventListeners: listeners } = await session.send("Memory.getDOMCounters");
  await session.detach();
  const root = await page.evaluate(() => document.baseURI + new URL(document.querySelector("script[src]").src).search);
  const wasm = await page.evaluate(wasmBytes, [root, ["tabwright_start", "tabwright_wasm"]]);
  const ofWorker = await page.workers()[0].evaluate(wasmBytes, [root, ["tabwright_wasm"]]);
  return { scripts, document, buffers, wasm, ofWorker, nodes, listeners };
}

/**
 * The browser's own part of a document comes and goes by a quarter with when it collects, so it counts in the sum alone.
 * @param {Awaited<ReturnType<typeof memoryOf>>[]} measured
 */
export function assertNoGrowth([first, ...later]) {
  const sum = ({ scripts, document, buffers, wasm, ofWorker }) => scripts + document + buffers + wasm + ofWorker;
  const known = ({ scripts, wasm, ofWorker, nodes, listeners, ...rest }) => (
    { scripts, wasm, ofWorker, nodes, listeners, sum: sum({ scripts, wasm, ofWorker, ...rest }) }
  );
  const before = known(first);
  for (const now of later.map(known)) {
    for (const [name, value] of Object.entries(now)) {
      assert.ok(value <= before[name] * (1 + MOST_GROWTH), `${name}: ${before[name]} have become ${value}`);
    }
  }
}
