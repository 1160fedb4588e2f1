// The Tack page: the sideways stack, readings on a tacked part with one piece of advice, and a tab that is there already.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { seriousFindings } from "./findings.js";
import { DESK, LACKS, LOOKS, PHONE, launch, named, openSite, untilPainted } from "./harness.js";

const INCH = 25.4;
const TARGET_PX = 44 - 0.01;
/** The narrowest window that every engine's automation can make. */
const NARROWEST = 306;
/** 195 is a phone of 390 with everything twice as large. */
const SCREENS_TO_FIT = [[360, 640], [320, 640], [844, 390], [640, 400], [195, 422]]
  .map(([width, height]) => ({ width, height }))
  .filter(({ width }) => width >= NARROWEST || !LACKS.narrow);
/** A folder for pictures of the walk through a crooked tack, for looking at. */
const PICTURES = process.env.TABWRIGHT_PICTURES;
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

async function openTack(t, part, options = {}) {
  const opened = await openSite(t, browser, options);
  const { page } = opened;
  await page.locator("[data-panel=build]").click();
  await page.getByRole("radio", { name: "Tack", exact: true }).check({ force: true });
  await page.locator(".tack-page").waitFor();
  await choose(page, part);
  return opened;
}

async function choose(page, part) {
  await page.getByRole("radio", { name: part, exact: true }).check({ force: true });
  await untilPainted(page);
}

/** Waits until the answer to what is typed is there. */
async function settled(page) {
  await untilPainted(page);
  await page.waitForFunction(() => {
    const places = [...document.querySelectorAll(".tack-page .tack-answer")].filter((place) => place.checkVisibility());
    return places.length > 0 && places.every((place) => place.getAttribute("aria-busy") === "false");
  });
  await untilPainted(page);
}

/** The setup as the page keeps it. */
async function setup(page) {
  await page.waitForTimeout(300);
  return page.evaluate(() => {
    dispatchEvent(new Event("pagehide"));
    return JSON.parse(localStorage.getItem("tabwright-setup")).setup;
  });
}

function report(page, data) {
  return page.evaluate(async (given) => {
    const core = await import("./pkg/tabwright_wasm.js");
    await core.default();
    return core.report(given).report;
  }, data);
}

/** The row of a length that is read, in the state on show. */
function reading(page, key) {
  return page.locator(`.reading[data-reading="${key}"]:visible`);
}

async function type(page, key, ...texts) {
  for (const [index, text] of texts.entries()) {
    const row = reading(page, key);
    while (await row.locator("input").count() <= index) await row.getByRole("button", { name: /^Read once more/ }).click();
    await row.locator("input").nth(index).fill(text);
  }
}

async function typeAll(page, readings) {
  for (const [key, value] of Object.entries(readings)) await type(page, key, ...[value].flat().map((one) => one.toFixed(2)));
  await settled(page);
}

async function title(page) {
  return (await page.locator(".tack-title:visible strong").innerText()).trim();
}

function number(text) {
  return Number(text.replace("\u2212", "-").match(/-?\d+(\.\d+)?/)[0]);
}

/**
 * What a gauge reads on a part whose tab lies off by `radial` away from the axle and is tilted by `tilt` degrees, hole 2
 * outboard: plain trigonometry on the holes as designed.
 */
function bench({ setup: { tab, wheel }, holes }, { radial = 0, tilt = 0, out = 0 } = {}) {
  const clock = tab.clock * Math.PI / 180;
  const moved = holes.map(({ back, up, from_neck_edge: neck }) => ({
    back: back + radial * Math.sin(clock), up: up + radial * Math.cos(clock), neck: neck + radial * Math.sin(clock) * Math.sign(back),
  }));
  const spacing = Math.hypot(moved[1].back - moved[0].back, moved[1].up - moved[0].up);
  const half = spacing / 2 * Math.tan(tilt * Math.PI / 180);
  return {
    hole_1: Math.hypot(moved[0].back, moved[0].up),
    hole_2: Math.hypot(moved[1].back, moved[1].up),
    spacing,
    neck_1: moved[0].neck,
    neck_2: moved[1].neck,
    step_1: tab.offset + out - half,
    step_2: tab.offset + out + half,
    rotor: tab.offset + out + wheel.rotor_inset - wheel.rotor_thickness / 2,
  };
}

async function designOf(page) {
  const data = await setup(page);
  return { setup: data, ...await report(page, data) };
}

