// Setups as files: saved, opened, dropped, pasted, passed on; what cannot be read is told, and nothing is lost.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { SCREENS, launch, named, openSite, typeInto, untilOffline, untilPainted, untilVerdict } from "./harness.js";
import { buttonOf, chooseFile, closePanel, dropFile, keepAs, more, openPanel, putRecords, rotorOf, savedFile } from "./setups-page.js";

const FIXTURES = new URL("../../fixtures/", import.meta.url);
const ROTOR = "wheel.rotor_diameter";
const SHOUT = "<img src=x onerror=\"document.title='shouted'\"><b>bold</b>";
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

for (const screen of SCREENS) {
  test(`at ${named(screen)} a setup is saved as a file and opened again, with the network gone`, async (t) => {
    const { page, site, complaints } = await openSite(t, browser, { screen });
    await untilOffline(page);
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    await site.stop();
    await typeInto(page, ROTOR, "180");
    await openPanel(page);
    await page.locator("#setups-own-name").fill("Cargo trike");
    await untilPainted(page);
    const file = await savedFile(page, () => buttonOf(page, "Save as a file").click());
    assert.equal(file.name, "tabwright-cargo-trike-180-100.json");
    assert.equal(JSON.parse(file.text).wheel.rotor_diameter, 180);
    assert.match(file.text, /^\{\n {2}"version": 1,\n {2}"name": "Cargo trike",\n/);
    await closePanel(page);

    await typeInto(page, ROTOR, "160");
    await openPanel(page);
    await chooseFile(page, file.name, file.text);
    await page.locator("#panel").waitFor({ state: "hidden" });
    assert.equal(await rotorOf(page), "180");
    assert.match(await page.locator("#changed").innerText(), /Opened “Cargo trike” from “tabwright-cargo-trike-180-100\.json”\./);
    await page.locator("#undo").click();
    assert.equal(await rotorOf(page), "160", "one step back is the setup before");
    assert.deepEqual(complaints, []);
  });

  test(`at ${named(screen)} of a file with faults the rest is taken over, and each fault leads to its field`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    await openPanel(page);
    const text = (await readFile(new URL("broken/out-of-range.json", FIXTURES), "utf8")).replace('"hub_width": 100', '"hub_width": 115');
    await chooseFile(page, "bench.json", text);
    const outcome = page.locator(".setups-outcome");
    await outcome.locator("li").nth(1).waitFor();
    assert.equal(await outcome.locator("li").count(), 2);
    const words = await outcome.innerText();
    assert.match(words, /Rotor size is 2030, above what can be worked out\. Give 90 to 320 mm\. It reads 2030\. The example value stands in its place\./);
    await outcome.getByRole("button", { name: "Go to Rotor size" }).click();
    await page.locator("#panel").waitFor({ state: "hidden" });
    assert.equal(await page.evaluate(() => document.activeElement.dataset.path), ROTOR);
    assert.equal(await page.inputValue("#wheel-hub_width"), "115");
    assert.equal(await rotorOf(page), "203");
    await page.locator("#undo").click();
    await untilPainted(page);
    assert.equal(await page.inputValue("#wheel-hub_width"), "100");
    assert.ok(await page.locator("#undo").isDisabled(), "opening was one step");
  });
}

test("a file dropped anywhere opens, over a panel too, with a sign while it is held over the page", async (t) => {
  const { page, complaints } = await openSite(t, browser);
  const text = (await readFile(new URL("setups/default.json", FIXTURES), "utf8")).replace('"rotor_diameter": 203', '"rotor_diameter": 180');
  const isSigned = () => page.evaluate(() => document.documentElement.classList.contains("dropping")
    && getComputedStyle(document.body, "::after").content.includes("Drop the file"));
  await dropFile(page, "a.json", text, { letGo: false });
  assert.ok(await isSigned());
  await dropFile(page, "a.json", text);
  await page.locator("#changed", { hasText: "Opened" }).waitFor();
  assert.equal(await isSigned(), false);
  assert.equal(await rotorOf(page), "180");
  assert.equal(await page.locator("#panel").isVisible(), false, "there is nothing to say, so no panel opens");

  await page.locator("button[data-panel=bench]").click();
  await page.locator("#panel").waitFor();
  await dropFile(page, "b.json", "not JSON at all");
  const outcome = page.locator(".setups-outcome");
  await outcome.waitFor();
  assert.match(await outcome.innerText(), /Not opened: “b\.json”\s+This is not JSON: line 1 .* Nothing was changed\./);
  assert.equal(await rotorOf(page), "180");
  assert.deepEqual(complaints, []);
});

