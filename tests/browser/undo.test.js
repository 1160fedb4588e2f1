// Every change of the setup can be taken back and done again.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { SCREENS, launch, named, openSite, typeInto, untilPainted, untilVerdict } from "./harness.js";

const ROTOR = "wheel.rotor_diameter";
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

function steps(page) {
  return {
    undo: page.locator("#undo"),
    redo: page.locator("#redo"),
    note: page.locator("#changed"),
  };
}

async function rotorOf(page) {
  await untilPainted(page);
  return page.inputValue("#wheel-rotor_diameter");
}

for (const screen of SCREENS) {
  test(`at ${named(screen)} changes of several fields are taken back one by one, and done again`, async (t) => {
    const { page, complaints } = await openSite(t, browser, { screen });
    const { undo, redo } = steps(page);
    assert.ok(await undo.isDisabled() && await redo.isDisabled());
    await typeInto(page, ROTOR, "180");
    await typeInto(page, "wheel.hub_width", "115");
    await typeInto(page, ROTOR, "160");
    await undo.click();
    assert.equal(await rotorOf(page), "180");
    await undo.click();
    await untilPainted(page);
    assert.equal(await page.inputValue("#wheel-hub_width"), "100");
    await undo.click();
    assert.equal(await rotorOf(page), "203");
    assert.ok(await undo.isDisabled());
    await redo.click();
    assert.equal(await rotorOf(page), "180");
    await typeInto(page, "tab.offset", "1");
    assert.ok(await redo.isDisabled(), "a new change ends what could be done again");
    assert.deepEqual(complaints, []);
  });

  test(`at ${named(screen)} one drag of a slider is one step`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    const slider = page.getByRole("slider", { name: /^Rotor size/ });
    const { x, y, width, height } = await slider.boundingBox();
    await page.mouse.move(x + width * 0.7, y + height / 2);
    await page.mouse.down();
    for (const share of [0.6, 0.5, 0.4, 0.3]) {
      await page.mouse.move(x + width * share, y + height / 2);
      await untilPainted(page);
    }
    await page.mouse.up();
    assert.ok(Number(await rotorOf(page)) < 180);
    await steps(page).undo.click();
    assert.equal(await rotorOf(page), "203");
    assert.ok(await steps(page).undo.isDisabled());
  });
}

test("keys take back and do again, but not inside a text field", async (t) => {
  const { page } = await openSite(t, browser, {});
  await typeInto(page, ROTOR, "180");
  await page.locator("#undo").focus();
  await page.keyboard.press("Control+z");
  assert.equal(await rotorOf(page), "203");
  await page.keyboard.press("Control+Shift+Z");
  assert.equal(await rotorOf(page), "180");
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+y");
  assert.equal(await rotorOf(page), "180");

  const offset = page.locator("#tab-offset");
  await offset.focus();
  await page.keyboard.press("Control+z");
  assert.equal(await rotorOf(page), "180", "the browser's own undo has the key");
});

test("starting again can be taken back", async (t) => {
  const { page } = await openSite(t, browser, {});
  await typeInto(page, ROTOR, "180");
  await page.locator("#start-again").click();
  await page.locator("#start-again").click();
  await untilVerdict(page, "Clears");
  await page.locator("#undo").click();
  await untilVerdict(page, "Hits");
  assert.equal(await rotorOf(page), "180");
});

test("a refused text is taken back like any other", async (t) => {
  const { page } = await openSite(t, browser, {});
  await typeInto(page, ROTOR, "abc");
  await untilVerdict(page, "Not checked");
  await page.locator("#undo").click();
  await untilVerdict(page, "Clears");
  assert.equal(await rotorOf(page), "203");
});
