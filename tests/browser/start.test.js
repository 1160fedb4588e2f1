// Starting, keeping and losing: the page from a sub-path, offline, after a reload, and without its core.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { PHONE, SCREENS, drawing, launch, named, openSite, serveSite, typeInto, untilAnswered, untilOffline, untilVerdict } from "./harness.js";

const STORAGE_KEY = "tabwright-setup";
const SUB_PATH = "/some/where/";
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

for (const screen of SCREENS) {
  test(`at ${named(screen)} the page loads from a sub-path, draws both views and asks only its own origin`, async (t) => {
    const { page, site, requests, complaints } = await openSite(t, browser, { screen, base: SUB_PATH });
    await untilOffline(page);
    await untilVerdict(page, "Clears");
    assert.match(await drawing(page, "side"), /^<svg[^>]*verdict-clears/);
    if (screen === PHONE) await page.getByRole("radio", { name: "Section" }).check();
    await page.locator(".picture[data-view=section] svg").waitFor({ state: "visible" });
    assert.match(await drawing(page, "section"), /^<svg[^>]*view-section/);

    assert.ok(requests.some((url) => new URL(url).pathname.endsWith(".wasm")), "requests are recorded");
    assert.deepEqual(requests.filter((url) => !url.startsWith(site.url)), [], "requests outside the sub-path");
    assert.deepEqual(complaints, []);
  });

  test(`at ${named(screen)} the page still works after the server is gone`, async (t) => {
    const { page, site, complaints } = await openSite(t, browser, { screen, base: SUB_PATH });
    await untilOffline(page);
    await site.stop();
    await assert.rejects(fetch(site.url), "the server is gone");

    await page.reload();
    await untilAnswered(page);
    await untilVerdict(page, "Clears");
    await typeInto(page, "wheel.rotor_diameter", "180");
    await untilVerdict(page, "Hits");
    assert.deepEqual(complaints, []);
  });
}

test("the page's own policy refuses requests to another origin", async (t) => {
  const { page } = await openSite(t, browser);
  const other = await serveSite();
  t.after(() => other.stop());
  const refusal = page.evaluate(async (url) => {
    const policy = new Promise((resolve) => {
      document.addEventListener("securitypolicyviolation", (event) => resolve(event.effectiveDirective), { once: true });
    });
    await fetch(url).catch(() => {});
    return policy;
  }, other.url);
  assert.equal(await refusal, "connect-src");
});

test("a refused value is kept over a reload with the last good drawing, without a complaint", async (t) => {
  const { page, complaints } = await openSite(t, browser);
  await typeInto(page, "wheel.rotor_diameter", "180");
  await typeInto(page, "wheel.hub_width", "wide");
  await page.reload();
  await untilVerdict(page, "Not checked");
  assert.equal(await page.inputValue("#wheel-hub_width"), "wide");
  assert.match(await drawing(page, "side"), /Rotor, 180\.0 mm/);
  assert.deepEqual(complaints, []);
});

test("a changed rotor is still there after a reload", async (t) => {
  const { page } = await openSite(t, browser);
  await typeInto(page, "wheel.rotor_diameter", "180");
  await untilVerdict(page, "Hits");
  await page.reload();
  await untilVerdict(page, "Hits");
  assert.equal(await page.inputValue("#wheel-rotor_diameter"), "180");
  assert.equal(await page.locator(".notice").count(), 0);
});

for (const kept of ["{broken", "null", "[]", '"text"', '{"setup":{"wheel":7},"goodSetup":{}}', '{"setup":null,"goodSetup":null}']) {
  test(`a kept setup that reads ${kept} gives way to the example values, with a message`, async (t) => {
    const { page, context, site, complaints } = await openSite(t, browser);
    const other = await context.newPage();
    await page.close();
    // A page without scripts of the same origin, so that nothing saves over the broken value.
    await other.goto(`${site.url}icons/icon.svg`, { waitUntil: "commit" });
    await other.evaluate(([key, value]) => localStorage.setItem(key, value), [STORAGE_KEY, kept]);
    await other.goto(site.url);
    await untilVerdict(other, "Clears");
    assert.match(await other.locator(".notice").innerText(), /kept from last time could not be read/);
    assert.equal(await other.inputValue("#wheel-rotor_diameter"), "203");
    assert.deepEqual(complaints, []);
  });
}

for (const screen of SCREENS) {
  test(`at ${named(screen)} a missing core leaves a plain message instead of an empty page`, async (t) => {
    const { page } = await openSite(t, browser, { screen, waits: false, refuses: (path) => path.endsWith(".wasm") });
    const message = page.getByText("The geometry could not be started");
    await message.waitFor({ state: "visible" });
    assert.match(await message.innerText(), /Load the page again/);
    assert.equal(await page.locator("#main").isVisible(), false);
    await page.getByRole("button", { name: "Safety", exact: true }).click();
    assert.ok(await page.getByRole("dialog").isVisible(), "the safety notice is reachable");
    await page.getByText("Not ready to work offline").waitFor();
  });
}