test("the stack's sums are those of its rows, and a ± typed in the table changes them and the setup", async (t) => {
  const { page, complaints } = await openTack(t, "Line-up", { screen: PHONE });
  await settled(page);
  const effects = async () => (await page.locator(".tack-stack tbody tr:first-child td:nth-of-type(2)").allInnerTexts()).map(number);
  const sums = async () => (await page.locator(".tack-stack tfoot .number").allInnerTexts()).map(number);
  const check = async () => {
    const [all, [rss, worst]] = [await effects(), await sums()];
    // Each number on the page is rounded to a hundredth.
    assert.ok(Math.abs(worst - all.reduce((sum, one) => sum + one, 0)) < 0.005 * (all.length + 1), `${all} against ${worst}`);
    assert.ok(Math.abs(rss - Math.hypot(...all)) < 0.02, `${all} against ${rss}`);
    return rss;
  };
  const rss = await check();
  assert.equal(await title(page), "Lines up");
  assert.match(await page.locator(".tack-bar").getAttribute("aria-label"), /to scale/);
  const offset = page.locator("#tack-page-tolerance-tab_offset");
  await offset.fill("3.5");
  await settled(page);
  assert.ok(await check() > rss);
  assert.equal(await title(page), "May not line up");
  assert.ok(await offset.evaluate((input) => input === document.activeElement), "typing goes on while answers come");
  assert.equal((await setup(page)).tolerance.tab_offset, 3.5);
  await page.getByRole("button", { name: /^Hold the tab to ±/ }).click();
  await settled(page);
  assert.equal(await title(page), "Lines up");
  assert.equal(number(await page.locator(".tack-share").innerText()) >= 99, true);
  await page.locator("summary", { hasText: "Mount depth" }).click();
  await page.getByRole("button", { name: /ISO 2768-1 class c/ }).locator("visible=true").click();
  await settled(page);
  // ISO 2768-1:1989, table 1: class c, over 6 up to 30 mm: ±0.5; the caliper's mount depth is 15.
  assert.equal((await setup(page)).tolerance.mount_depth, 0.5);
  assert.deepEqual(complaints, []);
});

test("a length is read in any unit and several times, and is kept with the setup", async (t) => {
  const { page, complaints } = await openTack(t, "Tack check", { screen: PHONE });
  await settled(page);
  await type(page, "hole_1", "4 51/64 in", "121,9");
  assert.deepEqual((await setup(page)).tack.before.hole_1, [4 * INCH + 51 / 64 * INCH, 121.9].map((mm) => Number(mm.toFixed(6))));
  await reading(page, "spacing").getByRole("button", { name: /; change to inches/ }).click();
  await type(page, "spacing", "2 1/128");
  assert.equal((await setup(page)).tack.before.spacing[0], 50.998438);
  await settled(page);
  const mean = (4 * INCH + 51 / 64 * INCH + 121.9) / 2;
  assert.match(await reading(page, "hole_1").locator(".reading-said").innerText(), new RegExp(`^mean ${mean.toFixed(2)} mm, spread 0\\.06 mm; \\+`));
  for (let more = 0; more < 3; more++) await type(page, "hole_1", ...["121.8", "121.8", "121.8", "121.8", "121.8"].slice(0, more + 3));
  assert.ok(await reading(page, "hole_1").getByRole("button", { name: /^Read once more/ }).isDisabled(), "five are enough");
  await page.reload();
  await page.locator("#verdict-word:not(:empty)").waitFor();
  await page.locator("[data-panel=build]").click();
  await page.getByRole("radio", { name: "Tack", exact: true }).check({ force: true });
  await choose(page, "Tack check");
  assert.deepEqual(await reading(page, "hole_1").locator("input").evaluateAll((inputs) => inputs.map(({ value }) => value)), Array(5).fill("121.8"));
  assert.deepEqual(complaints, []);
});

test("a reading that is no length is told where it stands, and the way to it; the rest stays", async (t) => {
  const { page } = await openTack(t, "Tack check");
  await settled(page);
  await type(page, "hole_2", "121.7", "wide");
  await page.locator(".tack-refusals:visible").waitFor();
  const row = reading(page, "hole_2");
  assert.deepEqual(await row.locator("input").evaluateAll((inputs) => inputs.map((input) => input.getAttribute("aria-invalid"))), [null, "true"]);
  assert.match(await row.locator(".field-note").innerText(), /Axle to hole 2/);
  assert.equal(await row.locator("input").nth(1).inputValue(), "wide");
  await choose(page, "Line-up");
  await choose(page, "Tack check");
  await page.locator(".tack-refusals .link").click();
  assert.equal(await page.evaluate(() => document.activeElement.closest(".reading")?.dataset.reading), "hole_2");
  await row.locator("input").nth(1).fill("");
  await page.locator(".tack-refusals").waitFor({ state: "hidden" });
  assert.equal(await title(page), "Measure on");
});

