// Usable by everyone: no serious finding of axe-core, no sideways scroll, targets a thumb can hit, keys alone.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { PHONE, SCREENS, launch, named, openAllDetails, openSite, typeInto, untilPainted, untilVerdict } from "./harness.js";

const AXE = await readFile(new URL(import.meta.resolve("axe-core/axe.min.js")), "utf8");
const WIDTHS = [320, 390, 768, 844, 1280];
/** Common practice for targets that thumbs and gloves have to hit; less by a rounding. */
const TARGET_PX = 44 - 0.01;
const TABS_TO_ROTOR = 20;
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

const STATES = {
  "as it starts": async () => {},
  "after a hit": (page) => typeInto(page, "wheel.rotor_diameter", "180"),
  "with refused values": async (page) => {
    await typeInto(page, "wheel.rotor_diameter", "abc");
    await typeInto(page, "wheel.hub_width", "99999");
  },
  "with all groups open": openAllDetails,
  "with all searches answered": async (page) => {
    await typeInto(page, "wheel.hub_width", "100");
    await typeInto(page, "wheel.rotor_diameter", "180");
    await openAllDetails(page);
    await page.locator("#fixes .choice").first().waitFor();
    await page.locator("#what-if .cell").nth(19).waitFor();
    await page.locator("#two-rotors li").nth(9).waitFor();
    await page.locator("#side-by-side svg").nth(1).waitFor();
    await page.locator("#positions .cell").nth(7).waitFor();
    await page.locator("#shortest .button", { hasText: "Use it" }).waitFor();
    await page.locator("#rotor-list-input").fill("many");
    await page.locator("#what-if .cell").first().click();
  },
  "with the safety notice": (page) => page.locator("[data-opens=safety]").first().click(),
};

for (const screen of SCREENS) {
  for (const colorScheme of ["light", "dark"]) {
    for (const [state, enter] of Object.entries(STATES)) {
      test(`at ${named(screen)}, ${colorScheme}, ${state}, axe-core finds nothing serious`, async (t) => {
        const { page } = await openSite(t, browser, { screen, colorScheme });
        await enter(page);
        await untilPainted(page);
        await page.evaluate(AXE);
        const { violations } = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ["violations"] }));
        const serious = violations.filter(({ impact }) => impact === "serious" || impact === "critical");
        const told = serious.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(" ")).join(", ")}`);
        assert.deepEqual(told, []);
      });
    }
  }
}

for (const width of WIDTHS) {
  test(`at a width of ${width} px nothing scrolls sideways, whatever is open or refused`, async (t) => {
    const { page } = await openSite(t, browser, { screen: { width, height: 800 } });
    for (const enter of [STATES["as it starts"], STATES["with refused values"], STATES["with all groups open"], STATES["with all searches answered"]]) {
      await enter(page);
      await untilPainted(page);
      const [content, view] = await page.evaluate(() => {
        const root = document.documentElement;
        return [Math.max(root.scrollWidth, document.body.scrollWidth), root.clientWidth];
      });
      assert.ok(content <= view, `${content} px of content in ${view} px`);
    }
  });
}

for (const screen of SCREENS) {
  test(`at ${named(screen)} every target among the main controls is at least 44 px wide and high`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    const targets = await page.evaluate(() => {
      const places = ".head, .stage-bar, [aria-labelledby=sliders-title], [aria-labelledby=windows-title]"
        + ", [aria-labelledby=searches-title], #groups, .foot";
      const kinds = "button, input:not([type=radio], [type=checkbox]), select, summary, .switch label, label:has([type=checkbox])";
      return [...document.querySelectorAll(places)]
        .flatMap((place) => [...place.querySelectorAll(kinds)])
        .filter((target) => target.checkVisibility())
        .map((target) => {
          const { width, height } = target.getBoundingClientRect();
          return { name: target.id || target.ariaLabel || target.textContent.trim(), width, height };
        });
    });
    assert.ok(targets.length > 20, `${targets.length} targets`);
    assert.deepEqual(targets.filter(({ width, height }) => width < TARGET_PX || height < TARGET_PX), []);
  });

  test(`at ${named(screen)} keys alone reach and move the rotor slider`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    const focusName = () => page.evaluate(() => document.activeElement?.getAttribute("aria-label") ?? "");
    let tabs = 0;
    while (!/^Rotor size.*slider$/.test(await focusName())) {
      assert.ok(tabs++ < TABS_TO_ROTOR, "Tab does not reach the rotor's slider");
      await page.keyboard.press("Tab");
    }
    await page.keyboard.press("ArrowLeft");
    await untilPainted(page);
    assert.equal(await page.inputValue("#wheel-rotor_diameter"), "202");
    for (let presses = 0; presses < 22; presses++) await page.keyboard.press("ArrowLeft");
    await untilVerdict(page, "Hits");
  });

  test(`at ${named(screen)} the safety notice opens with Enter and closes with Escape`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    const button = page.getByRole("button", { name: "Safety", exact: true });
    const dialog = page.getByRole("dialog", { name: "Safety" });
    await button.focus();
    await page.keyboard.press("Enter");
    await dialog.waitFor({ state: "visible" });
    assert.match(await dialog.innerText(), /injure or kill/);
    await page.keyboard.press("Escape");
    await dialog.waitFor({ state: "hidden" });
    assert.ok(await button.evaluate((element) => element === document.activeElement), "the focus is back on its button");
  });
}

test("on a phone the drawing stays in view, and clear of the slider, while any slider is moved", async (t) => {
  const { page } = await openSite(t, browser, { screen: PHONE });
  for (const slider of await page.getByRole("slider", { name: /, slider$/ }).all()) {
    await slider.focus();
    await slider.scrollIntoViewIfNeeded();
    const boxes = [await page.locator(".picture:not([hidden]) svg").boundingBox(), await slider.boundingBox()];
    const [picture, control] = boxes.map(({ y, height }) => ({ top: y, bottom: y + height }));
    assert.ok(picture.top >= 0 && picture.bottom <= PHONE.height, `the drawing spans ${picture.top} to ${picture.bottom}`);
    assert.ok(control.top >= picture.bottom && control.bottom <= PHONE.height, `the slider spans ${control.top} to ${control.bottom}`);
  }
});
