// The drawings looked at from near: by fingers, wheel, mouse, keys and buttons, beside turning the caliper and scrolling the page.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { fingersOn, middleOf, withoutFingers } from "./fingers.js";
import { DESK, LACKS, PHONE, SCREENS, drawing, launch, named, openSite, typeInto, untilPainted } from "./harness.js";

let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

/** The zoom comes after the first answer. */
async function openZoomable(...options) {
  const opened = await openSite(...options);
  await opened.page.locator("#zoom").waitFor();
  return opened;
}

/** Where the axle lies on the screen, and pixels per millimetre. */
function placeOf(page, view = "side") {
  return page.locator(`.picture[data-view=${view}] svg`).evaluate((svg) => {
    const { a: scale, e: x, f: y } = svg.getScreenCTM();
    return { scale, x, y };
  });
}

/** The millimetres of the side view below a point of the screen. */
function under({ scale, x, y }, point) {
  return { x: (point.x - x) / scale, y: (point.y - y) / scale };
}

function isNear(one, other, most) {
  assert.ok(Math.hypot(one.x - other.x, one.y - other.y) <= most, `${JSON.stringify(one)} is not ${JSON.stringify(other)}`);
}

async function isRingOnDrawing(page) {
  const [ring, side] = await Promise.all([".view-ring", ".picture[data-view=side] svg"].map((selector) => (
    page.locator(selector).evaluate((svg) => {
      const { a, d, e, f } = svg.getScreenCTM();
      return [a, d, e, f].map((value) => value.toFixed(1));
    })
  )));
  assert.deepEqual(ring, side, "the ring lies on the drawing");
}

/** The wheel turned away from the hand with Ctrl held. @param {{x: number, y: number}} at */
async function wheelWithCtrl(page, at, turns = 1) {
  if (LACKS.wheelKeys) {
    return page.evaluate(({ at: { x, y }, turns }) => {
      const turn = { deltaY: -300, ctrlKey: true, bubbles: true, cancelable: true, clientX: x, clientY: y };
      for (; turns > 0; turns -= 1) document.elementFromPoint(x, y)?.dispatchEvent(new WheelEvent("wheel", turn));
    }, { at, turns });
  }
  await page.mouse.move(at.x, at.y);
  await page.keyboard.down("Control");
  for (; turns > 0; turns -= 1) await page.mouse.wheel(0, -300);
  await page.keyboard.up("Control");
}

/** @param {{x: number, y: number}} at */
async function doubleClick(page, at) {
  if (!LACKS.doubleClick) return page.mouse.dblclick(at.x, at.y);
  return page.evaluate(({ x, y }) => {
    const event = new MouseEvent("dblclick", { bubbles: true, clientX: x, clientY: y });
    document.elementFromPoint(x, y)?.dispatchEvent(event);
  }, at);
}