test("a walk through a crooked tack: two readings changed round, broken and moved, read again, welded, read again", async (t) => {
  const { page, complaints } = await openTack(t, "Tack check", { screen: PHONE, hasTouch: true });
  await settled(page);
  let pictures = 0;
  const picture = async (words) => {
    if (PICTURES) await page.screenshot({ path: join(PICTURES, `tack-walk-${++pictures}-${words}.png`) });
  };
  const advice = () => page.locator(".tack-advice-text").innerText();
  await picture("nothing-read");
  assert.equal(await title(page), "Measure on");
  await page.getByRole("button", { name: "Read: Axle to hole 1", exact: true }).click();
  assert.equal(await page.evaluate(() => document.activeElement.closest(".reading")?.dataset.reading), "hole_1");
  await page.keyboard.press("Enter");
  assert.equal(await page.evaluate(() => document.activeElement.closest(".reading")?.dataset.reading), "hole_2");

  // 1.2 mm too far out and 0.8° askew; the two distances from the neck are written in each other's place.
  const design = await designOf(page);
  const crooked = bench(design, { radial: 1.2, tilt: 0.8 });
  await typeAll(page, { ...crooked, neck_1: crooked.neck_2, neck_2: crooked.neck_1 });
  await picture("changed-round");
  assert.equal(await title(page), "Measure again");
  assert.match(await advice(), /Neck to hole 1/);
  assert.equal(await page.locator(".reading.contrary:visible").count() >= 2, true);
  await page.getByRole("button", { name: /^Change round/ }).click();
  await settled(page);
  const { tack } = await setup(page);
  assert.deepEqual([tack.before.neck_1, tack.before.neck_2], [crooked.neck_1, crooked.neck_2].map((one) => [Number(one.toFixed(2))]));

  await picture("crooked");
  assert.equal(await title(page), "Break the tack and move the tab");
  const move = await page.locator(".tack-steps .tack-figures > div").allInnerTexts();
  const [inOrOut, , , tilt] = move.map((line) => line.replace(/\s+/g, " ").trim());
  assert.match(inOrOut, /towards the axle$/);
  assert.ok(Math.abs(number(inOrOut) - 1.2) <= 0.02, inOrOut);
  assert.match(tilt, /hole 2 inboard$/);
  assert.ok(Math.abs(number(tilt) - 0.8) <= 0.02, tilt);
  assert.equal(await page.locator(".tack-drawing svg .ellipse").count(), 2);
  await page.locator(".tack-drawing").scrollIntoViewIfNeeded();
  await picture("crooked-drawn");
  const tiltRow = page.locator(".tack-numbers tr", { hasText: "Tilt along the holes" }).first();
  assert.match(await tiltRow.innerText(), /\bout\b/);
  await tiltRow.scrollIntoViewIfNeeded();
  await picture("crooked-numbers");
  assert.ok((await page.locator(".tack-title:visible").boundingBox()).y < 200, "the advice stays in sight");

  // What is taken back with Undo is changed round again.
  await page.locator(".tack-said .button", { hasText: "Undo" }).click();
  await settled(page);
  assert.equal(await title(page), "Measure again");
  await page.getByRole("button", { name: /^Change round/ }).click();
  await settled(page);

  await typeAll(page, bench(design, { radial: 0.1, tilt: 0.1 }));
  await picture("moved");
  assert.equal(await title(page), "Weld it");
  assert.equal(await page.locator(".tack-numbers [data-tone=hits]").count(), 0);

  await choose(page, "Welded");
  assert.match(await page.locator(".tack-check").innerText(), /Nothing is read on the welded part yet/);
  await typeAll(page, bench(design, { radial: 0.1, tilt: 0.3, out: -0.3 }));
  await picture("welded");
  assert.equal(await title(page), "Good as welded");
  const pull = page.locator(".tack-numbers", { hasText: "Welded against tacked" });
  assert.ok(Math.abs(number(await pull.locator("tr", { hasText: "Tab sideways" }).locator("td").innerText()) + 0.3) <= 0.02);
  assert.ok(Math.abs(number(await pull.locator("tr", { hasText: "Tilt" }).locator("td").innerText()) - 0.2) <= 0.02);
  await pull.scrollIntoViewIfNeeded();
  await picture("pull");
  await choose(page, "Tacked");
  assert.equal(await title(page), "Weld it");
  assert.deepEqual(complaints, []);
});

