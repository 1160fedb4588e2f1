// Setups as files and by name: saved, opened, dropped, pasted, kept, compared; and what is on the page outlives it.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { PHONE, SCREENS, launch, named, openAllDetails, openSite, typeInto, untilAnswered, untilOffline, untilPainted, untilVerdict } from "./harness.js";

const AXE = await readFile(new URL(import.meta.resolve("axe-core/axe.min.js")), "utf8");
const FIXTURES = new URL("../../fixtures/", import.meta.url);
const ROTOR = "wheel.rotor_diameter";
const STORAGE_KEY = "tabwright-setup";
const SHOUT = "<img src=x onerror=\"document.title='shouted'\"><b>bold</b>";
const WIDTHS = [320, 360, 844, 1280];
/** Common practice for targets that thumbs and gloves have to hit; less by a rounding. */
const TARGET_PX = 44 - 0.01;
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

async function openPanel(page) {
  await page.locator("button[data-panel=setups]").click();
  await page.locator("#panel .setups").waitFor();
}

async function closePanel(page) {
  await page.locator(".panel-head").getByRole("button", { name: "Close" }).click();
  await page.locator("#panel").waitFor({ state: "hidden" });
}

function buttonOf(page, name) {
  return page.locator("#panel").getByRole("button", { name, exact: true });
}

/** Keeps the setup at hand under a name; the panel stays open. */
async function keepAs(page, name) {
  await page.locator("#setups-own-name").fill(name);
  await untilPainted(page);
  await buttonOf(page, "Keep here").click();
  await page.locator(".setups-status", { hasText: "Kept: " }).waitFor();
}

/** One button of those behind "More" of a kept setup. */
async function more(page, name, words) {
  const item = page.locator(".setups-item", { hasText: name });
  if (!await item.locator("details").evaluate((fold) => fold.open)) await item.locator("summary").click();
  await item.getByRole("button", { name: new RegExp(`^${words}`) }).click();
}

function names(page) {
  return page.locator(".setups-name").allInnerTexts();
}

async function savedFile(page, click) {
  const [download] = await Promise.all([page.waitForEvent("download"), click()]);
  return { name: download.suggestedFilename(), text: await readFile(await download.path(), "utf8") };
}

async function chooseFile(page, name, text) {
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), buttonOf(page, "Open a file").click()]);
  await chooser.setFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
}

async function rotorOf(page) {
  await untilPainted(page);
  return page.inputValue("#wheel-rotor_diameter");
}

