// What is kept for work offline is one version, whole and right, whatever the host does; a newer one comes at a tap.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { LACKS, DESK, launch, openSearch, untilAnswered, untilOffline, untilVerdict } from "./harness.js";
import { BUILT_SITE, buildVersion, startHost } from "./host.js";

const CORE = "/pkg/tabwright_start_bg.wasm";
const NEW_TITLE = "The next version";
const FOR_A_YEAR = { "Cache-Control": "max-age=31536000" };
const NEVER = { "Cache-Control": "no-store" };
/** All of a version's folder is built once for the whole file. */
const closing = [];
let browser;
let next;

before(async () => {
  browser = await launch();
  next = buildVersion({ after: (work) => closing.push(work) }, { title: NEW_TITLE, hasNewCore: true });
});
after(async () => {
  await browser.close();
  for (const close of closing) close();
});

async function visit(t, host) {
  const context = await browser.newContext({ viewport: DESK, reducedMotion: "reduce" });
  t.after(() => context.close());
  context.setDefaultTimeout(10_000);
  const page = await openWindow(context, host);
  return { context, page };
}

async function openWindow(context, host) {
  const page = await context.newPage();
  await page.goto(host.url);
  await untilAnswered(page);
  return page;
}

const updateButton = (page) => page.getByRole("button", { name: "Update", exact: true });

/** Has the browser look for a newer version and waits until that is installed or given up. Returns how it ended. */
function lookForUpdate(page) {
  return page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    const found = new Promise((resolve) => registration.addEventListener("updatefound", resolve, { once: true }));
    await registration.update();
    await found;
    const worker = registration.installing ?? registration.waiting;
    while (worker.state === "installing") await new Promise((resolve) => setTimeout(resolve, 20));
    return worker.state;
  });
}

async function assertWorksOffline(page, host, title) {
  host.isDown = true;
  await page.reload();
  await untilAnswered(page);
  await untilVerdict(page, "Clears");
  assert.match(await page.title(), title);
  host.isDown = false;
}

for (const [name, headers] of [["for a year", FOR_A_YEAR], ["not at all", NEVER]]) {
  test(`where the host lets files be kept ${name}, a new version is offered and takes over at the tap, whole`, async (t) => {
    const host = await startHost(t, BUILT_SITE, headers);
    const { page } = await visit(t, host);
    await untilOffline(page);
    host.folder = next;
    assert.equal(await lookForUpdate(page), "installed");
    await page.reload();
    await updateButton(page).waitFor();
    assert.match(await page.title(), /^Tabwright/, "not before the tap, even after a reload");
    await updateButton(page).click();
    await page.waitForFunction((title) => document.title === title, NEW_TITLE);
    await untilAnswered(page);
    assert.equal(await updateButton(page).isVisible(), false);
    const core = await page.evaluate(async () => {
      const address = document.querySelector("link[rel=preload]").href;
      return (await (await fetch(address)).arrayBuffer()).byteLength;
    });
    assert.equal(core, readFileSync(join(next, CORE)).length, "the core is the new one");
    await assertWorksOffline(page, host, new RegExp(NEW_TITLE));
  });
}

const startPage = readFileSync(join(BUILT_SITE, "index.html"));
const BREAKS = {
  "with a file missing": (path, response) => path === CORE && Boolean(response.writeHead(404).end()),
  "with its core cut short": (path, response) => {
    if (path !== CORE) return false;
    const core = readFileSync(join(next, CORE));
    response.writeHead(200, { "Content-Type": "application/wasm", "Content-Length": core.length });
    response.write(core.subarray(0, core.length / 2), () => response.destroy());
    return true;
  },
  "with its core cut short and no word of it": (path, response) => {
    if (path !== CORE) return false;
    const core = readFileSync(join(next, CORE));
    response.writeHead(200, { "Content-Type": "application/wasm" }).end(core.subarray(0, core.length / 2));
    return true;
  },
  "with the core of another version": (path, response) => {
    if (path !== CORE) return false;
    response.writeHead(200, { "Content-Type": "application/wasm" }).end(readFileSync(join(BUILT_SITE, CORE)));
    return true;
  },
  "with the start page in the place of the core": (path, response) => (
    path === CORE && Boolean(response.writeHead(200, { "Content-Type": "text/html" }).end(startPage))
  ),
};

for (const [name, breaks] of Object.entries(BREAKS)) {
  test(`an update ${name} never takes over, and a good one afterwards does at the tap`, async (t) => {
    const host = await startHost(t, BUILT_SITE);
    const { page } = await visit(t, host);
    await untilOffline(page);
    host.folder = next;
    host.breaks = breaks;
    assert.equal(await lookForUpdate(page), "redundant");
    await page.reload();
    await untilOffline(page);
    assert.equal(await updateButton(page).isVisible(), false);
    await assertWorksOffline(page, host, /^Tabwright/);

    host.breaks = () => false;
    assert.equal(await lookForUpdate(page), "installed");
    await updateButton(page).click();
    await page.waitForFunction((title) => document.title === title, NEW_TITLE);
    await assertWorksOffline(page, host, new RegExp(NEW_TITLE));
  });
}

test("a host that answers every missing file with its start page spoils nothing that is kept", async (t) => {
  const host = await startHost(t, BUILT_SITE);
  host.breaks = (path, response) => (
    path.endsWith("panels.css") && Boolean(response.writeHead(200, { "Content-Type": "text/html" }).end(startPage))
  );
  const { page } = await visit(t, host);
  await page.getByText("Not ready to work offline").waitFor();
  assert.deepEqual(await page.evaluate(() => caches.keys()), [], "nothing half kept");
  host.breaks = () => false;
  await page.reload();
  await untilOffline(page);
});