for (const screen of SCREENS) {
  test(`at ${named(screen)} wheel and Ctrl zoom to the pointer, a double click shows all again`, async (t) => {
    const { page } = await openZoomable(t, browser, { screen });
    const whole = await drawing(page, "side");
    const before = await placeOf(page);
    const knob = await middleOf(page.locator(".ring-handle"));
    const pointer = { x: knob.x - 40, y: knob.y + 30 };
    await wheelWithCtrl(page, pointer);
    await untilPainted(page);
    const after = await placeOf(page);
    assert.ok(after.scale > before.scale * 1.5, `${before.scale} became ${after.scale}`);
    isNear(under(after, pointer), under(before, pointer), 1);
    await isRingOnDrawing(page);
    assert.equal(await page.evaluate(() => scrollY), 0);
    await doubleClick(page, pointer);
    await untilPainted(page);
    assert.deepEqual(await placeOf(page), before);
    assert.equal(await drawing(page, "side"), whole);
  });

  test(`at ${named(screen)} keys zoom the drawing that has the focus, and arrows move it only then`, async (t) => {
    const { page } = await openZoomable(t, browser, { screen });
    const before = await placeOf(page);
    await page.getByRole("group", { name: /^Side view/ }).focus();
    await page.keyboard.press("ArrowUp");
    await untilPainted(page);
    assert.deepEqual(await placeOf(page), before);
    await page.keyboard.press("+");
    await page.keyboard.press("+");
    await untilPainted(page);
    const near = await placeOf(page);
    assert.ok(Math.abs(near.scale / before.scale - 2.25) < 0.01);
    await page.keyboard.press("ArrowUp");
    await untilPainted(page);
    assert.ok((await placeOf(page)).y > near.y, "up shows what is further up");
    for (let press = 0; press < 20; press++) await page.keyboard.press("ArrowUp");
    await untilPainted(page);
    const top = await page.locator(".picture[data-view=side] svg").evaluate((svg) => svg.viewBox.baseVal.y);
    assert.ok(Math.abs(top + 150) < 1, `no further than the page's edge: ${top}`);
    await isRingOnDrawing(page);
    await page.keyboard.press("-");
    await page.keyboard.press("0");
    await untilPainted(page);
    assert.deepEqual(await placeOf(page), before);
  });

  test(`at ${named(screen)} words in the drawing stay as large when it is zoomed, and follow new values`, async (t) => {
    const { page } = await openZoomable(t, browser, { screen });
    const number = page.locator(".picture[data-view=side] text.dimension");
    const height = async () => (await number.boundingBox()).height;
    const before = await height();
    await page.getByRole("button", { name: "Nearer" }).click();
    await untilPainted(page);
    assert.ok(Math.abs(await height() - before) < 1.5);
    const near = await placeOf(page);
    await typeInto(page, "wheel.rotor_diameter", "180");
    assert.ok(Math.abs((await placeOf(page)).scale / near.scale - 1) < 0.2, "a new value leaves the zoom");
    await typeInto(page, "wheel.rotor_diameter", "310");
    await isRingOnDrawing(page);
    await page.getByRole("button", { name: "Show all" }).click();
    await untilPainted(page);
    const box = await page.locator(".picture[data-view=side] svg").evaluate((svg) => svg.viewBox.baseVal.width);
    assert.ok(box > 310, `all of the larger page: ${box}`);
    await isRingOnDrawing(page);
  });
}

test("the mouse moves a zoomed drawing, and still turns the caliper", async (t) => {
  const { page } = await openZoomable(t, browser, { screen: DESK });
  for (let click = 0; click < 2; click++) await page.getByRole("button", { name: "Nearer" }).click();
  await untilPainted(page);
  const before = await placeOf(page);
  await page.mouse.move(before.x - 60, before.y);
  await page.mouse.down();
  await page.mouse.move(before.x - 20, before.y - 30, { steps: 4 });
  await page.mouse.up();
  await untilPainted(page);
  const after = await placeOf(page);
  isNear(after, { x: before.x + 40, y: before.y - 30 }, 1.5);
  const knob = await middleOf(page.locator(".ring-handle"));
  await page.mouse.move(knob.x, knob.y);
  await page.mouse.down();
  await page.mouse.move(knob.x + 30, knob.y + 40, { steps: 4 });
  await page.mouse.up();
  await untilPainted(page);
  assert.ok(Number(await page.inputValue("#tab-clock")) > 30);
  assert.deepEqual(await placeOf(page), after, "turning leaves the drawing where it is");
});