/** A file from outside, in one go, as a hand would drop it: over the page, then let go. */
async function dropFile(page, name, text, { letGo = true } = {}) {
  await page.evaluate(([name, text, letGo]) => {
    const carried = new DataTransfer();
    carried.items.add(new File([text], name, { type: "application/json" }));
    const target = document.querySelector("dialog[open]") ?? document.body;
    for (const type of letGo ? ["dragover", "drop"] : ["dragover"]) {
      target.dispatchEvent(new DragEvent(type, { bubbles: true, cancelable: true, dataTransfer: carried }));
    }
  }, [name, text, letGo]);
}

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

  test(`at ${named(screen)} setups are kept by name, opened, renamed, replaced, deleted, and each of it taken back`, async (t) => {
    const { page, complaints } = await openSite(t, browser, { screen });
    await openPanel(page);
    await page.locator("#panel").getByText("None yet.").waitFor();
    await keepAs(page, "First");
    await closePanel(page);
    await typeInto(page, ROTOR, "180");
    await openPanel(page);
    await keepAs(page, "Second");
    await page.locator(".setups-item").nth(1).waitFor();
    assert.deepEqual(await names(page), ["First", "Second"]);
    const items = await page.locator(".setups-item").allInnerTexts();
    assert.match(items[0], /Clears: rotor 203\.0 mm on hub 100\.0 mm, left/);
    assert.match(items[1], /Hits: rotor 180\.0 mm on hub 100\.0 mm, left/);

    await more(page, "Second", "Rename");
    await page.locator(".setups-rename input").fill("Third");
    await page.keyboard.press("Enter");
    await page.locator(".setups-name", { hasText: "Third" }).waitFor();
    assert.ok(await page.locator("#panel").isVisible(), "the panel stays open");
    await more(page, "First", "Replace");
    await page.locator(".setups-status", { hasText: "“First” is now the setup at hand." }).waitFor();
    assert.match(await page.locator(".setups-item", { hasText: "First" }).innerText(), /180\.0 mm/);
    await buttonOf(page, "Undo").click();
    await page.locator(".setups-item", { hasText: "First" }).getByText(/203\.0 mm/).waitFor();

    await more(page, "Third", "Delete");
    await page.locator(".setups-status", { hasText: "Deleted: “Third”." }).waitFor();
    assert.deepEqual(await names(page), ["First"]);
    await buttonOf(page, "Undo").click();
    await page.locator(".setups-name", { hasText: "Third" }).waitFor();

    await page.reload();
    await untilAnswered(page);
    await openPanel(page);
    await page.locator(".setups-item", { hasText: "First" }).getByRole("button", { name: "Open: First" }).click();
    await page.locator("#panel").waitFor({ state: "hidden" });
    assert.equal(await rotorOf(page), "203");
    await untilVerdict(page, "Clears");
    assert.deepEqual(complaints, []);
  });

  test(`at ${named(screen)} two setups are compared in pictures and words`, async (t) => {
    const { page, complaints } = await openSite(t, browser, { screen });
    await openPanel(page);
    await keepAs(page, "Large");
    await closePanel(page);
    await typeInto(page, ROTOR, "180");
    await openPanel(page);
    await page.locator(".setups-item").first().waitFor();
    await page.getByLabel("Second setup to compare").selectOption({ label: "Large" });
    const pictures = page.locator(".setups .pair figure");
    await pictures.nth(1).locator("svg").waitFor();
    assert.deepEqual(await pictures.locator("figcaption").allInnerTexts(), ["At hand", "Large"]);
    assert.match(await pictures.nth(0).innerHTML(), /verdict-hits/);
    assert.match(await pictures.nth(1).innerHTML(), /verdict-clears/);
    const sentences = await page.locator(".setups .sentences").innerText();
    assert.match(sentences, /hits\. Closest to its limit/i);
    const ids = await page.evaluate(() => [...document.querySelectorAll("[id]")].map(({ id }) => id));
    assert.equal(new Set(ids).size, ids.length, "no id stands twice");
    assert.deepEqual(complaints, []);
  });

  for (const colorScheme of ["light", "dark"]) {
    test(`at ${named(screen)}, ${colorScheme}, axe-core finds nothing serious in the panel`, async (t) => {
      const { page } = await openSite(t, browser, { screen, colorScheme });
      await openPanel(page);
      await keepAs(page, "One");
      await page.locator("#setups-text").evaluate((area) => { area.closest("details").open = true; });
      await page.locator("#setups-text").fill('{"wheel": {"hub_width": "wide"}}');
      await buttonOf(page, "Open this text").click();
      await page.locator(".setups-outcome li").first().waitFor();
      await page.locator(".setups-item summary").click();
      await page.getByLabel("Second setup to compare").selectOption({ label: "One" });
      await page.locator(".setups .pair svg").nth(1).waitFor();
      await more(page, "One", "Rename");
      await page.evaluate(AXE);
      const { violations } = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ["violations"] }));
      const serious = violations.filter(({ impact }) => impact === "serious" || impact === "critical");
      assert.deepEqual(serious.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(" ")).join(", ")}`), []);
    });
  }
}

test("at any width nothing in the panel scrolls sideways, and every target is at least 44 px wide and high", async (t) => {
  const { page } = await openSite(t, browser, { screen: PHONE });
  await openPanel(page);
  await keepAs(page, "W".repeat(80));
  await openAllDetails(page);
  await page.locator("#setups-text").fill('{"wheel": {"hub_width": "wide"}}');
  await buttonOf(page, "Open this text").click();
  await page.locator(".setups-outcome li").first().waitFor();
  for (const width of WIDTHS) {
    await page.setViewportSize({ width, height: 640 });
    await untilPainted(page);
    const { content, view, small } = await page.evaluate((least) => {
      const body = document.querySelector("#panel-body");
      const targets = [...document.querySelectorAll("#panel :is(button, input, select, textarea, summary)")];
      const small = targets.filter((target) => target.checkVisibility()).map((target) => {
        const { width, height } = (target.closest("label.setups-tick") ?? target).getBoundingClientRect();
        return { name: target.id || target.ariaLabel || target.textContent, width, height };
      }).filter(({ width, height }) => width < least || height < least);
      return { content: body.scrollWidth, view: body.clientWidth, small };
    }, TARGET_PX);
    assert.ok(content <= view, `${content} px of content in ${view} px at ${width}`);
    assert.deepEqual(small, []);
  }
});

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

/** Puts records into the browser's store behind the page's back. */
function putRecords(page, store, records) {
  return page.evaluate(([store, records]) => new Promise((resolve, reject) => {
    const request = indexedDB.open("tabwright");
    request.onerror = () => reject(request.error);
    request.onsuccess = () => {
      const change = request.result.transaction(store, "readwrite");
      for (const record of records) change.objectStore(store).put(record);
      change.oncomplete = () => resolve(request.result.close());
    };
  }), [store, records]);
}

test("a damaged record is shown as such, can be saved and deleted, and breaks no list", async (t) => {
  const { page, complaints } = await openSite(t, browser);
  await openPanel(page);
  await keepAs(page, "Sound");
  await closePanel(page);
  await putRecords(page, "setups", [
    { id: "a", name: 7, changed: 1, data: {} },
    { id: "b", name: "Half", changed: 1, data: { wheel: { rotor_diameter: 180 } } },
    { id: "c", name: "No date", changed: "never", data: null },
    { id: "d" },
  ]);
  await openPanel(page);
  await page.locator(".setups-item").nth(4).waitFor();
  assert.equal(await page.locator(".setups-item", { hasText: "Damaged" }).count(), 3);
  assert.match(await page.locator(".setups-item", { hasText: "Half" }).innerText(), /Incomplete: /);
  await page.locator(".setups-item", { hasText: "No date" }).locator("summary").click();
  const raw = await savedFile(page, () => page.locator(".setups-item", { hasText: "No date" }).getByRole("button", { name: /^Save file/ }).click());
  assert.deepEqual(JSON.parse(raw.text), { id: "c", name: "No date", changed: "never", data: null });
  await more(page, "No date", "Delete");
  await page.locator(".setups-status", { hasText: "Deleted: “No date”." }).waitFor();
  assert.equal(await page.locator(".setups-item").count(), 4);
  await page.locator(".setups-item", { hasText: "Half" }).getByRole("button", { name: "Open: Half" }).click();
  await page.locator(".setups-outcome li").first().waitFor();
  await closePanel(page);
  assert.equal(await rotorOf(page), "180", "what can be read of it is taken over");
  assert.deepEqual(complaints, []);
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

test("where the browser keeps nothing or has no room, that is said and the page works on", async (t) => {
  const { page, complaints } = await openSite(t, browser, { waits: false });
  await page.addInitScript(() => {
    const { open } = IDBFactory.prototype;
    IDBFactory.prototype.open = function refused(...given) {
      if (sessionStorage.getItem("room") === "none") throw new DOMException("no", "SecurityError");
      return open.apply(this, given);
    };
    const { put } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.put = function full(...given) {
      if (sessionStorage.getItem("room") === "full") throw new DOMException("full", "QuotaExceededError");
      return put.apply(this, given);
    };
  });
  await page.reload();
  await untilAnswered(page);
  await openPanel(page);
  await page.evaluate(() => sessionStorage.setItem("room", "full"));
  await buttonOf(page, "Keep here").click();
  await page.locator(".setups-status", { hasText: "no room left" }).waitFor();
  await page.evaluate(() => sessionStorage.setItem("room", "none"));
  await page.reload();
  await untilAnswered(page);
  await openPanel(page);
  await page.locator("#panel").getByText(/does not let the page keep anything here/).waitFor();
  await buttonOf(page, "Keep here").click();
  await page.locator(".setups-status", { hasText: "does not let the page keep anything here" }).waitFor();
  const { text } = await savedFile(page, () => buttonOf(page, "Save as a file").click());
  assert.equal(JSON.parse(text).version, 1);
  await closePanel(page);
  await typeInto(page, ROTOR, "180");
  await untilVerdict(page, "Hits");
  assert.deepEqual(complaints, []);
});

test("the list follows what another window keeps and deletes", async (t) => {
  const { page, context, site } = await openSite(t, browser);
  const other = await context.newPage();
  await other.goto(site.url);
  await untilAnswered(other);
  await openPanel(page);
  await openPanel(other);
  await keepAs(other, "From the other");
  await page.locator(".setups-name", { hasText: "From the other" }).waitFor();
  await more(page, "From the other", "Delete");
  await other.locator(".setups-name").waitFor({ state: "detached" });
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

test("what can be taken back and done again outlives a reload", async (t) => {
  const { page } = await openSite(t, browser);
  await typeInto(page, ROTOR, "180");
  await typeInto(page, "wheel.hub_width", "115");
  await typeInto(page, ROTOR, "abc");
  await page.locator("#undo").click();
  await untilPainted(page);
  await page.reload();
  await untilAnswered(page);
  await page.locator("#redo").click();
  assert.equal(await rotorOf(page), "abc");
  for (const _ of [1, 2]) await page.locator("#undo").click();
  await untilPainted(page);
  assert.equal(await page.inputValue("#wheel-hub_width"), "100");
  await page.locator("#undo").click();
  assert.equal(await rotorOf(page), "203");
  assert.ok(await page.locator("#undo").isDisabled());
});

for (const steps of ['"text"', "[7]", '[[["wheel.hub_width",{}]]]', '[[["__proto__",1]]]', '[[["wheel.hub_width",115]],[["nothing",1]]]', "null"]) {
  test(`steps kept from last time that read ${steps} cost neither the setup nor the page`, async (t) => {
    const { page, context, site, complaints } = await openSite(t, browser);
    await typeInto(page, ROTOR, "180");
    const other = await context.newPage();
    await page.close();
    await other.goto(`${site.url}icons/icon.svg`);
    await other.evaluate(([key, steps]) => {
      localStorage.setItem(key, JSON.stringify({ ...JSON.parse(localStorage.getItem(key)), past: JSON.parse(steps), future: JSON.parse(steps) }));
    }, [STORAGE_KEY, steps]);
    await other.goto(site.url);
    await untilAnswered(other);
    assert.equal(await rotorOf(other), "180");
    const isUsable = steps.includes("115");
    assert.equal(await other.locator("#undo").isDisabled(), !isUsable);
    if (isUsable) {
      await other.locator("#undo").click();
      await untilPainted(other);
      assert.equal(await other.inputValue("#wheel-hub_width"), "115");
      assert.ok(await other.locator("#undo").isDisabled());
    }
    assert.deepEqual(complaints, []);
  });
}

test("while a value goes on changing it is kept again and again, not only once it rests", async (t) => {
  const { page } = await openSite(t, browser);
  await page.clock.install();
  await page.reload();
  await untilAnswered(page);
  // From here time stands still but for what the test lets pass.
  await page.clock.pauseAt(await page.evaluate(() => Date.now() + 60_000));
  const kept = () => page.evaluate((key) => JSON.parse(localStorage.getItem(key) ?? "null")?.setup.wheel.rotor_diameter, STORAGE_KEY);
  for (let size = 204; size <= 213; size++) {
    await page.locator("#wheel-rotor_diameter").fill(String(size));
    await page.clock.runFor(100);
  }
  const last = await kept();
  assert.ok(last >= 210 && last <= 213, `${last} is kept of 213`);
});

test("lists of rotors and hubs and the rules ticked outlive a reload; nonsense in their place does not", async (t) => {
  const { page, complaints } = await openSite(t, browser);
  await openAllDetails(page);
  await page.locator("#rotor-list-input").fill("160, 180");
  await page.locator("#hub-list-input").fill("110");
  await page.locator("#rule-wheel").uncheck();
  await page.reload();
  await untilAnswered(page);
  assert.equal(await page.inputValue("#rotor-list-input"), "160, 180");
  assert.equal(await page.inputValue("#hub-list-input"), "110");
  assert.equal(await page.locator("#rule-wheel").isChecked(), false);
  assert.equal(await page.locator("#rule-line").isChecked(), true);
  for (const kept of ["{", "null", "7", '{"rotors":[],"hubs":"x","lineUp":3}', '{"rotors":[1e9],"hubs":[200,100]}', '{"rotors":[1,2,3,4,5,6,7,8,9],"hubs":[null]}']) {
    await page.evaluate((text) => localStorage.setItem("tabwright-options", text), kept);
    await page.reload();
    await untilAnswered(page);
    assert.equal(await page.inputValue("#rotor-list-input"), "140, 160, 180, 203, 220", kept);
    assert.equal(await page.inputValue("#hub-list-input"), "100, 110, 115, 135", kept);
    assert.ok(await page.locator("#rule-line").isChecked() && await page.locator("#rule-wheel").isChecked(), kept);
  }
  assert.deepEqual(complaints, []);
});
