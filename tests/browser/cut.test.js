// From numbers to steel: pieces, holes, choices, files, the paper template, welding; what stops them, and that all can use it.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import jsQR from "jsqr";
import { seriousFindings } from "./findings.js";
import { DESK, LACKS, PHONE, THOROUGH, launch, openSite, typeInto, untilOffline, untilPainted, withoutPictures } from "./harness.js";

const SMALL = { width: 320, height: 568 };
const LOW = { width: 844, height: 390 };
/** A phone of 390 with everything twice as large. */
const TWICE = { width: 195, height: 422 };
/** The narrowest window that every engine's automation can make. */
const NARROWEST = 306;
const TARGET_PX = 44 - 0.01;
/** ISO 216 and, for US Letter, ANSI/ASME Y14.1: from memory. */
const PAPER_MM = { A4: [210, 297], "US Letter": [215.9, 279.4] };
const POINTS_PER_MM = 72 / 25.4;
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

const isChromium = () => browser.browserType().name() === "chromium";
const answer = (page) => page.locator(".cut-answer");
const part = (page, heading) => page.locator(".cut-answer > section", { has: page.locator("h3", { hasText: new RegExp(`^${heading}$`) }) });
const verdict = (page) => page.locator(".cut-verdict").innerText();

/** Until the sheet is that of what is typed, and its files are there. */
async function untilCut(page) {
  await untilPainted(page);
  await page.locator(".cut-answer:not(.outdated):not([hidden])").waitFor();
}

async function openCut(t, options = {}) {
  const opened = await openSite(t, browser, options);
  await opened.page.getByRole("button", { name: "Build", exact: true }).click();
  await untilCut(opened.page);
  return opened;
}

async function openChoices(page) {
  await page.locator(".cut-choices > summary").click();
}

/** The row of a table by its first cell. @returns {Promise<string[]>} */
async function cells(page, heading, name) {
  const row = part(page, heading).locator("tr", { has: page.locator("th[scope=row]", { hasText: new RegExp(`^${name}`) }) }).first();
  return (await row.locator("td").allInnerTexts()).map((text) => text.replace(/\s+/g, " ").trim());
}

async function choose(page, label, word) {
  await page.locator(".cut").getByLabel(label, { exact: true }).selectOption({ label: word });
  await untilCut(page);
}

async function saved(page, name) {
  const [file] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: `Save ${name}`, exact: true }).click()]);
  return { name: file.suggestedFilename(), text: await readFile(await file.path(), "utf8") };
}

test("the sheet shows both pieces with their size and mass, and the holes where the caliper's own numbers put them", async (t) => {
  const { page, complaints } = await openCut(t, { screen: PHONE });
  assert.match(await verdict(page), /^Clears\./);
  assert.deepEqual(await page.locator(".cut-piece h4").allInnerTexts(), ["Dropout with tab", "Dropout of the other leg"]);
  assert.equal(await page.locator(".cut-piece:first-child .cut-drawing .cut-hole").count(), 2);
  // By hand for the example: pads' middle at 101.5 − 0.5 − 8 = 93 from the axle, holes 26 further out and 25.5 to each side, turned 28° back.
  const [sin, cos] = [Math.sin(28 * Math.PI / 180), Math.cos(28 * Math.PI / 180)];
  const expected = [-25.5, 25.5].map((cw) => [119 * sin + cw * cos, 119 * cos - cw * sin]);
  for (const [index, name] of ["Back", "Up"].entries()) {
    const shown = (await cells(page, "Holes", `${name}$`)).map(parseFloat);
    shown.forEach((value, hole) => assert.ok(Math.abs(value - expected[hole][index]) <= 0.005, `${name}: ${shown}`));
  }
  // ISO 273: M6, medium series 6.6. ISO 2768-1, m: ±0.3 over 30 to 120, ±0.5 over 120 to 400.
  assert.deepEqual(await cells(page, "Holes", "Drill"), ["6.60", "6.60"]);
  assert.match((await cells(page, "Holes", "Back$"))[0], / ±0\.30$/);
  assert.match((await cells(page, "Holes", "From the axle"))[0], / ±0\.50$/);
  // Thickness 6 and steel of 7.85 g/cm³ with the area shown, to a gram.
  const area = parseFloat((await cells(page, "Pieces", "Area"))[0]);
  const mass = parseFloat((await cells(page, "Pieces", "Mass"))[0]);
  assert.ok(Math.abs(area * 100 * 6 * 7.85e-3 - mass) <= 1, `${area} cm², ${mass} g`);

  await page.getByLabel("With the other leg\u2019s dropout, which has no tab").uncheck();
  await untilCut(page);
  assert.deepEqual(await page.locator(".cut-piece h4").allInnerTexts(), ["Dropout with tab"]);
  assert.deepEqual(complaints, []);
});

