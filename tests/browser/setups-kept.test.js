// Setups kept in the browser by name: opened, renamed, replaced, deleted, compared; and what a damaged store does.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { seriousFindings } from "./findings.js";
import { PHONE, SCREENS, launch, named, openAllDetails, openSite, typeInto, untilAnswered, untilPainted, untilVerdict } from "./harness.js";
import { buttonOf, closePanel, keepAs, more, names, openPanel, putRecords, rotorOf, savedFile } from "./setups-page.js";

const ROTOR = "wheel.rotor_diameter";
const WIDTHS = [320, 360, 844, 1280];
/** Common practice for targets that thumbs and gloves have to hit; less by a rounding. */
const TARGET_PX = 44 - 0.01;
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

for (const screen of SCREENS) {
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
      assert.deepEqual(await seriousFindings(page), []);
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

test("where the browser keeps nothing or has no room, that is said and the page works on", async (t) => {
  const { page, complaints } = await openSite(t, browser);
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