test("a tab with the setup's own holes serves its rotor; a tap makes another place the setup, and Undo takes it back", async (t) => {
  const { page, complaints } = await openTack(t, "Bought tab", { screen: PHONE });
  const before = await setup(page);
  assert.match(await page.locator(".tack-bought").innerText(), /Type all of them/);
  await page.getByRole("button", { name: "Start from the setup\u2019s holes" }).click();
  await settled(page);
  assert.equal(await title(page), "Serves 203 mm");
  assert.deepEqual((await setup(page)).wheel, before.wheel, "what is typed here is no part of the setup");
  const uses = page.locator(".tack-use");
  await uses.last().click();
  await settled(page);
  const now = await setup(page);
  assert.equal(now.wheel.rotor_diameter, 203);
  assert.ok(Math.abs(now.tab.reach) < 0.01);
  assert.notEqual(now.tab.clock, before.tab.clock);
  const { pairs } = await report(page, now);
  assert.ok(pairs.every(({ verdict }) => verdict === "clears"), "there everything clears");
  await page.locator(".tack-said .button", { hasText: "Undo" }).click();
  await untilPainted(page);
  assert.deepEqual((await setup(page)).tab, before.tab);

  // Holes 11.5 mm nearer to the axle carry the caliper to a rotor 23 mm smaller.
  const { holes, hole_spacing: spacing } = await report(page, before);
  const clock = before.tab.clock * Math.PI / 180;
  const nearer = holes.map(({ back, up }) => [back - 11.5 * Math.sin(clock), up - 11.5 * Math.cos(clock)]);
  await choose(page, "Distances");
  for (const [label, value] of [["Axle to hole 1", Math.hypot(...nearer[0])], ["Axle to hole 2", Math.hypot(...nearer[1])], ["Hole to hole", spacing]]) {
    await page.locator(".tack-bought").getByLabel(label, { exact: true }).fill(value.toFixed(3));
  }
  await settled(page);
  const card = page.locator(".tack-rotor", { hasText: "Rotor 180 mm: serves" });
  await card.waitFor();
  assert.match(await page.locator("details", { hasText: "Rotors that it does not serve" }).innerText(), /\(4\)/);
  await choose(page, "Places");
  await page.locator(".tack-bought").getByLabel("Hole 1 behind the axle", { exact: true }).fill("x");
  assert.equal(await page.locator(".tack-bought [aria-invalid=true]").count(), 1);
  assert.deepEqual(complaints, []);
});

test("the record is one page of its own, with a builder's own words as words", { skip: LACKS.media }, async (t) => {
  const { page, complaints } = await openTack(t, "Tack check", { screen: PHONE, colorScheme: "dark" });
  await settled(page);
  const design = await designOf(page);
  await page.evaluate(() => {
    const name = document.querySelector("[data-path=name]");
    name.value = "Bakery <b>trike</b>";
    name.dispatchEvent(new Event("input", { bubbles: true }));
    globalThis.print = () => dispatchEvent(new Event("beforeprint"));
  });
  await typeAll(page, bench(design, { radial: 0.1, tilt: 0.2 }));
  await choose(page, "Welded");
  await typeAll(page, bench(design, { radial: 3, tilt: 1.2, out: 0.5 }));
  await page.getByRole("button", { name: "Print the record on one page" }).click();
  await page.emulateMedia({ media: "print" });
  await untilPainted(page);
  const text = await page.locator(".record").innerText();
  for (const part of ["Tack check: Bakery <b>trike</b>", "Welded: Cut it off and weld it anew", "can injure or kill", "Neck to hole 2", "Tilt along the holes", "Checked by"]) {
    assert.ok(text.includes(part), `${part} in ${text}`);
  }
  const shown = await page.evaluate(() => [...document.body.children].filter((child) => child.checkVisibility()).map(({ className }) => className));
  assert.deepEqual(shown, ["record"]);
  await page.emulateMedia({ media: "screen" });
  await page.evaluate(() => dispatchEvent(new Event("afterprint")));
  assert.equal(await page.locator(".record").count(), 0);
  assert.equal(await page.locator(".printing-record").count(), 0);
  assert.deepEqual(complaints, []);
  // Chromium alone prints to a file, which ends with an "afterprint" event of its own.
  for (const format of browser.browserType().name() === "chromium" ? ["A4", "Letter"] : []) {
    await page.getByRole("button", { name: "Print the record on one page" }).click();
    await page.emulateMedia({ media: "print" });
    const pages = (await page.pdf({ format })).toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)?.length;
    assert.equal(pages, 1, format);
    await page.locator(".record").waitFor({ state: "detached" });
    await page.emulateMedia({ media: "screen" });
  }
});

