// The ring over the side view: its words, and the caliper turned by mouse, finger and keys.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { LACKS, PHONE, SCREENS, launch, named, openSite, typeInto, untilPainted, untilVerdict } from "./harness.js";
import { fingersOn, middleOf } from "./fingers.js";

const CLOCK = "tab.clock";
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

function knob(page) {
  return page.getByRole("slider", { name: "Clock angle of the caliper" });
}

async function clockOf(page) {
  await untilPainted(page);
  const typed = Number(await page.inputValue("#tab-clock"));
  const slider = Number(await page.getByRole("slider", { name: "Clock angle, slider" }).inputValue());
  assert.ok(Math.abs(slider - typed) <= 0.5, `the slider follows to its nearest whole degree: ${slider}`);
  assert.equal(Number(await knob(page).getAttribute("aria-valuenow")), typed, "the knob follows");
  return typed;
}

/** The axle on the screen, and pixels per millimetre, from the drawing itself. */
function placeOf(page) {
  return page.locator(".picture[data-view=side] svg").evaluate((svg) => {
    const { a: scale, e: x, f: y } = svg.getScreenCTM();
    return { scale, x, y };
  });
}

/** A point of the screen at a clock angle on the left side, as far from the axle as `from`. */
function pointAt({ x, y }, from, clock) {
  const distance = Math.hypot(from.x - x, from.y - y);
  const turn = clock * Math.PI / 180;
  return { x: x + distance * Math.sin(turn), y: y - distance * Math.cos(turn) };
}

/** The words on the band, each once. */
async function wordsOf(page) {
  const words = await page.locator(".view-ring .ring-word").allTextContents();
  return [...new Set(words.map((word) => word.trim()))].sort();
}

for (const screen of SCREENS) {
  test(`at ${named(screen)} the band lies on the side view's page and says where the caliper clears`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    const matrixOf = (selector) => page.locator(selector).evaluate((svg) => {
      const { a, d, e, f } = svg.getScreenCTM();
      return [a, d, e, f].map((number) => number.toFixed(2));
    });
    assert.deepEqual(await matrixOf(".view-ring"), await matrixOf(".picture[data-view=side] svg"), "one scale, one place");
    assert.deepEqual(await wordsOf(page), ["clears", "hits"]);
    assert.equal(await page.locator("#window-list li").count(), 2, "one stretch ahead, one behind");
    assert.match(await page.locator("#window-list").innerText(), /to spare/);
    const patterns = await page.evaluate(() => ["clears", "tight", "hits"].map(
      (word) => getComputedStyle(document.querySelector(`.view-ring .ring.${word}`)).strokeDasharray,
    ));
    assert.equal(new Set(patterns).size, 3, `told apart without colour: ${patterns}`);

    await typeInto(page, "wheel.rotor_diameter", "220");
    await typeInto(page, "dropout.thickness", "12");
    await page.locator("#window-list", { hasText: "No clock angle clears" }).waitFor();
    assert.deepEqual(await wordsOf(page), ["hits"]);
    assert.deepEqual(await matrixOf(".view-ring"), await matrixOf(".picture[data-view=side] svg"), "on another page too");
  });

  for (const side of ["left", "right"]) {
    test(`at ${named(screen)}, on the ${side}, the mouse turns the knob to where it points`, async (t) => {
      const { page, complaints } = await openSite(t, browser, { screen });
      if (side === "right") {
        await page.getByRole("radio", { name: "Right" }).check();
        await untilPainted(page);
      }
      const axle = await placeOf(page);
      const from = await middleOf(knob(page));
      const mirrored = side === "right" ? -1 : 1;
      assert.ok(mirrored * (from.x - axle.x) > 0, "behind is on its own side of the page");
      const to = pointAt(axle, from, mirrored * 60);
      await page.mouse.move(from.x, from.y);
      await page.mouse.down();
      await page.mouse.move(to.x, to.y, { steps: 6 });
      await page.mouse.up();
      const clock = await clockOf(page);
      assert.ok(Math.abs(clock - 60) <= 1, `clock angle ${clock}`);
      assert.equal((clock * 2) % 1, 0, "in half degrees");
      const knobNow = await middleOf(knob(page));
      assert.ok(Math.hypot(knobNow.x - to.x, knobNow.y - to.y) < 3, "the knob is under the pointer");
      await page.mouse.move(from.x, from.y);
      assert.equal(await clockOf(page), clock, "let go, it stays");
      assert.deepEqual(complaints, []);
    });
  }

  test(`at ${named(screen)} a finger on the caliper turns it and leaves the page where it is`, { skip: LACKS.touch }, async (t) => {
    const { page } = await openSite(t, browser, { screen, hasTouch: true });
    const axle = await placeOf(page);
    const from = pointAt(axle, await middleOf(page.locator(".picture[data-view=side] .caliper").first()), 28);
    const fingers = await fingersOn(page);
    await fingers.drag([from, pointAt(axle, from, 70)]);
    await fingers.lift();
    const clock = await clockOf(page);
    assert.ok(Math.abs(clock - 70) <= 1, `clock angle ${clock}`);
    assert.equal(await page.evaluate(() => scrollY), 0);
  });

  test(`at ${named(screen)} a touch that is taken away puts the caliper back`, { skip: LACKS.touchCancel }, async (t) => {
    const { page } = await openSite(t, browser, { screen, hasTouch: true });
    const axle = await placeOf(page);
    const from = pointAt(axle, await middleOf(page.locator(".picture[data-view=side] .caliper").first()), 28);
    const fingers = await fingersOn(page);
    await fingers.drag([from, pointAt(axle, from, 120)]);
    assert.notEqual(await clockOf(page), 28);
    await fingers.cancel();
    assert.equal(await clockOf(page), 28);
  });

  test(`at ${named(screen)} keys turn the knob, Home and End to where it starts and stops clearing`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    await knob(page).focus();
    for (const [key, expected] of [["ArrowRight", 29], ["ArrowDown", 28], ["Shift+ArrowUp", 38], ["PageDown", 28], ["PageUp", 38]]) {
      await page.keyboard.press(key);
      assert.equal(await clockOf(page), expected, key);
    }
    await page.keyboard.press("End");
    const end = await clockOf(page);
    await untilVerdict(page, "Clears");
    await page.keyboard.press("ArrowRight");
    await page.locator("#verdict-word", { hasText: /Tight|Hits/ }).waitFor();
    await page.keyboard.press("Home");
    assert.equal(await clockOf(page), end, "back to the same edge");
    assert.match(await knob(page).getAttribute("aria-valuetext"), /°, clears$/);
    const box = await knob(page).boundingBox();
    assert.ok(box.width >= 44 && box.height >= 44);
  });
}

