// Measuring real parts: the guide, its pictures, what hangs on a number, a caliper from measurements, and parts kept by name.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { seriousFindings } from "./findings.js";
import { DESK, PHONE, THOROUGH, drawing, launch, openSite, untilPainted } from "./harness.js";

const SMALL = { width: 360, height: 640 };
const LOW = { width: 844, height: 390 };
const TARGET_PX = 44 - 0.01;
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

async function openMeasure(t, options = {}) {
  const opened = await openSite(t, browser, options);
  await opened.page.locator("[data-panel=measure]").click();
  await opened.page.locator(".guide").waitFor();
  return opened;
}

async function choose(page, part) {
  await page.getByRole("radio", { name: part, exact: true }).check({ force: true });
  await untilPainted(page);
}

/** Goes to a measurement by its title in the list. */
async function goTo(page, title) {
  await page.locator(".guide details").evaluate((details) => { details.open = true; });
  await page.locator(".measure-list .link", { hasText: new RegExp(`^${title}\\s`) }).click();
  await untilPainted(page);
}

function heading(page) {
  return page.locator(".guide h3").innerText();
}

/** The number of the step at hand. */
function entry(page) {
  return page.locator(".measure-entry input");
}

async function type(page, text) {
  await entry(page).fill(text);
  await untilPainted(page);
}

function picture(page) {
  return page.locator(".guide > .measure-picture svg").evaluate((svg) => svg.outerHTML);
}

/** The setup as the page keeps it. */
async function setup(page) {
  await page.waitForTimeout(300);
  return page.evaluate(() => {
    dispatchEvent(new Event("pagehide"));
    return JSON.parse(localStorage.getItem("tabwright-setup")).setup;
  });
}

/** The margin of the pair that binds, by a report of the page's own core. */
function margin(page, data) {
  return page.evaluate(async (given) => {
    const core = await import("./pkg/tabwright_wasm.js");
    await core.default();
    const { report } = core.report(given);
    return report.pairs.find(({ name }) => name === report.binding).margin;
  }, data);
}

test("a walk through the hub shows every measurement with its picture, and back", async (t) => {
  const { page, complaints } = await openMeasure(t, { screen: PHONE, hasTouch: true });
  const seen = [];
  for (let index = 0; index < 12; index++) {
    seen.push(await heading(page));
    assert.match(await page.locator(".measure-title .remark").innerText(), new RegExp(`^${index + 1} of 12$`));
    const shown = await page.locator(".guide > .measure-picture").getAttribute("aria-label");
    assert.ok(shown.startsWith(`${seen[index]}: where to measure.`), shown);
    if (index < 11) await page.getByRole("button", { name: "Next", exact: true }).click();
  }
  assert.equal(new Set(seen).size, 12);
  await page.getByRole("button", { name: "Back", exact: true }).click();
  assert.equal(await heading(page), seen[10]);
  assert.deepEqual(complaints, []);
});

test("picture, setup and drawing behind follow a number, and Enter goes on", async (t) => {
  const { page } = await openMeasure(t);
  await goTo(page, "Rotor inset");
  const [before, behind] = [await picture(page), await drawing(page, "section")];
  assert.match(before, />15\.0 mm</);
  await type(page, "13,5");
  const now = await picture(page);
  assert.match(now, />13\.5 mm</);
  assert.notEqual(now.replace("13.5 mm", "15.0 mm"), before);
  assert.notEqual(await drawing(page, "section"), behind);
  assert.equal((await setup(page)).wheel.rotor_inset, 13.5);
  await entry(page).press("Enter");
  assert.equal(await heading(page), "Rotor size");
  assert.equal(await entry(page).evaluate((input) => input === document.activeElement), true);
});

test("a refused number says why, keeps its text, and the picture stays the last good one", async (t) => {
  const { page } = await openMeasure(t);
  const good = await picture(page);
  await type(page, "wide");
  assert.match(await page.locator(".measure-entry .field-note").innerText(), /Hub width must be a number from 40 to 250 mm/);
  assert.equal(await entry(page).getAttribute("aria-invalid"), "true");
  assert.equal(await entry(page).inputValue(), "wide");
  assert.equal(await picture(page), good);
});