test("choices change the setup: fit, tolerances, build and material; Undo takes them back", async (t) => {
  const { page } = await openCut(t);
  await openChoices(page);
  await choose(page, "Hole fit", "Fine");
  assert.deepEqual(await cells(page, "Holes", "Drill"), ["6.40", "6.40"]);
  await choose(page, "Tolerances", "f: fine");
  assert.match((await cells(page, "Holes", "Back$"))[0], / ±0\.15$/);
  const steel = parseFloat((await cells(page, "Pieces", "Mass"))[0]);
  await choose(page, "Plate material", "Aluminium 6061-T6");
  const light = parseFloat((await cells(page, "Pieces", "Mass"))[0]);
  assert.ok(Math.abs(light / steel - 2.7 / 7.85) < 0.01, `${light} of ${steel}`);
  assert.match(await part(page, "Welding").innerText(), /cannot be welded to a steel tube/);

  assert.equal(await page.locator(".cut [data-key='tab.old_edge']").isVisible(), false);
  await choose(page, "Build", "Tab welded to a dropout that is there");
  assert.deepEqual(await page.locator(".cut-piece h4").allInnerTexts(), ["Tab"]);
  assert.equal(await page.locator(".cut").getByLabel("Old plate's edge, point 2, Above the axle").inputValue(), "100");
  assert.ok((await cells(page, "Holes", "From the old plate")).every((text) => parseFloat(text) > 0));
  await choose(page, "Build", "Tab butt-welded to the dropout");
  assert.equal(await page.locator(".cut-piece").count(), 3);
  assert.match(await part(page, "Welding").innerText(), /gap of 1\.6 mm/);

  const ids = await page.evaluate(() => [...document.querySelectorAll("[id]")].map(({ id }) => id).filter((id, index, all) => all.indexOf(id) !== index));
  assert.deepEqual(ids, [], "no two things go by one name");
  await page.keyboard.press("Escape");
  assert.equal(await page.locator("#tab-build").inputValue(), "butt_welded");
  // Quick ones after each other are one step.
  for (const undo = page.locator("#undo"); await undo.isEnabled(); await untilPainted(page)) await undo.click();
  assert.equal(await page.locator("#tab-build").inputValue(), "one_piece");
  assert.equal(await page.locator("#cut-hole_fit").inputValue(), "medium");
});

test("what is thin, and fillets that come too near, stand first in words and beside their fields", async (t) => {
  const { page } = await openCut(t);
  assert.equal(await page.locator(".cut-warnings").isVisible(), false);
  await openChoices(page);
  const least = page.locator(".cut").getByLabel("Least edge", { exact: true });
  await least.fill("7");
  await untilCut(page);
  const warning = page.locator(".cut-warnings .link").first();
  assert.match(await warning.innerText(), /^Hole A to the edge: 5\.7 mm of material, less than the 7\.0 mm/);
  assert.equal((await cells(page, "Enough left", "Hole A to the edge")).at(-1), "Thin");
  assert.equal(await page.locator(".cut-thin").count() > 0, true);
  const above = await page.evaluate(() => {
    const [first, second] = [".cut-warnings", ".cut-answer"].map((name) => document.querySelector(name));
    return Boolean(first.compareDocumentPosition(second) & Node.DOCUMENT_POSITION_FOLLOWING);
  });
  assert.ok(above);

  // The field named has no place on this page: the panel makes way for it.
  await warning.click();
  await untilPainted(page);
  assert.equal(await page.locator("#panel[open]").count(), 0);
  assert.equal(await page.evaluate(() => document.activeElement.dataset.path), "tab.edge");
});

