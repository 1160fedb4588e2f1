// Usable by everyone: no serious finding of axe-core, no sideways scroll, targets a thumb can hit, keys alone.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { seriousFindings } from "./findings.js";
import { DESK, LACKS, LOOKS, PHONE, SCREENS, launch, named, openAllDetails, openSite, some, typeInto, untilPainted, untilVerdict } from "./harness.js";

/** 195 is a phone of 390 with everything twice as large. */
const WIDTHS = [195, 320, 360, 390, 768, 844, 1280];
/** The narrowest window that every engine's automation can make. */
const NARROWEST = 306;
/** A desk's window with everything twice as large. */
const ZOOMED = { width: 640, height: 400 };
/** Common practice for targets that thumbs and gloves have to hit; less by a rounding. */
const TARGET_PX = 44 - 0.01;
const TABS_TO_ROTOR = 20;
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

const STATES = {
  "as it starts": async () => {},
  "when tight, with the drawing zoomed and every help open": async (page) => {
    await typeInto(page, "wheel.hub_width", "115");
    await page.getByRole("button", { name: "Nearer" }).click();
    await page.locator(".help:visible").evaluateAll((buttons) => buttons.forEach((button) => button.click()));
  },
  "when it cannot be built": (page) => typeInto(page, "wheel.hub_width", "190"),
  "with the note after a change": (page) => page.getByRole("button", { name: /^Go to best/ }).first().click(),
  ...Object.fromEntries(["Measure", "Setups", "Send", "Bench"].map((panel) => [
    `with ${panel} open`,
    async (page) => {
      await page.getByRole("button", { name: panel, exact: true }).click();
      await page.locator("#panel[open]").waitFor();
    },
  ])),
  "at the bench with values refused": async (page) => {
    await typeInto(page, "wheel.hub_width", "abc");
    await page.getByRole("button", { name: "Bench", exact: true }).click();
    await page.getByRole("checkbox", { name: "Keep the screen on" }).check();
  },
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

for (const { screen, colorScheme } of LOOKS) {
  for (const [state, enter] of Object.entries(STATES)) {
    test(`at ${named(screen)}, ${colorScheme}, ${state}, axe-core finds nothing serious`, async (t) => {
      const { page } = await openSite(t, browser, { screen, colorScheme });
      await enter(page);
      await untilPainted(page);
      assert.deepEqual(await seriousFindings(page), []);
    });
  }
}

test("at no width anything scrolls sideways, whatever is open or refused", async (t) => {
  const { page } = await openSite(t, browser);
  const screens = [...WIDTHS.map((width) => ({ width, height: 800 })), ZOOMED].filter(({ width }) => !LACKS.narrow || width >= NARROWEST);
  for (const state of ["as it starts", "with refused values", "with all groups open", "with all searches answered"]) {
    await STATES[state](page);
    for (const screen of screens) {
      await page.setViewportSize(screen);
      await untilPainted(page);
      const [content, view] = await page.evaluate(() => {
        const root = document.documentElement;
        return [Math.max(root.scrollWidth, document.body.scrollWidth), root.clientWidth];
      });
      assert.ok(content <= view, `at ${named(screen)}, ${state}, ${content} px of content in ${view} px`);
    }
  }
});

for (const screen of SCREENS) {
  test(`at ${named(screen)} every target among the main controls is at least 44 px wide and high`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    const targets = await page.evaluate(() => {
      const places = ".head, .stage-bar, .zoom, [aria-labelledby=sliders-title], [aria-labelledby=windows-title]"
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

for (const screen of some([{ width: 360, height: 640 }, { width: 844, height: 390 }, ZOOMED, PHONE, DESK], 3)) {
  test(`at ${named(screen)} the buttons for panels, undo and zoom are 44 px or more, apart from each other, and over nothing else`, async (t) => {
    const { page } = await openSite(t, browser, { screen });
    await page.getByRole("button", { name: /^Go to best/ }).first().click();
    await page.locator("#changed.shown").waitFor();
    const boxes = await page.evaluate(() => {
      const parts = [...document.querySelectorAll(".dock-button, .steps button, .zoom button, .head .switch, [data-opens=safety], #view-switch, #verdict, #changed")];
      return parts.filter((part) => part.checkVisibility() && !part.closest(".foot")).map((part) => {
        const { left, top, right, bottom } = part.getBoundingClientRect();
        return { name: part.id || part.ariaLabel || part.textContent.trim(), left, top, right, bottom };
      });
    });
    assert.ok(boxes.length >= 12, `${boxes.length} parts`);
    for (const box of boxes) {
      if (box.name !== "verdict") assert.ok(box.right - box.left >= TARGET_PX && box.bottom - box.top >= TARGET_PX, `${box.name} is too small`);
      assert.ok(box.left >= 0 && box.right <= screen.width + 0.5, `${box.name} reaches past the window`);
    }
    const covers = (one, other) => one.left < other.right - 1 && other.left < one.right - 1 && one.top < other.bottom - 1 && other.top < one.bottom - 1;
    const pairs = boxes.flatMap((one, index) => boxes.slice(index + 1).filter((other) => covers(one, other)).map((other) => `${one.name} and ${other.name}`));
    // The note lies over what scrolls below it, never over what stays.
    assert.deepEqual(pairs.filter((pair) => screen.height > 450 || !pair.includes("changed")), []);
  });
}

test("on a phone the end of the page can be scrolled clear of the dock", async (t) => {
  const { page } = await openSite(t, browser, { screen: PHONE });
  await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
  await untilPainted(page);
  const [last, dock] = await Promise.all([page.locator(".foot [data-opens=safety]").boundingBox(), page.locator(".dock").boundingBox()]);
  assert.ok(last.y + last.height <= dock.y, `the last button ends at ${last.y + last.height}, the dock starts at ${dock.y}`);
});

test("a button of the dock says that its panel is open, and has the focus again afterwards", async (t) => {
  const { page } = await openSite(t, browser, { screen: PHONE });
  const button = page.locator("button[data-panel=bench]");
  assert.equal(await button.getAttribute("aria-expanded"), "false");
  await button.focus();
  await page.keyboard.press("Enter");
  await page.getByRole("dialog", { name: "At the bench" }).waitFor();
  assert.equal(await button.getAttribute("aria-expanded"), "true");
  await page.getByRole("button", { name: "Close", exact: true }).click();
  await page.getByRole("dialog", { name: "At the bench" }).waitFor({ state: "hidden" });
  assert.equal(await button.getAttribute("aria-expanded"), "false");
  assert.ok(await button.evaluate((element) => element === document.activeElement));
});

test("a change of the verdict is told once, after the movement, with what it was before", async (t) => {
  const { page } = await openSite(t, browser, { screen: PHONE });
  await page.locator("#verdict-live", { hasText: /^Clears\. Everything clears/ }).waitFor({ state: "attached" });
  await page.evaluate(() => {
    window.told = [];
    const live = document.getElementById("verdict-live");
    new MutationObserver(() => window.told.push(live.textContent)).observe(live, { childList: true, characterData: true, subtree: true });
  });
  // One movement, however slow the machine is.
  await page.evaluate(async () => {
    const input = document.getElementById("wheel-rotor_diameter");
    for (const rotor of ["200", "190", "185", "180"]) {
      input.value = rotor;
      input.dispatchEvent(new Event("input", { bubbles: true }));
      await new Promise(requestAnimationFrame);
    }
  });
  await page.waitForFunction(() => window.told.length > 0);
  await page.waitForTimeout(1000);
  const told = await page.evaluate(() => window.told);
  assert.equal(told.length, 1, told.join(" | "));
  assert.match(told[0], /^Hits, no longer clears\. line to tube overlap by 2\.1 mm/);
  await typeInto(page, "wheel.rotor_diameter", "179");
  await typeInto(page, "wheel.rotor_diameter", "180");
  await page.waitForTimeout(1200);
  assert.equal(await page.evaluate(() => window.told.length), 1, "back where it was, nothing is told");
});

for (const colorScheme of ["light", "dark"]) {
  test(`in forced colours, ${colorScheme}, verdict, focus, chosen switches and drawn parts can be told`, async (t) => {
    const { page } = await openSite(t, browser, { screen: PHONE, colorScheme });
    await page.emulateMedia({ forcedColors: "active" });
    await untilPainted(page);
    const seen = await page.evaluate(() => {
      const style = (selector) => getComputedStyle(document.querySelector(selector));
      const [chosen, other] = ["#view-switch input:checked + span", "#view-switch input:not(:checked) + span"].map((selector) => style(selector).backgroundColor);
      const button = document.querySelector(".slider-control .step");
      button.focus();
      return {
        verdict: style("#verdict").borderTopStyle,
        text: style("#verdict").color !== style("#verdict").backgroundColor,
        chosen: chosen !== other,
        binding: style(".picture .rotor.binding").stroke !== style(".picture .tube").stroke,
        shapes: style(".picture .tube").stroke !== style(".picture-frame").backgroundColor,
      };
    });
    assert.deepEqual(seen, { verdict: "solid", text: true, chosen: true, binding: true, shapes: true });
    await page.keyboard.press("Tab");
    const focus = await page.evaluate(() => {
      const { outlineStyle, outlineWidth } = getComputedStyle(document.activeElement);
      return [outlineStyle, parseFloat(outlineWidth) >= 2];
    });
    assert.deepEqual(focus, ["solid", true]);
  });
}
