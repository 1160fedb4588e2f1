// The fit as a builder sees it: moved sliders and typed values change verdict, drawing and sentences.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { SCREENS, drawing, inputOf, launch, named, openSite, sentence, typeInto, untilPainted, untilVerdict } from "./harness.js";

const ROTOR = "wheel.rotor_diameter";
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

/** Moves the slider of `key` to `value` with arrow keys alone. */
async function pressTo(page, slider, value) {
  const from = Number(await slider.inputValue());
  const step = Number(await slider.getAttribute("step"));
  await slider.focus();
  for (let count = Math.round(Math.abs(value - from) / step); count > 0; count--) {
    await page.keyboard.press(value < from ? "ArrowLeft" : "ArrowRight");
  }
  await untilPainted(page);
}

/** Where the middle of the rotor and of the caliper lie on the screen, from left to right. */
function middles(page) {
  return page.locator(".picture[data-view=side] svg").evaluate((svg) => {
    const middleOf = (selector) => {
      const boxes = [...svg.querySelectorAll(selector)].map((shape) => shape.getBoundingClientRect());
      return (Math.min(...boxes.map((box) => box.left)) + Math.max(...boxes.map((box) => box.right))) / 2;
    };
    return { rotor: middleOf(".rotor"), caliper: middleOf(".caliper") };
  });
}

for (const screen of SCREENS) {
  test(`at ${named(screen)} the rotor moved from 203 to 180 with the keys hits, in word and drawing`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    const before = await drawing(page, "side");
    const slider = page.getByRole("slider", { name: /^Rotor size/ });
    await pressTo(page, slider, 180);
    await untilVerdict(page, "Hits");
    assert.equal(await page.inputValue("#wheel-rotor_diameter"), "180");
    const after = await drawing(page, "side");
    assert.notEqual(after, before);
    assert.match(after, /Rotor, 180\.0 mm/);
    assert.match(after, /class="[^"]*verdict-hits/);
    assert.match(await page.locator("#verdict-summary").innerText(), /tube.* overlap by \d+\.\d mm/);
    await pressTo(page, slider, 203);
    await untilVerdict(page, "Clears");
    assert.equal(await drawing(page, "side"), before, "the way back leads to the same drawing");
  });

  test(`at ${named(screen)} a rotor of 180 hits when typed, with the slider following`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    const before = await drawing(page, "side");
    await typeInto(page, ROTOR, "180");
    await untilVerdict(page, "Hits");
    assert.notEqual(await drawing(page, "side"), before);
    assert.equal(await page.getByRole("slider", { name: /^Rotor size/ }).inputValue(), "180");
    await typeInto(page, ROTOR, "203,0");
    await untilVerdict(page, "Clears");
    assert.equal(await page.inputValue("#wheel-rotor_diameter"), "203,0", "a decimal comma stays as typed");
  });

  test(`at ${named(screen)} a hub of 115 mm is tight and lets the plate 7.5 mm into the tube`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    await typeInto(page, "wheel.hub_width", "115");
    await untilVerdict(page, "Tight");
    assert.match(await sentence(page, "Plate and tube"), /recessed.*7\.5 mm into the tube/);
    assert.match(await page.locator("#verdict-summary").innerText(), /tube has \d\.\d mm where 3\.0 mm is wanted/);
  });

  test(`at ${named(screen)} the other side mirrors the drawing and turns the line`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    const left = await middles(page);
    const line = await sentence(page, "Brake line");
    await page.getByRole("radio", { name: "Right" }).check();
    await untilPainted(page);
    const right = await middles(page);
    assert.ok(left.caliper > left.rotor, "on the left, the caliper is right of the axle");
    assert.ok(right.caliper < right.rotor, "on the right, it is left of the axle");
    assert.notEqual(await sentence(page, "Brake line"), line);
  });
}

test("a slider dragged close to a usual size snaps to it, keys do not", async (t) => {
  const { page } = await openSite(t, browser);
  const slider = page.getByRole("slider", { name: /^Rotor size/ });
  const mark = await page.locator('[data-field="wheel.rotor_diameter"] .tick', { hasText: "180" }).boundingBox();
  const thumb = await page.locator('[data-field="wheel.rotor_diameter"] .tick', { hasText: "203" }).boundingBox();
  const box = await slider.boundingBox();
  const middle = box.y + box.height / 2;
  const markX = mark.x + mark.width / 2;
  const pixelsPerMm = (thumb.x + thumb.width / 2 - markX) / (203 - 180);
  await page.mouse.move(thumb.x + thumb.width / 2, middle);
  await page.mouse.down();
  await page.mouse.move(markX + pixelsPerMm, middle, { steps: 5 });
  await page.mouse.up();
  await untilVerdict(page, "Hits");
  assert.equal(await page.inputValue("#wheel-rotor_diameter"), "180");
  assert.equal(await slider.inputValue(), "180");
  await slider.press("ArrowRight");
  await untilPainted(page);
  assert.equal(await page.inputValue("#wheel-rotor_diameter"), "181");
});

test("the tables agree with the verdict: the tightest gap stands first and has a word", async (t) => {
  const { page } = await openSite(t, browser);
  await typeInto(page, ROTOR, "180");
  await untilVerdict(page, "Hits");
  const rows = await page.locator("#gap-rows tr").allInnerTexts();
  assert.ok(rows.length > 3, `${rows.length} gaps`);
  assert.match(rows[0], /Hits\s*$/);
  assert.ok((await page.locator("#verdict-summary").innerText()).includes(rows[0].split("\t")[0].trim()));
  assert.equal(await page.locator("#hole-rows tr").count() > 2, true);
});

for (const text of ["<img src=x onerror=alert(1)>", "</title><script>alert(1)</script>", "]]>&amp;\"'"]) {
  test(`a name that reads ${text} stays text everywhere`, async (t) => {
    const { page, complaints } = await openSite(t, browser);
    await typeInto(page, "name", text);
    await typeInto(page, "caliper.bodies.0.name", text);
    await typeInto(page, ROTOR, "180");
    await untilVerdict(page, "Hits");
    await page.reload();
    await untilVerdict(page, "Hits");
    assert.equal(await (await inputOf(page, "name")).inputValue(), text);
    assert.equal(await page.locator("img[src=x], [onerror], main script, svg script, svg img, parsererror").count(), 0);
    assert.equal(await page.locator(".body > summary").first().textContent(), text);
    const titles = await page.locator(".picture[data-view=side] title").allTextContents();
    assert.ok(titles.some((title) => title.includes(text)), titles.join(" | "));
    assert.deepEqual(complaints, []);
  });
}