test("a setup that hits says so before all else; one without a shape shows why and no sheet", async (t) => {
  const { page } = await openSite(t, browser, { screen: PHONE });
  await typeInto(page, "wheel.rotor_diameter", "180");
  await page.getByRole("button", { name: "Build", exact: true }).click();
  await untilCut(page);
  assert.match(await verdict(page), /^Hits\./);
  assert.match(await page.locator(".cut-warnings").innerText(), /Do not cut it as it is/);
  await page.locator("#panel").getByRole("button", { name: "Close" }).click();
  await typeInto(page, "dropout.slot_direction", "0");
  await page.getByRole("button", { name: "Build", exact: true }).click();
  const problem = page.locator(".cut-problems .link");
  await problem.waitFor();
  assert.match(await problem.innerText(), /runs into the tube\. Turn it away from the leg/);
  assert.equal(await answer(page).isVisible(), false);
  await problem.click();
  assert.equal(await page.evaluate(() => document.activeElement.dataset.path), "dropout.slot_direction");
});

test("with a value refused, the last good sheet stays in sight and nothing can be taken from it", async (t) => {
  const { page } = await openCut(t);
  await openChoices(page);
  const fillet = page.locator(".cut").getByLabel("Fillet radius", { exact: true });
  await fillet.fill("many");
  await page.locator(".cut-stale:visible").waitFor();
  await untilCut(page);
  assert.equal(await fillet.getAttribute("aria-invalid"), "true");
  assert.equal(await page.getByRole("button", { name: "Template to print" }).isDisabled(), true);
  for (const save of await page.locator(".cut-files").getByRole("button", { name: /^Save/ }).all()) assert.equal(await save.isDisabled(), true);
  assert.equal(await page.locator(".cut-piece").count(), 2);
  await page.keyboard.press("Tab");
  await page.locator(".cut-problems .link").click();
  assert.equal(await fillet.evaluate((input) => input === document.activeElement), true);
  await fillet.fill("6");
  await untilCut(page);
  assert.equal(await page.getByRole("button", { name: "Template to print" }).isDisabled(), false);
});

test("files go by names that say what they hold; the width of the cut makes other files and is told", async (t) => {
  const { page } = await openCut(t, { screen: PHONE });
  const r12 = await saved(page, "DXF, release 12");
  assert.equal(r12.name, "tabwright-rotor-203-hub-100-left-cut-r12.dxf");
  assert.match(r12.text, /\$ACADVER\n1\nAC1009\n/);
  assert.match(r12.text, /\n42\n/);
  const r2000 = await saved(page, "DXF, release 2000");
  assert.match(r2000.text, /\$INSUNITS\n70\n4\n/);
  assert.match(r2000.text, /LWPOLYLINE/);
  const svg = await saved(page, "SVG for cutting");
  assert.match(svg.text, /^<svg[^>]* width="[\d.]+mm"/);
  assert.match((await saved(page, "SVG of the template")).name, /-template\.svg$/);

  const kerf = page.getByLabel("Width of the cut (kerf)", { exact: true });
  await kerf.fill("0.3");
  await untilCut(page);
  assert.match(await page.locator(".cut-files").innerText(), /larger by 0\.15 mm all round .* tell the shop/);
  const wide = await saved(page, "DXF, release 2000");
  assert.match(wide.name, /-kerf-0\.3-/);
  // The hole of 6.6 is cut 6.3 wide: a circle's radius stands behind group code 40.
  assert.match(wide.text, /CIRCLE[\s\S]*?\n40\n3\.15\n/);
  assert.match(r2000.text, /CIRCLE[\s\S]*?\n40\n3\.3\n/);
  await kerf.fill("wide");
  await page.locator(".cut-files .field-note:visible").waitFor();
  assert.match(await page.locator(".cut-files .field-note").innerText(), /must be a number/);
  assert.equal(await page.getByRole("button", { name: "Save DXF, release 12" }).isDisabled(), true);
});

