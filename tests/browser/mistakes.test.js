// Mistyped values explain themselves beside their field and never cost the last good drawing.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { SCREENS, drawing, launch, named, openSite, row, typeInto, untilVerdict } from "./harness.js";

const ROTOR = "wheel.rotor_diameter";
const MISTAKES = ["abc", "1e999", "", "-5", "99999", "2o3", "NaN", "203 cm", "1,2,3"];
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

/** Everything on the page in words or attributes, what was typed by the test left out. */
async function wordsOfNothing(page, typed) {
  const markup = await page.evaluate(() => document.documentElement.outerHTML);
  const own = typed ? markup.replaceAll(typed, "") : markup;
  return own.match(/\b(NaN|undefined|Infinity|null|\[object Object\])\b/g) ?? [];
}

for (const screen of SCREENS) {
  test(`at ${named(screen)} whatever is typed for a rotor size explains itself and keeps the last good drawing`, async (t) => {
    const { page, complaints } = await openSite(t, browser, { screen });
    const before = await drawing(page, "side");
    for (const typed of MISTAKES) {
      await t.test(`"${typed}"`, async () => {
        await typeInto(page, ROTOR, typed);
        await untilVerdict(page, "Not checked");

        const note = row(page, ROTOR).locator(".field-note");
        assert.ok(await note.isVisible(), "the message stands beside the field");
        assert.match(await note.innerText(), /Rotor size.*90 to 320 mm/);
        const input = page.locator("#wheel-rotor_diameter");
        assert.equal(await input.getAttribute("aria-invalid"), "true");
        assert.equal(await input.getAttribute("aria-describedby"), await note.getAttribute("id"));
        assert.equal(await input.inputValue(), typed, "the text stays as typed");
        assert.equal(await drawing(page, "side"), before, "the last good drawing stays");
        assert.ok(await page.getByText("Last good drawing").isVisible(), "and says what it is");
        assert.deepEqual(await wordsOfNothing(page, typed), []);

        await typeInto(page, ROTOR, "203");
        await untilVerdict(page, "Clears");
        assert.equal(await note.isVisible(), false);
        assert.equal(await input.getAttribute("aria-invalid"), null);
        assert.deepEqual(await wordsOfNothing(page, ""), []);
        assert.deepEqual(complaints, []);
      });
    }
  });
}

test("several mistakes are listed together, each leading to its field", async (t) => {
  const { page } = await openSite(t, browser);
  await typeInto(page, ROTOR, "abc");
  await typeInto(page, "wheel.hub_width", "99999");
  await typeInto(page, "fork.tube_diameter", "thick");
  await page.evaluate(() => document.querySelectorAll("details").forEach((details) => { details.open = false; }));
  const links = page.locator("#problem-list button");
  assert.equal(await links.count(), 3);
  await links.filter({ hasText: /tube/i }).click();
  assert.equal(await page.evaluate(() => document.activeElement.dataset.path), "fork.tube_diameter");
  assert.ok(await page.locator("#fork-tube_diameter").isVisible(), "its group is open");
});

test("a slider moved over an unreadable text takes over again", async (t) => {
  const { page } = await openSite(t, browser);
  await typeInto(page, ROTOR, "abc");
  await untilVerdict(page, "Not checked");
  await page.getByRole("slider", { name: /^Rotor size/ }).press("ArrowRight");
  await untilVerdict(page, "Clears");
  assert.equal(await page.inputValue("#wheel-rotor_diameter"), "204");
});