test("a setup's text pasted on the page opens, but not while something is being typed", async (t) => {
  const { page } = await openSite(t, browser);
  const paste = (selector, text) => page.evaluate(([selector, text]) => {
    const carried = new DataTransfer();
    carried.setData("text/plain", text);
    const event = new Event("paste", { bubbles: true, cancelable: true });
    // Not every browser lets a script make a paste that carries something.
    Object.defineProperty(event, "clipboardData", { value: carried });
    return document.querySelector(selector).dispatchEvent(event);
  }, [selector, text]);
  const text = (await readFile(new URL("setups/default.json", FIXTURES), "utf8")).replace('"rotor_diameter": 203', '"rotor_diameter": 180');
  assert.ok(await paste("#wheel-hub_width", text), "a field takes what is pasted into it");
  assert.ok(await paste("body", "some words"), "other text is no business of the page");
  await untilPainted(page);
  assert.equal(await rotorOf(page), "203");
  await paste("body", text);
  await page.locator("#changed", { hasText: "Opened" }).waitFor();
  assert.equal(await rotorOf(page), "180");
});

test("a file that is no setup, is empty, or is far too long says so and changes nothing", async (t) => {
  const { page, complaints } = await openSite(t, browser);
  await typeInto(page, ROTOR, "180");
  await openPanel(page);
  for (const [text, words] of [["", /nothing in it/], ["[1, 2]", /no setup in it/], ['{"a": 1}', /none of its fields/], ["x".repeat(5_000_000), /limit is 1000 kB/]]) {
    await chooseFile(page, "odd.json", text);
    await page.locator(".setups-outcome", { hasText: words }).waitFor();
  }
  await closePanel(page);
  assert.equal(await rotorOf(page), "180");
  await page.locator("#undo").click();
  assert.equal(await rotorOf(page), "203", "nothing came between");
  assert.deepEqual(complaints, []);
});

test("names of setups, files and fields are text wherever they are shown", async (t) => {
  const { page, complaints } = await openSite(t, browser);
  await openPanel(page);
  await keepAs(page, SHOUT);
  await page.getByLabel("Second setup to compare").selectOption({ index: 2 });
  await page.locator(".setups .pair svg").nth(1).waitFor();
  await chooseFile(page, `${SHOUT.replaceAll("/", "")}.json`, JSON.stringify({ name: SHOUT, [SHOUT]: SHOUT, wheel: { hub_width: SHOUT } }));
  await page.locator(".setups-outcome li").first().waitFor();
  await more(page, "bold", "Delete");
  await page.locator(".setups-status", { hasText: "Deleted" }).waitFor();
  assert.equal(await page.locator("#panel").locator("img, b").count(), 0);
  assert.notEqual(await page.title(), "shouted");
  assert.deepEqual(complaints, []);
});

test("a refused value on the page is neither saved nor kept, and that is said", async (t) => {
  const { page } = await openSite(t, browser);
  await typeInto(page, ROTOR, "180");
  await untilVerdict(page, "Hits");
  await typeInto(page, ROTOR, "abc");
  await openPanel(page);
  assert.match(await page.locator("#panel").innerText(), /last good values.*neither kept nor saved/);
  const { text } = await savedFile(page, () => buttonOf(page, "Save as a file").click());
  assert.equal(JSON.parse(text).wheel.rotor_diameter, 180);
});

test("parts travel in the file when ticked, and are kept beside those of whoever opens it, each once", async (t) => {
  const { page } = await openSite(t, browser);
  await openPanel(page);
  await page.locator(".setups-list").waitFor({ state: "attached" });
  assert.equal(await page.getByText(/^With my parts/).isVisible(), false);
  await closePanel(page);
  const hub = { id: "hub", name: "Hub", changed: 5, kind: "hub", data: { width: 100 } };
  await putRecords(page, "parts", [hub]);
  await openPanel(page);
  await page.getByLabel("With my parts (1)").check();
  const { text } = await savedFile(page, () => buttonOf(page, "Save as a file").click());
  assert.deepEqual(JSON.parse(text).parts, [hub]);

  const other = await openSite(t, browser);
  await openPanel(other.page);
  await chooseFile(other.page, "with-parts.json", text);
  await other.page.locator(".notice", { hasText: "1 part kept with yours." }).waitFor();
  await openPanel(other.page);
  await chooseFile(other.page, "with-parts.json", text);
  await other.page.locator(".notice", { hasText: "1 part you had already." }).waitFor();
  await openPanel(other.page);
  await chooseFile(other.page, "parts.json", JSON.stringify({ parts: [{ ...hub, data: { width: 110 } }, 7, { id: "x" }] }));
  await other.page.locator(".setups-outcome", { hasText: "1 part kept with yours. 2 parts could not be read and were left out." }).waitFor();
  await other.page.getByLabel("With my parts (2)").waitFor();
});

test("the file goes to the share sheet where the browser says that it takes it", async (t) => {
  const { page } = await openSite(t, browser);
  await page.evaluate(() => {
    Object.assign(Navigator.prototype, {
      canShare: ({ files }) => files[0].type === "text/plain",
      share: async ({ files }) => { globalThis.shared = { name: files[0].name, text: await files[0].text() }; },
    });
  });
  await openPanel(page);
  await buttonOf(page, "Share").click();
  await page.locator(".setups-status", { hasText: "Passed on" }).waitFor();
  const { name, text } = await page.evaluate(() => globalThis.shared);
  assert.equal(name, "tabwright-203-100.json.txt");
  assert.equal(JSON.parse(text).version, 1);
});