for (const [part, title, path] of [["Fork", "Axle offset", "fork.axle_offset"], ["Hub", "Rotor size", "wheel.rotor_diameter"], ["Caliper", "Throat", "caliper.throat"]]) {
  test(`what a millimetre of ${title.toLowerCase()} changes is the difference of two reports`, async (t) => {
    const { page } = await openMeasure(t);
    await choose(page, part);
    await goTo(page, title);
    const data = await setup(page);
    const [group, key] = path.split(".");
    const now = await margin(page, data);
    const said = await page.locator(".measure-wrong li").allInnerTexts();
    assert.equal(said.length, 2);
    for (const [index, [by, way]] of [[1, "more"], [-1, "less"]].entries()) {
      const other = structuredClone(data);
      other[group][key] += by;
      const difference = await margin(page, other) - now;
      const words = Math.abs(difference) < 0.05
        ? "as much to spare"
        : `${Math.abs(difference).toFixed(1)} mm ${difference > 0 ? "more" : "less"} to spare`;
      assert.ok(said[index].startsWith(`If it is really 1 mm ${way}: ${words} (`), `${said[index]} for ${difference}`);
    }
  });
}

test("five distances put the holes where they meet; two that cannot meet are told and change nothing", async (t) => {
  const { page } = await openMeasure(t);
  await choose(page, "Caliper");
  const { caliper } = await setup(page);
  await goTo(page, "Hole 1 to the left corner");
  await type(page, "5");
  assert.match(await page.locator(".measure-entry .field-note").innerText(), /5\.0 mm from the left corner .* do not meet: they differ by more than the pads' length/s);
  assert.doesNotMatch(await picture(page), />5\.0 mm</);
  assert.deepEqual((await setup(page)).caliper, caliper);

  // By hand: pads 30 × 16 have their corners at (∓15, −8); the holes are to be at (−20, 16) and (22, 16).
  const distances = [["Hole to hole", 42], ["Hole 1 to the left corner", Math.sqrt(601)], ["Hole 1 to the right corner", Math.sqrt(1801)], ["Hole 2 to the left corner", Math.sqrt(1945)], ["Hole 2 to the right corner", 25]];
  for (const [title, distance] of distances) {
    await goTo(page, title);
    await type(page, distance.toFixed(6));
  }
  assert.equal(await page.locator(".measure-entry .field-note").isHidden(), true);
  const after = (await setup(page)).caliper;
  const expected = [[-20, 16], [22, 16]];
  after.holes.forEach((hole, index) => hole.forEach((value, axis) => assert.ok(Math.abs(value - expected[index][axis]) < 1e-4, `${after.holes}`)));
  assert.deepEqual(after.bodies, caliper.bodies);

  await goTo(page, "Hole to hole");
  await type(page, "45");
  assert.match(await page.locator(".measure-entry .field-note").innerText(), /One of the five distances is wrong/);
});

test("a body from measurements stands in three convex pieces, told beforehand and taken back by Undo", async (t) => {
  const { page } = await openMeasure(t, { screen: PHONE, hasTouch: true });
  await choose(page, "Caliper");
  const { caliper } = await setup(page);
  await goTo(page, "Body above the pads");
  assert.equal(await page.getByText("drawn in more detail").isVisible(), true);
  const before = await picture(page);
  await type(page, "31");
  assert.match(await picture(page), />31\.0 mm</);
  assert.notEqual(await picture(page), before);
  const { bodies } = (await setup(page)).caliper;
  assert.deepEqual(bodies.map(({ name }) => name), ["lug", "bridge", "halves"]);
  // Pads 16 high: their outer edge is 8 from the middle.
  assert.equal(Math.max(...bodies[1].outline.map(([, rad]) => rad)), 39);
  assert.equal(await page.getByText("drawn in more detail").isVisible(), false);

  // Now the pads' size moves all that was measured from them.
  await goTo(page, "Pad height");
  await type(page, "18");
  const moved = (await setup(page)).caliper.bodies;
  assert.equal(Math.max(...moved[1].outline.map(([, rad]) => rad)), 40);
  await page.locator("#panel").getByRole("button", { name: "Close" }).click();
  // Quick ones after each other are one step.
  for (const undo = page.locator("#undo"); await undo.isEnabled(); await untilPainted(page)) await undo.click();
  assert.deepEqual((await setup(page)).caliper, caliper);
});

test("the hand is chosen by its picture, and mirrors holes, pieces and line", async (t) => {
  const { page } = await openMeasure(t, { screen: SMALL, hasTouch: true });
  await choose(page, "Caliper");
  await goTo(page, "Left or right hand");
  const before = (await setup(page)).caliper;
  const pictures = () => page.locator(".measure-hand svg").evaluateAll((all) => all.map((svg) => svg.outerHTML));
  const [own, other] = await pictures();
  assert.notEqual(own, other);
  await page.getByRole("button", { name: /The other hand: line on the right/ }).tap();
  await untilPainted(page);
  const now = (await setup(page)).caliper;
  assert.deepEqual(now.line.exit, [-before.line.exit[0], ...before.line.exit.slice(1)]);
  assert.deepEqual(now.bodies[0].outline, before.bodies[0].outline.map(([cw, rad]) => [-cw, rad]));
  assert.deepEqual(await pictures(), [other, own]);
});

test("a tap on the picture sets where the line leaves, an arrow which way", async (t) => {
  const { page } = await openMeasure(t, { screen: PHONE, hasTouch: true });
  await choose(page, "Caliper");
  await goTo(page, "Where the line leaves");
  const box = await page.locator(".measure-tap").boundingBox();
  // The pads' middle has coordinates 0, 0.
  const pad = await page.locator(".measure-tap .pad").boundingBox();
  const [x, y] = [pad.x + pad.width / 2, pad.y + pad.height / 2];
  assert.ok(box.x < x && x < box.x + box.width);
  await page.touchscreen.tap(x + pad.width / 2, y - pad.height / 2);
  await page.getByRole("radio", { name: "right", exact: true }).check({ force: true });
  await untilPainted(page);
  const { line } = (await setup(page)).caliper;
  assert.ok(Math.abs(line.exit[0] - 15) <= 0.5 && Math.abs(line.exit[1] - 8) <= 0.5 && line.exit[2] === 30, `${line.exit}`);
  assert.deepEqual(line.direction, [1, 0, 0]);
  await page.getByLabel("Outboard of the slot").fill("22");
  await untilPainted(page);
  assert.equal((await setup(page)).caliper.line.exit[2], 22);
});

test("a part is kept by name, used in one step, renamed, deleted and brought back", async (t) => {
  const { page, complaints } = await openMeasure(t);
  const said = page.locator(".kept-said");
  await page.getByRole("button", { name: "Keep this hub and wheel" }).click();
  assert.match(await said.innerText(), /Give the part a name first/);
  await type(page, "112");
  await page.getByLabel("Name", { exact: true }).last().fill("  Rear <b>trike</b>\thub ");
  await page.getByRole("button", { name: "Keep this hub and wheel" }).click();
  await page.getByText("Rear <b>trike</b> hub is kept in this browser.").waitFor();
  await type(page, "100");

  await page.reload();
  await page.locator("[data-panel=measure]").click();
  await page.getByRole("button", { name: "Use Rear <b>trike</b> hub" }).click();
  await untilPainted(page);
  assert.equal((await setup(page)).wheel.hub_width, 112);
  assert.equal(await entry(page).inputValue(), "112");

  await page.getByRole("button", { name: /^Rename/ }).click();
  await page.getByLabel(/^New name/).fill("Hub 112");
  await page.getByLabel(/^New name/).press("Enter");
  await page.getByRole("button", { name: "Use Hub 112" }).waitFor();
  await page.getByRole("button", { name: "Delete Hub 112" }).click();
  await page.getByText("Hub 112 is deleted.").waitFor();
  assert.equal(await page.locator(".kept-list li").count(), 0);
  await page.getByRole("button", { name: "Undo delete" }).click();
  await page.getByRole("button", { name: "Use Hub 112" }).waitFor();

  await choose(page, "Fork");
  assert.equal(await page.locator(".kept-list li").count(), 0);
  await page.keyboard.press("Escape");
  await page.locator("#undo").click();
  await untilPainted(page);
  assert.equal((await setup(page)).wheel.hub_width, 100);
  assert.deepEqual(complaints, []);
});

test("records that are no parts are left out, and a part has nothing in it but its fields", async (t) => {
  const { page } = await openMeasure(t);
  const { wheel } = await setup(page);
  await page.evaluate(async (data) => {
    const opened = indexedDB.open("tabwright");
    await new Promise((resolve) => { opened.onsuccess = resolve; });
    const store = opened.result.transaction("parts", "readwrite").objectStore("parts");
    const sound = { id: "a", name: "Sound", kind: "wheel", changed: 1, data: { ...data, extra: "<script>" } };
    store.put(sound);
    store.put({ ...sound, id: "b", name: "Short", data: { hub_width: 100 } });
    store.put({ ...sound, id: "c", name: "Odd", data: { ...data, hub_width: [1] } });
    store.put({ ...sound, id: "d", name: "Kindless", kind: "load" });
    store.put({ ...sound, id: "e", name: 7 });
    await new Promise((resolve) => { store.transaction.oncomplete = resolve; });
  }, wheel);
  await page.reload();
  await page.locator("[data-panel=measure]").click();
  await page.getByRole("button", { name: "Use Sound" }).click();
  await untilPainted(page);
  assert.equal(await page.locator(".kept-list li").count(), 1);
  assert.deepEqual((await setup(page)).wheel, wheel);
});

test("where the browser keeps nothing, that is said and the guide works on", async (t) => {
  const { page, context } = await openSite(t, browser);
  await context.addInitScript(() => {
    IDBFactory.prototype.open = () => { throw new DOMException("no", "SecurityError"); };
  });
  await page.reload();
  await page.locator("[data-panel=measure]").click();
  await page.locator(".kept-said", { hasText: "does not let the page keep anything" }).waitFor();
  await page.getByLabel("Name", { exact: true }).last().fill("Mine");
  await page.getByRole("button", { name: "Keep this hub and wheel" }).click();
  await page.locator(".kept-said", { hasText: "does not let the page keep anything" }).waitFor();
  assert.equal(await page.getByLabel("Name", { exact: true }).last().inputValue(), "Mine");
  await type(page, "120");
  assert.match(await picture(page), />120\.0 mm</);
});

// What axe-core finds hardly depends on the window.
for (const [screen, colorScheme, isAsked = THOROUGH] of [[SMALL, "light", true], [LOW, "dark"], [DESK, "light"]]) {
  test(`at ${screen.width}x${screen.height}, ${colorScheme}, the guide has no serious finding, no sideways scroll and targets to hit`, async (t) => {
    const { page } = await openMeasure(t, { screen, colorScheme, hasTouch: screen !== DESK });
    await page.getByLabel("Name", { exact: true }).last().fill("A hub");
    await page.getByRole("button", { name: "Keep this hub and wheel" }).click();
    await page.getByRole("button", { name: "Use A hub" }).waitFor();
    for (const [part, title] of [["Hub", "Nut height"], ["Caliper", "Left or right hand"], ["Caliper", "Where the line leaves"], ["Caliper", "Lug thickness"], ["Dropout", "Slot direction"]]) {
      await choose(page, part);
      await goTo(page, title);
      if (isAsked) assert.deepEqual(await seriousFindings(page, "#panel"), [], title);
      const body = page.locator("#panel-body");
      assert.ok(await body.evaluate((element) => element.scrollWidth <= element.clientWidth), `${title} scrolls sideways`);
      const small = await body.locator("button:visible, input.number-input:visible, .measure-ways label:visible, .switch label:visible").evaluateAll((all, least) => all
        .filter((element) => element.getBoundingClientRect().height < least)
        .map((element) => element.outerHTML.slice(0, 120)), TARGET_PX);
      assert.deepEqual(small, [], title);
    }
  });
}
