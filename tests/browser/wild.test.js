// A user without a plan, and a browser that fails in every way it can: no complaint, nothing lost, no blank page.
// TABWRIGHT_WILD=10000 does that many actions, TABWRIGHT_SEED others.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { chance } from "./codec.js";
import { DESK, ENGINE, LACKS, launch, loseWorker, openSearch, openSite, typeInto, untilAnswered, untilOffline, untilVerdict } from "./harness.js";
import { BUILT_SITE, buildVersion, startHost } from "./host.js";
import { actionsOf, chosen } from "./wild/actions.js";
import { assertNoGrowth, memoryOf } from "./wild/memory.js";
import { assertKept, assertSame, assertTakenBack, stateOf, stepsBackTo } from "./wild/state.js";

const ACTIONS = Number(process.env.TABWRIGHT_WILD ?? 60);
const SEED = Number(process.env.TABWRIGHT_SEED ?? 20_261_127);
/** From so many actions on does memory tell something. */
const MEMORY_FROM = 4000;
/** Loading the page again would free what is left behind: from this share of the actions on that is left out. */
const STAYS_FROM = 0.4;
/** After these shares of them memory is measured. */
const MEASURED = [0.6, 0.8, 1];
/** So often, what was done is taken back and done again. */
const TAKEN_BACK = 0.3;
/** Longer than anything that is waited for. */
const LONGEST_MS = 60_000;
const ROTOR = "wheel.rotor_diameter";
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

/** An engine that no longer answers is not waited for. */
function tooLate() {
  return new Promise((_, reject) => { setTimeout(reject, LONGEST_MS, new Error(`no end after ${LONGEST_MS} ms`)).unref(); });
}

/** @param {import("playwright-core").Page} page @param {"#undo"|"#redo"} button @param {number} times */
async function step(page, button, times) {
  await page.evaluate(([button, times]) => {
    for (let count = 0; count < times; count += 1) document.querySelector(button).click();
  }, [button, times]);
  return stateOf(page);
}

test(`${ACTIONS} actions without a plan, from seed ${SEED}`, async (t) => {
  const random = chance(SEED);
  const host = { isDown: false };
  const { page, site, complaints } = await openSite(t, browser, { waits: false, refuses: () => host.isDown });
  // Nobody is there to close the browser's own window.
  await page.addInitScript(() => { window.print = () => {}; });
  await page.goto(site.url);
  await untilAnswered(page);
  if (!LACKS.keptFiles) await untilOffline(page);
  const actions = actionsOf({ page, host, random });
  const measures = ENGINE === "chromium" && ACTIONS >= MEMORY_FROM;
  if (!measures) t.diagnostic(`memory is not measured: that takes Chromium and ${MEMORY_FROM} actions or more`);
  const measured = [];
  const done = [];
  let state = await stateOf(page);

  async function actOnce() {
    const [name, { act, keeps }] = chosen(actions, random);
    done.push(name);
    await act();
    const now = await stateOf(page);
    if (keeps) assertKept(now, state, name);
    const steps = stepsBackTo(state, now);
    if (steps > 0 && random() < TAKEN_BACK) {
      assertTakenBack(await step(page, "#undo", steps), state);
      assertSame(await step(page, "#redo", steps), now, "done again");
    }
    state = now;
    // A file that the host does not give is a complaint of the browser's, not of the page's.
    assert.deepEqual(complaints.filter((text) => !/404|Failed to load resource/.test(text)), []);
  }

  for (let count = 1; count <= ACTIONS; count += 1) {
    try {
      await Promise.race([actOnce(), tooLate()]);
    } catch (error) {
      throw new Error(`action ${count} of seed ${SEED}, ${done.slice(-12).join(", ")}: ${error.message}`, { cause: error });
    }
    if (!measures) continue;
    if (count === Math.floor(ACTIONS * STAYS_FROM)) {
      delete actions.reload;
      delete actions.network;
      host.isDown = false;
    }
    if (MEASURED.some((share) => count === Math.floor(ACTIONS * share))) {
      measured.push(await memoryOf(page));
      t.diagnostic(`after ${count} actions: ${JSON.stringify(measured.at(-1))}`);
      state = await stateOf(page);
    }
  }
  if (measures) assertNoGrowth(measured);
});

/** The page works on, and says that what is typed will be gone. */
async function assertUsableButForgetful(page, complaints) {
  await typeInto(page, ROTOR, "180");
  await untilVerdict(page, "Hits");
  await page.locator(".notice", { hasText: "does not let the page keep your setup" }).waitFor();
  await page.locator("#undo").click();
  await untilVerdict(page, "Clears");
  assert.deepEqual(complaints, []);
}

const STORES = {
  "that refuses to read or write": () => {
    const refuse = () => { throw new DOMException("denied", "SecurityError"); };
    Object.assign(Storage.prototype, { getItem: refuse, setItem: refuse, removeItem: refuse });
  },
  "that cannot even be touched": () => {
    Object.defineProperty(window, "localStorage", { get() { throw new DOMException("denied", "SecurityError"); } });
  },
  "that is full": () => {
    Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); };
  },
};

for (const [name, breaks] of Object.entries(STORES)) {
  test(`with a store ${name} the page works, and says that nothing is kept`, async (t) => {
    const { page, site, complaints } = await openSite(t, browser, { waits: false });
    await page.addInitScript(breaks);
    await page.goto(site.url);
    await untilAnswered(page);
    await assertUsableButForgetful(page, complaints);
  });
}

