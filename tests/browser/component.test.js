// The drawing as an element of another page, from the built files on another path and under that page's own policy.
import assert from "node:assert/strict";
import { cpSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";
import { SCREENS, launch, named } from "./harness.js";
import { BUILT_SITE, startHost } from "./host.js";

const OWN = fileURLToPath(new URL("./component/", import.meta.url));
const FIXTURES = fileURLToPath(new URL("../../fixtures/", import.meta.url));
const SETUP = JSON.parse(readFileSync(`${FIXTURES}setups/default.json`, "utf8"));
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

/** The page with the element in it, which has drawn the fixture's setup. */
async function openOrder(t, { screen = SCREENS[0], colorScheme = "light" } = {}) {
  const folder = mkdtempSync(join(tmpdir(), "tabwright-"));
  t.after(() => rmSync(folder, { recursive: true, force: true }));
  cpSync(OWN, join(folder, "orders"), { recursive: true });
  cpSync(`${FIXTURES}setups/default.json`, join(folder, "orders/setup.json"));
  cpSync(join(BUILT_SITE, "component"), join(folder, "vendor/fit"), { recursive: true });
  const host = await startHost(t, folder);
  const context = await browser.newContext({ viewport: screen, colorScheme });
  t.after(() => context.close());
  context.setDefaultTimeout(10_000);
  const [complaints, requests] = [[], []];
  const page = await context.newPage();
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("request", (request) => requests.push(request.url()));
  await page.goto(`${host.url}orders/order.html`);
  await page.locator("#fit svg").waitFor();
  return { page, host, complaints, requests };
}

const lastEvent = (page) => page.evaluate(() => window.events.at(-1));
const svgOf = (page) => page.locator("#fit svg").evaluate((svg) => svg.outerHTML);

test("an element draws the setup of its property, with a name, a verdict in words and the caution", async (t) => {
  const { page, host, complaints, requests } = await openOrder(t);
  await page.getByRole("img", { name: /^Side view of .*Everything clears/ }).waitFor();
  assert.match(await page.locator("#fit figure").innerText(), /Clears\.[^]*no approval/);
  assert.match(await svgOf(page), /Rotor, 203\.0 mm/);
  const { type, id, detail } = await lastEvent(page);
  assert.deepEqual([type, id, detail.verdict], ["report", "fit", "clears"]);
  // The same setup through the wasm package itself.
  const wanted = await page.evaluate(async (setup) => {
    const core = await window.component.geometry();
    return core.report(setup).report;
  }, SETUP);
  assert.deepEqual(detail, wanted);
  assert.deepEqual(await page.evaluate(() => document.getElementById("fit").report), wanted);
  const outside = requests.filter((url) => !url.startsWith(`${host.url}orders/`) && !url.startsWith(`${host.url}vendor/fit/`));
  assert.deepEqual(outside.filter((url) => !url.startsWith("data:")), []);
  assert.deepEqual(complaints, []);
});

test("what the builder's page changes by property or attribute is drawn, and the one set last counts", async (t) => {
  const { page, complaints } = await openOrder(t);
  const large = { ...SETUP, wheel: { ...SETUP.wheel, rotor_diameter: 180 } };
  const byProperty = await page.evaluate((setup) => window.changed((fit) => { fit.setup = setup; }), large);
  assert.deepEqual([byProperty.type, byProperty.detail.verdict], ["report", "hits"]);
  assert.match(await svgOf(page), /Rotor, 180\.0 mm/);

  const byAttribute = await page.evaluate((text) => window.changed((fit) => fit.setAttribute("setup", text)), JSON.stringify(SETUP));
  assert.deepEqual([byAttribute.type, byAttribute.detail.verdict], ["report", "clears"]);
  assert.deepEqual(await page.evaluate(() => document.getElementById("fit").setup), SETUP);

  await page.evaluate(() => window.changed((fit) => { fit.view = "section"; }));
  assert.match(await svgOf(page), /^<svg[^>]*view-section/);
  await page.getByRole("img", { name: /^Section along the leg\. Everything clears/ }).waitFor();
  assert.deepEqual(complaints, []);
});

test("several changes in one go are one drawing", async (t) => {
  const { page } = await openOrder(t);
  const before = await page.evaluate(() => window.events.length);
  await page.evaluate((setup) => window.changed((fit) => {
    fit.view = "section";
    fit.setup = { ...setup, side: "right" };
    fit.view = "side";
  }), SETUP);
  await page.evaluate(() => new Promise((resolve) => setTimeout(resolve)));
  assert.equal(await page.evaluate(() => window.events.length), before + 1);
});

const MISTAKES = [
  ["a broken text", (fit) => fit.setAttribute("setup", "{oops"), /“setup” is not JSON/],
  ["a value out of range", (fit) => fit.setAttribute("setup", JSON.stringify({ ...fit.setup, wheel: { ...fit.setup.wheel, rotor_diameter: 9999 } })), /Rotor size.*90 to 320 mm/],
  ["an unknown view", (fit) => { fit.view = "top"; }, /no view "top".*"side" or "section"/],
  ["no setup at all", (fit) => { fit.setup = null; }, /No setup is given/],
  ["something that is no data", (fit) => { fit.setup = 7; }, /./],
];
for (const [name, change, words] of MISTAKES) {
  test(`${name} is explained in words and in an event, and the next good setup is drawn`, async (t) => {
    const { page, complaints } = await openOrder(t);
    const told = await page.evaluate(`window.changed(${change})`);
    assert.equal(told.type, "problems");
    assert.match(told.detail[0].message, words);
    assert.equal(await page.getByRole("alert").innerText(), told.detail.map(({ message }) => message).join("\n"));
    assert.equal(await page.locator("#fit svg").isVisible(), false, "no drawing that belongs to something else");
    assert.equal(await page.evaluate(() => document.getElementById("fit").report), null);

    const mended = await page.evaluate((setup) => window.changed((fit) => { fit.view = "side"; fit.setup = setup; }), SETUP);
    assert.equal(mended.type, "report");
    assert.ok(await page.locator("#fit svg").isVisible());
    assert.deepEqual(complaints, []);
  });
}

for (const screen of SCREENS) {
  test(`at ${named(screen)} the element has the size and colours of its style sheet, and those of the page stay outside`, async (t) => {
    const { page } = await openOrder(t, { screen });
    const { fit, svg, fill, sheet } = await page.locator("#fit").evaluate((element) => {
      const drawn = element.shadowRoot.querySelector("svg");
      const size = (one) => one.getBoundingClientRect().toJSON();
      return {
        fit: size(element),
        svg: size(drawn),
        fill: getComputedStyle(drawn.querySelector(".tube")).fill,
        sheet: getComputedStyle(element).backgroundColor,
      };
    });
    assert.equal(fit.height, 480);
    assert.ok(svg.width > 0.9 * fit.width && svg.bottom < fit.bottom, "the drawing fills it but for its words");
    assert.equal(fill, "rgb(207, 216, 219)", "--steel of css/tokens.css");
    assert.equal(sheet, "rgb(255, 255, 255)", "the page's own --sheet");
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "nothing to scroll sideways");
  });
}
