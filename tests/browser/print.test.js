// On paper: the setup's name and the day, verdict, both drawings, gaps, holes, notes, the values that differ, the caution.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { DESK, LACKS, PHONE, launch, named, openSite, typeInto, untilPainted, untilVerdict } from "./harness.js";

let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

/** The page as it stands while it is printed; engines without a printer of their own are told the same events. */
async function onPaper(page) {
  await page.waitForFunction(() => {
    dispatchEvent(new Event("beforeprint"));
    return document.querySelector(".sheet");
  });
  await page.emulateMedia({ media: "print" });
  await untilPainted(page);
}

for (const screen of [PHONE, DESK]) {
  test(`at ${named(screen)}, dark, the sheet has all that the bench needs, in ink on white`, { skip: LACKS.media }, async (t) => {
    const { page, complaints } = await openSite(t, browser, { screen, colorScheme: "dark" });
    await typeInto(page, "name", "Bakery trike <b>");
    await typeInto(page, "wheel.hub_width", "115");
    await typeInto(page, "tab.clock", "-30");
    await untilPainted(page);
    const word = await page.locator("#verdict-word").innerText();
    await page.getByRole("button", { name: "Nearer" }).click();
    await onPaper(page);
    const text = await page.locator("#main").innerText();
    assert.equal(await page.locator(".sheet h1").innerText(), "Bakery trike <b>");
    assert.ok(text.includes(String(new Date().getFullYear())));
    assert.match(text, /can injure or kill/);
    assert.equal((await page.locator(".sheet .verdict").innerText()).trim(), word);
    for (const view of ["side", "section"]) assert.ok(await page.locator(`.sheet .view-${view}`).isVisible(), view);
    const box = await page.locator(".sheet .view-side").evaluate((svg) => svg.viewBox.baseVal.width);
    assert.ok(box >= 240, "whole, though the page's own is zoomed");
    for (const part of ["#gap-rows", "#hole-rows", "#notes"]) assert.ok(await page.locator(part).isVisible(), part);
    const rows = await page.locator(".sheet-values tbody tr").allInnerTexts();
    assert.deepEqual(rows.map((row) => row.split("\t").map((cell) => cell.trim())), [
      ["Wheel: Hub width", "115 mm", "100 mm"],
      ["Tab: Clock angle", "\u221230°", "28°"],
    ]);
    const shown = await page.evaluate(() => [".head", ".dock", ".steps", ".stage", "#groups", ".foot", "[data-as=slider]"]
      .filter((part) => document.querySelector(part)?.checkVisibility()));
    assert.deepEqual(shown, []);
    const colours = await page.evaluate(() => {
      const { color } = getComputedStyle(document.querySelector("#gap-rows td"));
      return [color, getComputedStyle(document.documentElement).backgroundColor];
    });
    assert.deepEqual(colours, ["rgb(0, 0, 0)", "rgb(255, 255, 255)"]);
    const ids = await page.evaluate(() => [...document.querySelectorAll("[id]")].map(({ id }) => id).filter((id, index, all) => all.indexOf(id) !== index));
    assert.deepEqual(ids, [], "no two things go by one name");

    await page.evaluate(() => dispatchEvent(new Event("afterprint")));
    assert.equal(await page.locator(".sheet").count(), 0);
    assert.deepEqual(complaints, []);
  });
}

test("with a value refused, the sheet says whose numbers it has; with nothing changed, that all are the example's", async (t) => {
  const { page } = await openSite(t, browser, { screen: PHONE });
  await onPaper(page);
  assert.match(await page.locator(".sheet-values").innerText(), /every value is the example's/);
  await page.emulateMedia({ media: "screen" });
  await typeInto(page, "wheel.rotor_diameter", "180");
  await typeInto(page, "wheel.hub_width", "abc");
  await untilVerdict(page, "Not checked");
  await onPaper(page);
  assert.match(await page.locator(".sheet").first().innerText(), /last good values/);
  assert.equal((await page.locator(".sheet .verdict").innerText()).trim(), "Hits");
});

test("printed, it is a document of a few pages", async (t) => {
  if (browser.browserType().name() !== "chromium") return t.skip("only Chromium prints to a file");
  const { page } = await openSite(t, browser, { screen: PHONE });
  await onPaper(page);
  const pages = (await page.pdf({ format: "A4" })).toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)?.length;
  assert.ok(pages >= 2 && pages <= 3, `${pages} pages`);
});