for (const [name, breaks] of Object.entries({
  "refused, as in a private window": () => {
    Object.defineProperty(window, "indexedDB", { value: { open() { throw new DOMException("denied", "SecurityError"); } } });
  },
  full: () => {
    IDBObjectStore.prototype.put = () => { throw new DOMException("full", "QuotaExceededError"); };
  },
})) {
  test(`with a database ${name}, keeping a setup fails in words and the page works on`, async (t) => {
    const { page, site, complaints } = await openSite(t, browser, { waits: false });
    await page.addInitScript(breaks);
    await page.goto(site.url);
    await untilAnswered(page);
    await page.locator("button[data-panel=setups]").click();
    await page.locator("#panel .setups").waitFor();
    await page.locator("#setups-own-name").fill("Not to be kept");
    await page.locator("#panel").getByRole("button", { name: "Keep here", exact: true }).click();
    await page.locator("#panel").getByText(/does not let the page keep|no room left/i).first().waitFor();
    await page.keyboard.press("Escape");
    await typeInto(page, ROTOR, "180");
    await untilVerdict(page, "Hits");
    assert.deepEqual(complaints, []);
  });
}

test("a worker that is killed in mid-work leaves words, and the page and the next search work on", async (t) => {
  const { page, complaints } = await openSite(t, browser);
  await openSearch(page, "shortest");
  await page.locator("#shortest").getByText(/mm/).first().waitFor();
  await loseWorker(page);
  await typeInto(page, ROTOR, "180");
  await untilVerdict(page, "Hits");
  await page.locator("#undo").click();
  await untilVerdict(page, "Clears");
  assert.deepEqual(complaints, []);
});

for (const [name, breaks] of Object.entries({
  "has no WebAssembly": () => { delete globalThis.WebAssembly; },
  "refuses to compile it": () => {
    const refuse = () => Promise.reject(new WebAssembly.CompileError("refused by policy"));
    Object.assign(WebAssembly, { compile: refuse, compileStreaming: refuse, instantiate: refuse, instantiateStreaming: refuse });
  },
})) {
  test(`where the browser ${name} there are words instead of an empty page`, async (t) => {
    const { page, site } = await openSite(t, browser, { waits: false });
    await page.addInitScript(breaks);
    await page.goto(site.url);
    await page.getByText("The geometry could not be started").waitFor({ state: "visible" });
    assert.equal(await page.locator("#main").isVisible(), false);
    await page.getByRole("button", { name: "Safety", exact: true }).click();
    assert.ok(await page.getByRole("dialog").isVisible(), "the safety notice is reachable");
  });
}

test("a call that the engine breaks off once is asked again, and nobody hears of it", async (t) => {
  const { page, site, complaints } = await openSite(t, browser, { waits: false });
  await page.addInitScript(() => {
    const { instantiateStreaming } = WebAssembly;
    WebAssembly.instantiateStreaming = async (...given) => {
      const { instance, module } = await instantiateStreaming.apply(WebAssembly, given);
      const update = (...input) => {
        if (globalThis.hasTrapped) return instance.exports.update(...input);
        globalThis.hasTrapped = true;
        throw new WebAssembly.RuntimeError("broken off");
      };
      return { module, instance: { exports: { ...instance.exports, update } } };
    };
  });
  await page.goto(site.url);
  await untilVerdict(page, "Clears");
  assert.equal(await page.evaluate(() => globalThis.hasTrapped), true);
  assert.deepEqual(complaints, []);
});

for (const years of [-30, 30]) {
  test(`with the clock ${years} years off, the page starts, keeps, and takes back what was kept before`, async (t) => {
    const { page, complaints } = await openSite(t, browser);
    await typeInto(page, ROTOR, "180");
    await untilVerdict(page, "Hits");
    await page.addInitScript((years) => {
      const off = years * 365.25 * 24 * 3600 * 1000;
      const { now } = Date;
      globalThis.Date = class extends Date {
        constructor(...given) { given.length ? super(...given) : super(now() + off); }
        static now() { return now() + off; }
      };
    }, years);
    await page.reload();
    await untilVerdict(page, "Hits");
    await page.locator("#undo").click();
    await untilVerdict(page, "Clears");
    await page.locator("button[data-panel=setups]").click();
    await page.locator("#setups-own-name").fill(`Kept ${years} years off`);
    await page.locator("#panel").getByRole("button", { name: "Keep here", exact: true }).click();
    await page.locator(".setups-item", { hasText: "years off" }).waitFor();
    assert.deepEqual(complaints, []);
  });
}

test("an update that comes while the page is open loses nothing that was typed, be it refused", async (t) => {
  const host = await startHost(t, BUILT_SITE);
  const context = await browser.newContext({ viewport: DESK, reducedMotion: "reduce" });
  t.after(() => context.close());
  const page = await context.newPage();
  await page.goto(host.url);
  await untilAnswered(page);
  await untilOffline(page);
  await typeInto(page, ROTOR, "180");
  await typeInto(page, "wheel.hub_width", "wide");
  host.folder = buildVersion(t, { title: "The next version" });
  await page.evaluate(async () => { await (await navigator.serviceWorker.ready).update(); });
  await page.getByRole("button", { name: "Update", exact: true }).click();
  await page.waitForFunction(() => document.title === "The next version");
  await untilVerdict(page, "Not checked");
  assert.equal(await page.inputValue("#wheel-hub_width"), "wide");
  assert.equal(await page.inputValue("#wheel-rotor_diameter"), "180");
  for (const _ of [1, 2]) await page.locator("#undo").click();
  await untilVerdict(page, "Clears");
});
