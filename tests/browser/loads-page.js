// The Loads page of the Build panel, for its tests.
import { openSite, untilPainted } from "./harness.js";

export async function openLoads(page) {
  await page.getByRole("button", { name: "Build", exact: true }).click();
  await page.getByRole("radio", { name: "Loads", exact: true }).check({ force: true });
  await page.locator(".load-answered:not([hidden])").waitFor();
  await untilPainted(page);
}

/** A fresh page with the loads open. */
export async function opened(t, browser, options = {}) {
  const site = await openSite(t, browser, options);
  await openLoads(site.page);
  return site;
}

export async function closePanel(page) {
  await page.locator("#panel .panel-head button").click();
  await page.locator("#panel").waitFor({ state: "hidden" });
}

/** The input of a field on this page. */
export function entry(page, key) {
  return page.locator(`.load [data-path="${key}"]`);
}

export function openFolds(page) {
  return page.evaluate(() => document.querySelectorAll(".load details").forEach((details) => { details.open = true; }));
}

/** Waits until the page's answer is that of the core itself for the setup at hand, and gives both. */
export async function answered(page) {
  await untilPainted(page);
  const loads = await coreLoads(page);
  const wanted = loads.groups.flatMap(({ results }) => results).map(({ id, sentence }) => `${id}: ${sentence}`);
  await page.waitForFunction((expected) => {
    const cards = [...document.querySelectorAll(".load-result")];
    const shown = cards.map((card) => `${card.dataset.result}: ${card.querySelector("p:not([class])").textContent}`);
    return JSON.stringify(shown) === JSON.stringify(expected);
  }, wanted);
  return loads;
}

/** The loads of the setup as the page keeps it, by a core of the test's own. */
function coreLoads(page) {
  return page.evaluate(async () => {
    dispatchEvent(new Event("pagehide"));
    const { setup } = JSON.parse(localStorage.getItem("tabwright-setup"));
    const core = await import("./pkg/tabwright_wasm.js");
    await core.default();
    core.speak_in(localStorage.getItem("tabwright-length-unit") ?? "mm");
    return core.loads(setup).answer;
  });
}

export async function keptSetup(page) {
  await untilPainted(page);
  return page.evaluate(() => {
    dispatchEvent(new Event("pagehide"));
    return JSON.parse(localStorage.getItem("tabwright-setup")).setup;
  });
}