const STATES = {
  "Line-up": async () => {},
  "Tack check": async () => {},
  "Tack check with a contradiction": async (page) => {
    const read = bench(await designOf(page), { radial: 1.2 });
    await typeAll(page, { ...read, neck_1: read.neck_2, neck_2: read.neck_1 });
  },
  "Tack check solved": async (page) => {
    const design = await designOf(page);
    await typeAll(page, bench(design, { radial: 1.2, tilt: 0.8 }));
    await page.locator(".reading .help:visible").first().click();
    await choose(page, "Welded");
    await typeAll(page, bench(design, { radial: 0.1 }));
  },
  "Tack check refused": async (page) => {
    await type(page, "rotor", "wide");
    await page.locator(".tack-refusals:visible").waitFor();
  },
  "Bought tab": async (page) => {
    await page.getByRole("button", { name: "Start from the setup\u2019s holes" }).click();
    await settled(page);
    await page.locator(".tack-use").last().click();
    await settled(page);
  },
};

async function enter(page, state) {
  const [part] = ["Line-up", "Tack check", "Bought tab"].filter((name) => state.startsWith(name));
  await choose(page, part);
  if (part !== "Bought tab") await settled(page);
  await STATES[state](page);
  await page.locator(".tack-page details").evaluateAll((folds) => folds.forEach((fold) => { fold.open = true; }));
  await untilPainted(page);
}

for (const [index, { screen, colorScheme }] of LOOKS.entries()) {
  // The first look in all states, the others in those with most to see.
  const states = index === 0 ? Object.keys(STATES) : ["Line-up", "Tack check solved"];
  test(`at ${named(screen)}, ${colorScheme}, axe-core finds nothing serious in ${states.length} states, and targets are at least 44 px`, async (t) => {
    const { page } = await openTack(t, "Line-up", { screen, colorScheme });
    for (const state of states) {
      await enter(page, state);
      assert.deepEqual(await seriousFindings(page, "#panel"), [], state);
      const small = await page.evaluate((least) => {
        const kinds = "button, input:not([type=radio], [type=checkbox]), summary, .switch label, label:has([type=checkbox])";
        return [...document.querySelectorAll(`.tack-page :is(${kinds})`)].filter((target) => target.checkVisibility()).map((target) => {
          const { width, height } = target.getBoundingClientRect();
          return { name: target.ariaLabel || target.textContent.trim(), width, height };
        }).filter(({ width, height }) => width < least || height < least);
      }, TARGET_PX);
      assert.deepEqual(small, [], state);
    }
  });
}

test("nothing of it is wider than the window, however narrow or low that is", async (t) => {
  const { page } = await openTack(t, "Line-up", { screen: SCREENS_TO_FIT[0] });
  for (const state of ["Line-up", "Tack check solved", "Bought tab"]) {
    await enter(page, state);
    for (const screen of SCREENS_TO_FIT) {
      await page.setViewportSize(screen);
      await untilPainted(page);
      const [content, view] = await page.locator("#panel-body").evaluate((body) => [body.scrollWidth, body.clientWidth]);
      assert.ok(content <= view, `${state} at ${named(screen)}: ${content} px of content in ${view} px`);
    }
  }
});

test("numbers and verdicts are written in inches too", async (t) => {
  const { page } = await openSite(t, browser, { screen: DESK });
  await page.locator("#unit-switch").getByRole("radio", { name: "inch", exact: true }).check({ force: true });
  await page.locator("[data-panel=build]").click();
  await page.getByRole("radio", { name: "Tack", exact: true }).check({ force: true });
  await choose(page, "Tack check");
  await settled(page);
  const design = await designOf(page);
  const read = bench(design, { radial: 0.1 });
  for (const [key, value] of Object.entries(read)) await type(page, key, (value / INCH).toFixed(4));
  await settled(page);
  assert.equal(await title(page), "Weld it");
  assert.ok(Math.abs((await setup(page)).tack.before.hole_1[0] - read.hole_1) < 0.002);
  assert.match(await reading(page, "hole_1").locator(".reading-designed").innerText(), /^drawn 4\.791"$/);
  assert.ok((await page.locator(".tack-check").innerText()).includes("\u00b1 0.00"), "± in thousandths");
  assert.doesNotMatch(await page.locator(".tack-results").innerText(), /\d mm/);
});