test("with two windows open, the tap in one leaves the other as it is, whole, until its own tap", { skip: LACKS.workers }, async (t) => {
  const host = await startHost(t, BUILT_SITE);
  const { context, page } = await visit(t, host);
  await untilOffline(page);
  const other = await openWindow(context, host);
  host.folder = next;
  assert.equal(await lookForUpdate(page), "installed");
  await updateButton(page).click();
  await page.waitForFunction((title) => document.title === title, NEW_TITLE);
  await untilAnswered(page);

  host.isDown = true;
  assert.match(await other.title(), /^Tabwright/);
  // Neither the panel nor the search worker has been loaded in this window yet.
  const cores = other.waitForEvent("worker").then((worker) => worker.url());
  await openSearch(other, "shortest");
  await other.locator("#shortest").getByText(/mm/).first().waitFor();
  const version = (address) => new URL(address).searchParams.get("v");
  assert.equal(version(await cores), version(await other.locator("script[src]").evaluate((script) => script.src)));
  await other.getByRole("button", { name: "Setups", exact: true }).click();
  await other.getByRole("dialog", { name: "Setups" }).waitFor();
  await other.keyboard.press("Escape");

  await updateButton(other).click();
  await other.waitForFunction((title) => document.title === title, NEW_TITLE);
  await untilAnswered(other);
});

test("closing every window does not bring a new version: it still waits for the tap", { skip: LACKS.lastWindow }, async (t) => {
  const host = await startHost(t, BUILT_SITE);
  const { context, page } = await visit(t, host);
  await untilOffline(page);
  host.folder = next;
  assert.equal(await lookForUpdate(page), "installed");
  const blank = await context.newPage();
  await page.close();
  // Without a window of the page, the new worker becomes the active one.
  await blank.waitForTimeout(500);
  const again = await openWindow(context, host);
  await again.waitForFunction(async () => !(await navigator.serviceWorker.ready).waiting);
  assert.match(await again.title(), /^Tabwright/);
  await updateButton(again).waitFor();
  await assertWorksOffline(again, host, /^Tabwright/);
  await updateButton(again).click();
  await again.waitForFunction((title) => document.title === title, NEW_TITLE);
  await untilAnswered(again);
  await assertWorksOffline(again, host, new RegExp(NEW_TITLE));
  assert.equal(await updateButton(again).isVisible(), false);
});

test("the start page asks at once, and once, for all that the first verdict needs", { timeout: 30_000, skip: LACKS.keptFiles }, async (t) => {
  const host = await startHost(t, BUILT_SITE, NEVER);
  let release;
  const held = new Promise((resolve) => { release = resolve; });
  host.breaks = (path, response) => {
    if (path !== "/js/main.js") return false;
    held.then(() => response.writeHead(200, { "Content-Type": "text/javascript" }).end(readFileSync(join(BUILT_SITE, path))));
    return true;
  };
  const context = await browser.newContext();
  t.after(() => context.close());
  const page = await context.newPage();
  await page.goto(host.url, { waitUntil: "commit" });
  const isAsked = (path) => host.asked.includes(path);
  while (![CORE, "/pkg/tabwright_start.js", "/css/page.css"].every(isAsked)) await new Promise((resolve) => setTimeout(resolve, 20));
  release();
  await untilAnswered(page);
  const started = host.asked.slice(0, host.asked.indexOf("/sw.js") + 1 || undefined);
  // The icon is asked for by the browser's own window too.
  const before = started.filter((path) => !path.startsWith("/icons/"));
  assert.deepEqual(before, [...new Set(before)], "nothing twice");
});

test("after the first visit a panel opens with the host gone, without a reload", async (t) => {
  const host = await startHost(t, BUILT_SITE);
  const { page } = await visit(t, host);
  await untilOffline(page);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  host.isDown = true;
  await page.getByRole("button", { name: "Measure", exact: true }).click();
  await page.getByRole("dialog").waitFor();
});

test("the core travels once on the first visit, and not again with a version that has the same", { skip: LACKS.keptFiles }, async (t) => {
  const sameCore = buildVersion(t, { title: NEW_TITLE });
  const host = await startHost(t, BUILT_SITE, FOR_A_YEAR);
  const { page } = await visit(t, host);
  await untilOffline(page);
  const times = () => host.asked.filter((path) => path === CORE).length;
  assert.equal(times(), 1);
  assert.deepEqual(host.asked.filter((path) => path.startsWith("/component/")), []);
  host.folder = sameCore;
  assert.equal(await lookForUpdate(page), "installed");
  assert.equal(times(), 1);
});

test("nothing is kept for later before the first verdict stands", async (t) => {
  const host = await startHost(t, BUILT_SITE);
  let release;
  const held = new Promise((resolve) => { release = resolve; });
  host.breaks = (path, response) => {
    if (path !== CORE || !release) return false;
    held.then(() => response.writeHead(200, { "Content-Type": "application/wasm" }).end(readFileSync(join(BUILT_SITE, CORE))));
    return true;
  };
  const context = await browser.newContext();
  t.after(() => context.close());
  const page = await context.newPage();
  await page.goto(host.url, { waitUntil: "commit" });
  await page.waitForFunction(() => document.querySelector("link[rel=modulepreload]"));
  await page.waitForTimeout(500);
  assert.ok(host.asked.includes(CORE), "the core is asked for by then");
  assert.ok(!host.asked.includes("/sw.js"));
  release();
  release = undefined;
  await untilOffline(page);
});
