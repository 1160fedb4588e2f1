// Sliders under greasy fingers: they move only when meant, step while held, and numbers get their sign without a minus key.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { fingersOn, middleOf, withoutFingers } from "./fingers.js";
import { LACKS, PHONE, inputOf, launch, openSite, untilPainted } from "./harness.js";

let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

async function openOnPhone(t) {
  if (withoutFingers(browser)) return t.skip(withoutFingers(browser));
  const opened = await openSite(t, browser, { screen: PHONE, hasTouch: true });
  const slider = opened.page.getByRole("slider", { name: /^Rotor size/ });
  const { x, y, width, height } = await slider.boundingBox();
  /** Every value that the field of the rotor has had. */
  await opened.page.evaluate(() => {
    window.edits = [];
    document.addEventListener("edit", (event) => window.edits.push(event.detail.value));
  });
  return {
    ...opened,
    fingers: await fingersOn(opened.page),
    at: (share, down = 0) => ({ x: x + 16 + share * (width - 32), y: y + height / 2 + down }),
    knob: (203 - 139) / (230 - 139),
    edits: () => opened.page.evaluate(() => window.edits),
    rotor: async () => {
      await untilPainted(opened.page);
      return Number(await opened.page.inputValue("#wheel-rotor_diameter"));
    },
  };
}

for (const place of ["track", "knob"]) {
  test(`a finger that comes down on a slider's ${place} and scrolls the page changes nothing, not even for a moment`, { skip: LACKS.touchScroll }, async (t) => {
    const open = await openOnPhone(t);
    if (!open) return;
    const share = place === "knob" ? open.knob : 0.2;
    await open.fingers.drag([open.at(share), { ...open.at(share, -300), x: open.at(share).x + 12 }]);
    await open.fingers.lift();
    assert.ok(await open.page.evaluate(() => scrollY) > 100, "the page has scrolled");
    assert.equal(await open.rotor(), 203);
    assert.deepEqual(await open.edits(), []);
    assert.ok(await open.page.locator("#undo").isDisabled());
  });
}

test("a finger that goes sideways anywhere on the track takes the knob along from where it stood, in one step", async (t) => {
  const open = await openOnPhone(t);
  if (!open) return;
  await open.fingers.drag([open.at(0.2), open.at(0.1)]);
  await open.fingers.lift();
  const rotor = await open.rotor();
  assert.ok(rotor < 203 && rotor > 203 - 0.1 * 91 - 3, `from 203 a tenth of the track less, not to the finger: ${rotor}`);
  assert.ok((await open.edits()).every((value) => value > 180), "it never jumped");
  assert.equal(await open.page.evaluate(() => scrollY), 0);
  await open.page.locator("#undo").tap();
  assert.equal(await open.rotor(), 203);
  assert.ok(await open.page.locator("#undo").isDisabled(), "all of it was one step");
});

test("a tap on a usual size goes there, and a long press does not", async (t) => {
  const open = await openOnPhone(t);
  if (!open) return;
  const mark = (160 - 139) / (230 - 139) + 0.01;
  await open.fingers.put(open.at(mark));
  await open.page.waitForTimeout(700);
  await open.fingers.lift();
  assert.equal(await open.rotor(), 203);
  await open.fingers.tap(open.at(mark, 20));
  assert.equal(await open.rotor(), 160);
});

test("a step button repeats while it is held, which is one step to take back, and a tap is one", async (t) => {
  const { page } = await openSite(t, browser, { screen: PHONE });
  const more = page.getByRole("button", { name: "Rotor size: more" });
  const value = () => page.inputValue("#wheel-rotor_diameter").then(Number);
  await page.evaluate(() => {
    window.edits = 0;
    document.addEventListener("edit", () => { window.edits += 1; });
    addEventListener("click", () => { window.editsBefore = window.edits; }, true);
  });
  const { x, y } = await middleOf(more);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.waitForFunction(() => Number(document.querySelector("#wheel-rotor_diameter").value) >= 207);
  await page.mouse.up();
  await untilPainted(page);
  assert.ok(await page.evaluate(() => window.edits === window.editsBefore), "the click at the end is none of its steps");
  const reached = await value();
  await page.waitForTimeout(300);
  assert.equal(await value(), reached, "let go, it stays");
  await page.locator("#undo").click();
  await untilPainted(page);
  assert.equal(await value(), 203);
  assert.ok(await page.locator("#undo").isDisabled());
  await more.click();
  await untilPainted(page);
  assert.equal(await value(), 204);
  await more.press("Enter");
  await untilPainted(page);
  assert.equal(await value(), 205);
});

test("a finger that scrolls away from a step button neither steps nor repeats", { skip: LACKS.touchScroll }, async (t) => {
  const open = await openOnPhone(t);
  if (!open) return;
  const from = await middleOf(open.page.getByRole("button", { name: "Hub width: more" }));
  await open.fingers.drag([from, { x: from.x, y: from.y - 250 }]);
  await open.page.waitForTimeout(700);
  await open.fingers.lift();
  assert.deepEqual(await open.edits(), []);
});

test("taps on a step button a while apart are taken back one by one", async (t) => {
  const { page } = await openSite(t, browser, { screen: PHONE });
  const more = page.getByRole("button", { name: "Rotor size: more" });
  await more.click();
  await page.waitForTimeout(1200);
  await more.click();
  await untilPainted(page);
  assert.equal(await page.inputValue("#wheel-rotor_diameter"), "205");
  await page.locator("#undo").click();
  await untilPainted(page);
  assert.equal(await page.inputValue("#wheel-rotor_diameter"), "204");
});

test("on a phone numbers have the decimal keypad, and those that may be negative a button for the sign", { skip: LACKS.coarsePointer }, async (t) => {
  const { page } = await openSite(t, browser, { screen: PHONE, hasTouch: true });
  // A list of readings takes a semicolon, which no such keypad has.
  const modes = await page.locator(".number-input:not(.readings-input)").evaluateAll((inputs) => inputs.map((input) => input.inputMode));
  assert.ok(modes.length > 50 && modes.every((mode) => mode === "decimal"), modes.join(" "));
  assert.equal(await page.locator("[data-key='wheel.rotor_diameter'] .sign").count(), 0, "a rotor is never negative");
  if (withoutFingers(browser)) return;
  for (const [key, value] of [["tab.offset", "2,5"], ["tab.clock", "28"], ["caliper.holes.0.1", "26"], ["caliper.line.exit.2", "30"]]) {
    const input = await inputOf(page, key);
    await input.tap();
    await input.fill(value);
    const sign = page.locator(".sign:visible");
    assert.equal(await sign.count(), 1, key);
    const { width, height } = await sign.boundingBox();
    assert.ok(width >= 44 && height >= 44);
    await sign.tap();
    assert.equal(await input.inputValue(), `-${value}`);
    assert.ok(await input.evaluate((element) => element === document.activeElement), "the keys stay up");
    await sign.tap();
    assert.equal(await input.inputValue(), value);
  }
});