test("the section has no ring over it, and the side view has it again", async (t) => {
  const { page } = await openSite(t, browser, { screen: PHONE });
  await page.getByRole("radio", { name: "Section" }).check();
  await knob(page).waitFor({ state: "hidden" });
  await typeInto(page, "wheel.rotor_diameter", "260");
  await page.getByRole("radio", { name: "Side" }).check();
  await knob(page).waitFor({ state: "visible" });
  await untilPainted(page);
  const axle = await placeOf(page);
  const { x, y } = await middleOf(knob(page));
  const radius = await page.locator(".ring-band").getAttribute("data-radius");
  const turn = 28 * Math.PI / 180;
  const expected = [axle.x + Number(radius) * axle.scale * Math.sin(turn), axle.y - Number(radius) * axle.scale * Math.cos(turn)];
  assert.ok(Math.hypot(x - expected[0], y - expected[1]) < 2, "the knob is on the band at the clock angle");
});

test("a finger beside the caliper scrolls the page", { skip: LACKS.touchScroll }, async (t) => {
  const { page } = await openSite(t, browser, { screen: PHONE, hasTouch: true });
  const { x, y, height } = await page.locator(".picture[data-view=side]").boundingBox();
  const fingers = await fingersOn(page);
  await fingers.drag([{ x: x + 20, y: y + height - 20 }, { x: x + 20, y: y + 10 }]);
  await fingers.lift();
  assert.ok(await page.evaluate(() => scrollY) > 50);
  assert.equal(await clockOf(page), 28);
});

test("a button goes to the best place of its stretch", async (t) => {
  const { page } = await openSite(t, browser, {});
  await page.getByRole("button", { name: /^Go to best, −/ }).click();
  assert.ok(await clockOf(page) < -30);
  await untilVerdict(page, "Clears");
});

test("a refused value leaves the ring of the last good setup, and the knob turns on", async (t) => {
  const { page, complaints } = await openSite(t, browser, {});
  await typeInto(page, CLOCK, "x");
  await untilVerdict(page, "Not checked");
  await knob(page).focus();
  await page.keyboard.press("ArrowRight");
  await untilVerdict(page, "Clears");
  assert.equal(await clockOf(page), 29);
  assert.deepEqual(complaints, []);
});