test("two fingers zoom and move the drawing, not the page; one moves it while it is zoomed; two taps show all", async (t) => {
  if (withoutFingers(browser)) return t.skip(withoutFingers(browser));
  const { page } = await openZoomable(t, browser, { screen: PHONE, hasTouch: true });
  const fingers = await fingersOn(page);
  const before = await placeOf(page);
  const clock = () => page.inputValue("#tab-clock");
  const at = (x, y) => ({ x: before.x + x, y: before.y + y });
  await fingers.drag([at(-30, 40), at(-90, 40)], [at(30, 40), at(90, 40)]);
  await fingers.lift();
  await untilPainted(page);
  const near = await placeOf(page);
  assert.ok(Math.abs(near.scale / before.scale - 3) < 0.2, `three times: ${near.scale / before.scale}`);
  isNear(under(near, at(0, 40)), under(before, at(0, 40)), 3);
  assert.deepEqual(await page.evaluate(() => [scrollY, visualViewport.scale]), [0, 1]);
  await isRingOnDrawing(page);

  await fingers.drag([at(0, 60), at(20, -20)]);
  await fingers.lift();
  await untilPainted(page);
  const moved = await placeOf(page);
  isNear(moved, { x: near.x + 20, y: near.y - 80 }, 2);
  assert.equal(await page.evaluate(() => scrollY), 0);
  assert.equal(await clock(), "28");

  await fingers.tap(at(-40, 60));
  await fingers.tap(at(-40, 60));
  await untilPainted(page);
  assert.deepEqual(await placeOf(page), before);
  if (LACKS.touchScroll) return;
  await fingers.drag([at(-60, 60), at(-60, -100)]);
  await fingers.lift();
  assert.ok(await page.evaluate(() => scrollY) > 50, "not zoomed, one finger scrolls the page");
});

test("a second finger beside the one on the caliper stops turning it", async (t) => {
  if (withoutFingers(browser)) return t.skip(withoutFingers(browser));
  const { page } = await openZoomable(t, browser, { screen: PHONE, hasTouch: true });
  const fingers = await fingersOn(page);
  const caliper = await middleOf(page.locator(".picture[data-view=side] .caliper").first());
  const axle = await placeOf(page);
  await fingers.put(caliper);
  await fingers.drag([caliper, { x: caliper.x + 40, y: caliper.y - 20 }], [{ x: axle.x, y: axle.y + 40 }, { x: axle.x - 40, y: axle.y + 70 }]);
  await fingers.lift();
  await untilPainted(page);
  assert.equal(await page.inputValue("#tab-clock"), "28");
  assert.ok((await placeOf(page)).scale > axle.scale * 1.3);
});

test("the other view keeps the zoom and what is in the middle across; the other side of the bicycle mirrors it", async (t) => {
  const { page } = await openZoomable(t, browser, { screen: PHONE });
  const acrossOf = (view) => page.locator(`.picture[data-view=${view}] svg`).evaluate((svg) => {
    const { x, width } = svg.viewBox.baseVal;
    return x + width / 2;
  });
  const caliper = await middleOf(page.locator(".picture[data-view=side] .caliper").first());
  await wheelWithCtrl(page, caliper, 3);
  await untilPainted(page);
  const across = await acrossOf("side");
  assert.ok(across > 15, `${across} mm behind the axle`);
  await page.getByRole("radio", { name: "Section" }).check();
  await page.locator(".picture[data-view=section] svg").waitFor();
  await untilPainted(page);
  assert.ok(Math.abs(await acrossOf("section") - across) < 1);
  await page.getByRole("radio", { name: "Right" }).check();
  await untilPainted(page);
  assert.ok(Math.abs(await acrossOf("section") + across) < 1, "the same part of the brake");
});

test("the knob comes into sight when keys reach it, and the layer of the ring never scrolls", async (t) => {
  const { page } = await openZoomable(t, browser, { screen: DESK });
  await page.getByRole("group", { name: /^Side view/ }).focus();
  for (let press = 0; press < 4; press++) await page.keyboard.press("+");
  for (let press = 0; press < 20; press++) await page.keyboard.press("ArrowDown");
  await untilPainted(page);
  await page.getByRole("slider", { name: "Clock angle of the caliper" }).focus();
  await untilPainted(page);
  const layer = await page.locator("#ring-layer").boundingBox();
  const knob = await middleOf(page.locator(".ring-handle"));
  assert.ok(knob.y > layer.y && knob.y < layer.y + layer.height);
  assert.deepEqual(await page.locator("#ring-layer").evaluate(({ scrollTop, scrollLeft }) => [scrollTop, scrollLeft]), [0, 0]);
  await isRingOnDrawing(page);
});