test("inches: the same steel in the other unit", async (t) => {
  const { page } = await openSite(t, browser);
  await page.getByRole("radio", { name: "inch" }).check({ force: true });
  await page.getByRole("button", { name: "Build", exact: true }).click();
  await untilCut(page);
  assert.deepEqual(await cells(page, "Holes", "Drill"), ["0.260", "0.260"]);
  assert.match((await cells(page, "Pieces", "Mass"))[0], /^0\.\d\d lb$/);
  assert.match((await cells(page, "Pieces", "Thickness"))[0], /"$/);
});

/** On paper, there is the template alone, and it is as large as it should be. */
async function measured(page, paper) {
  await page.emulateMedia({ media: "print" });
  const shown = await page.evaluate(() => [...document.body.children].filter((child) => child.checkVisibility()).map(({ className }) => className));
  assert.deepEqual(shown, [`template-sheets template-${paper === "A4" ? "a4" : "letter"}`]);
  // 96 pixels of CSS are 25.4 mm.
  const boxes = await page.locator(".template-sheet").first().evaluate((sheet) => {
    const box = (element) => [element.getBoundingClientRect().width, element.getBoundingClientRect().height].map((px) => px * 25.4 / 96);
    return { sheet: box(sheet), across: box(sheet.querySelector(".template-bar-across"))[0], up: box(sheet.querySelector(".template-bar-up"))[1] };
  });
  PAPER_MM[paper].forEach((mm, axis) => assert.ok(Math.abs(boxes.sheet[axis] - mm) < 0.05, `${boxes.sheet}`));
  for (const bar of [boxes.across, boxes.up]) assert.ok(Math.abs(bar - 100) < 0.05, `bar of ${bar} mm`);
}

for (const paper of ["A4", "US Letter"]) {
  test(`the template in ${paper}: every page with its bars, the setup's code to scan, and paper of that size alone`, async (t) => {
    const { page, complaints } = await openSite(t, browser, { screen: PHONE });
    await typeInto(page, "name", "Bakery trike");
    await typeInto(page, "tab.clock", "75");
    await page.getByRole("button", { name: "Build", exact: true }).click();
    await untilCut(page);
    await page.getByRole("radio", { name: paper, exact: true }).check({ force: true });
    await untilCut(page);
    const title = await page.title();
    await page.getByRole("button", { name: "Template to print" }).click();
    const dialog = page.getByRole("dialog", { name: new RegExp(`^Template, ${paper}`) });
    assert.match(await dialog.innerText(), /Print at 100 %.*Measure both bars/s);
    const pages = await page.locator(".template-sheet").count();
    assert.equal(await dialog.locator("figure").count(), pages);
    assert.match(await page.title(), /-template-(a4|letter)$/);
    const text = await page.locator(".template-sheets").evaluate((sheets) => sheets.textContent);
    for (const words of [/Bakery trike/, /Rotor 203 mm, hub 100 mm/, /not an approval/, new RegExp(String(new Date().getFullYear()))]) assert.match(text, words);

    if (!LACKS.media) await measured(page, paper);
    if (isChromium()) {
      const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
      assert.equal(pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length, pages);
      for (const box of pdf.matchAll(/\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/g)) {
        [box[1], box[2]].forEach((side, axis) => assert.ok(Math.abs(side / POINTS_PER_MM - PAPER_MM[paper][axis]) < 0.5, box[0]));
      }
    }
    if (!LACKS.media) await page.emulateMedia({ media: "screen" });
    await dialog.getByRole("button", { name: "Close" }).click();
    assert.equal(await page.locator(".template-sheets").count(), 0);
    assert.equal(await page.title(), title);

    // Without the template in sight, print is the page's own sheet.
    await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
    assert.ok(await page.locator(".sheet").count() > 0);
    if (!LACKS.media) {
      await page.emulateMedia({ media: "print" });
      assert.equal(await page.locator(".sheet").first().isVisible(), true);
    }
    assert.deepEqual(complaints, []);
  });
}

test("another program reads the code on the template; a page saved by itself has it too", { skip: LACKS.pictures }, async (t) => {
  const { page, complaints } = await openCut(t);
  await page.getByRole("button", { name: "Template to print" }).click();
  const [file] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save page 1 of 1 as SVG" }).click()]);
  assert.match(file.suggestedFilename(), /-template-(a4|letter)-page-1-of-1\.svg$/);
  const svg = await readFile(await file.path(), "utf8");
  assert.match(svg, /class="code-mark"/);
  const { width, height, greys } = await page.evaluate(async (text) => {
    const image = new Image();
    image.src = `data:image/svg+xml,${encodeURIComponent(text)}`;
    await image.decode();
    const canvas = document.createElement("canvas");
    // The lower right part, where the code stands.
    const [whole, high] = [image.width * 2, image.height * 2];
    [canvas.width, canvas.height] = [Math.round(whole * 0.3), Math.round(high * 0.3)];
    const context = canvas.getContext("2d");
    context.fillStyle = "#fff";
    context.fillRect(0, 0, canvas.width, canvas.height);
    context.drawImage(image, canvas.width - whole, canvas.height - high, whole, high);
    const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
    return { width: canvas.width, height: canvas.height, greys: Array.from({ length: data.length / 4 }, (_, index) => data[index * 4]) };
  }, svg);
  const pixels = new Uint8ClampedArray(greys.flatMap((grey) => [grey, grey, grey, 255]));
  const read = jsQR(pixels, width, height)?.data;
  assert.ok(read?.startsWith(page.url().split("#")[0]), read);
  assert.match(read, /#v=\d+/);
  assert.deepEqual(withoutPictures(complaints), []);
});

test("without a network, sheet, files and template are made as before", { skip: LACKS.keptFiles }, async (t) => {
  const { page, site } = await openSite(t, browser, { screen: PHONE });
  await untilOffline(page);
  await site.stop();
  await page.reload();
  await page.getByRole("button", { name: "Build", exact: true }).click();
  await untilCut(page);
  assert.match((await saved(page, "DXF, release 12")).text, /POLYLINE/);
  await page.getByRole("button", { name: "Template to print" }).click();
  assert.ok(await page.locator(".cut-paper svg").first().isVisible());
});

test("the check list keeps its ticks, and the cautions stand before how to weld", async (t) => {
  const { page } = await openCut(t, { screen: PHONE, hasTouch: true });
  const welding = part(page, "Welding");
  const text = await welding.innerText();
  for (const word of [/qualified welder/, /fume/, /Zinc, chrome/, /Arc light/, /fires/, /local rules/i]) assert.match(text, word);
  assert.ok(text.search(/qualified welder/) < text.search(/Side to weld/));
  const boxes = welding.getByRole("checkbox");
  await boxes.nth(2).check();
  await openChoices(page);
  await choose(page, "Hole fit", "Coarse");
  assert.equal(await boxes.nth(2).isChecked(), true);
});

// What axe-core finds hardly depends on the window.
for (const [screen, colorScheme, isAsked = THOROUGH] of [[SMALL, "light"], [LOW, "dark"], [DESK, "light"], [TWICE, "dark", true]]) {
  test(`at ${screen.width}x${screen.height}, ${colorScheme}, no serious finding, no sideways scroll, targets to hit`, { skip: screen.width < NARROWEST && LACKS.narrow }, async (t) => {
    const { page } = await openCut(t, { screen, colorScheme, hasTouch: screen !== DESK });
    await openChoices(page);
    const states = {
      "as it starts": async () => {},
      "with warnings and helps": async () => {
        await page.locator(".cut").getByLabel("Least edge", { exact: true }).fill("9");
        await untilCut(page);
        await page.locator(".cut .help").evaluateAll((all) => all.forEach((help) => help.click()));
      },
      "on a plate that is there": () => choose(page, "Build", "Tab welded to a dropout that is there"),
      "refused": async () => {
        await page.locator(".cut").getByLabel("Fillet radius", { exact: true }).fill("x");
        await page.locator(".cut-stale:visible").waitFor();
        await untilCut(page);
      },
      "with the template": async () => {
        await page.locator(".cut").getByLabel("Fillet radius", { exact: true }).fill("6");
        await untilCut(page);
        await page.getByRole("button", { name: "Template to print" }).click();
      },
    };
    for (const [state, enter] of Object.entries(states)) {
      await enter();
      if (isAsked) assert.deepEqual(await seriousFindings(page, "#panel"), [], state);
      const body = page.locator(state === "with the template" ? ".cut-template-body" : "#panel-body");
      assert.ok(await body.evaluate((element) => element.scrollWidth <= element.clientWidth), `${state}: scrolls sideways`);
      const small = await body.locator("button:visible, .number-input:visible, .select-input:visible, .switch label:visible, .cut-tick:visible, .cut-checklist label:visible, summary:visible").evaluateAll((all, least) => all
        .filter((element) => element.getBoundingClientRect().height < least)
        .map((element) => element.outerHTML.slice(0, 120)), TARGET_PX);
      assert.deepEqual(small, [], state);
    }
  });
}
