// Memory that the page takes, each time in the same state of the page and with what nothing leads to thrown away. Chromium only.
import assert from "node:assert/strict";
import { chance, setups } from "../codec.js";
import { DESK, untilPainted } from "../harness.js";
import { BUILD_PAGES, PANELS, openBuildPage, openPanel } from "./panel.js";

const MOST_GROWTH = 0.1;
/** More than the page keeps steps. */
const EDITS = 250;
const SETUPS = 30;
const SEED = 1;
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

/**
 * Inside the page or its worker: bytes of the geometry's own memory, which never shrinks. What it needs for the largest setups
 * is asked of it first, so that it depends on no setup that came by chance.
 */
async function geometryBytes([root, names, setups]) {
  const sizes = await Promise.all(names.map(async (name) => {
    const geometry = await import(new URL(`pkg/${name}.js${new URL(root).search}`, root));
    const { memory } = await geometry.default();
    for (const setup of setups) {
      geometry.update(setup, ["side", "section"]);
      geometry.ring(setup);
      for (const question of ["loads", "stack", "tack_check", "explain"]) geometry[question]?.(setup);
      geometry.cut_sheet?.(setup, { other_side: true });
    }
    return memory.buffer.byteLength;
  }));
  return sizes.reduce((sum, size) => sum + size);
}

/**
 * Bytes, but for `nodes` and `listeners`: these are what a page can leave behind of its document, also where they are in no
 * document any more. The browser's other records of it, on styles and times, are not the page's.
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

  const root = await page.evaluate(() => document.baseURI + new URL(document.querySelector("script[src]").src).search);
  const drawn = setups(chance(SEED));
  const largest = Array.from({ length: SETUPS }, () => drawn.next());
  const geometry = await page.evaluate(geometryBytes, [root, ["tabwright_start", "tabwright_wasm"], largest])
    + await page.workers()[0].evaluate(geometryBytes, [root, ["tabwright_wasm"], largest]);
  const session = await page.context().newCDPSession(page);
  for (let count = 0; count < COLLECTIONS; count += 1) await session.send("HeapProfiler.collectGarbage");
  const { usedSize: scripts, backingStorageSize: buffers } = await session.send("Runtime.getHeapUsage");
  const { nodes, jsEventListeners: listeners } = await session.send("Memory.getDOMCounters");
  await session.detach();
  return { scripts, nodes, listeners, geometry, all: scripts + buffers + geometry };
}

/** @param {Awaited<ReturnType<typeof memoryOf>>[]} measured */
export function assertNoGrowth([first, ...later]) {
  for (const now of later) {
    for (const [name, before] of Object.entries(first)) {
      assert.ok(now[name] <= before * (1 + MOST_GROWTH), `${name}: ${before} have become ${now[name]}`);
    }
  }
}
