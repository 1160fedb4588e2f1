// The Loads page looked at: axe-core, narrow windows, large targets, contrast, keys alone.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { seriousFindings } from "./findings.js";
import { LACKS, LOOKS, launch, named, untilPainted, withoutPictures } from "./harness.js";
import { entry, openFolds, opened } from "./loads-page.js";

/** The narrowest window that every engine's automation can make. */
const NARROWEST = 306;
/** Common practice for targets that thumbs and gloves have to hit; less by a rounding. */
const TARGET_PX = 44 - 0.01;
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

const STATES = {
  "with all folds and helps open": async (page) => {
    await openFolds(page);
    await page.locator(".load .help").evaluateAll((buttons) => buttons.forEach((button) => button.click()));
  },
  "with a rider and the wheel's forces": async (page) => {
    await entry(page, "load.case").selectOption("rider");
    await page.getByRole("radio", { name: "Wheel", exact: true }).check({ force: true });
  },
  "with refused values": async (page) => {
    await page.locator("#load-tyre").fill("none");
    await page.locator("#load-tyre").press("Enter");
    await page.locator(".load-tyre.refused").waitFor();
    await entry(page, "wheel.tyre_radius").fill("abc");
    await page.locator(".load-problems .link").waitFor();
  },
};

for (const { screen, colorScheme } of LOOKS) {
  test(`at ${named(screen)}, ${colorScheme}, axe-core finds nothing serious in any state`, async (t) => {
    const { page } = await opened(t, browser, { screen, colorScheme });
    for (const [state, enter] of Object.entries(STATES)) {
      await enter(page);
      await untilPainted(page);
      assert.deepEqual(await seriousFindings(page, "#panel"), [], state);
    }
  });
}

for (const screen of [195, 320, 390, 844].map((width) => ({ width, height: width === 844 ? 390 : 800 }))) {
  const skip = screen.width < NARROWEST && LACKS.narrow;
  test(`at ${named(screen)} nothing reaches past the window and every target is 44 px`, { skip }, async (t) => {
    const { page, complaints } = await opened(t, browser, { screen });
    for (const enter of [STATES["with all folds and helps open"], STATES["with refused values"]]) {
      await enter(page);
      await openFolds(page);
      await untilPainted(page);
      const found = await page.locator(".panel-body").evaluate((body) => {
        const targets = [...body.querySelectorAll("button, input:not([type=radio], [type=checkbox]), select, summary, .switch label, label:has([type=checkbox])")]
          .filter((target) => target.checkVisibility());
        return {
          wide: body.scrollWidth - body.clientWidth,
          targets: targets.map((target) => {
            const { width, height } = target.getBoundingClientRect();
            return { name: target.className || target.id || target.textContent, width, height };
          }),
        };
      });
      assert.ok(found.wide <= 0, `${found.wide} px too wide`);
      assert.deepEqual(found.targets.filter(({ width, height }) => width < TARGET_PX || height < TARGET_PX), []);
    }
    assert.deepEqual(withoutPictures(complaints), []);
  });
}

test("verdicts and numbers keep 7:1, light and dark", async (t) => {
  for (const colorScheme of ["light", "dark"]) {
    const { page } = await opened(t, browser, { colorScheme });
    await openFolds(page);
    const ratios = await page.evaluate(() => {
      const channels = (color) => color.match(/[\d.]+/g).map(Number);
      const light = (color) => {
        const [r, g, b] = channels(color).map((value) => (value / 255 <= 0.04045 ? value / 255 / 12.92 : ((value / 255 + 0.055) / 1.055) ** 2.4));
        return 0.2126 * r + 0.7152 * g + 0.0722 * b;
      };
      const behind = (node) => {
        for (let outer = node; outer; outer = outer.parentElement) {
          const { backgroundColor } = getComputedStyle(outer);
          if (channels(backgroundColor)[3] !== 0) return backgroundColor;
        }
        return "rgb(255, 255, 255)";
      };
      const parts = [...document.querySelectorAll(".load-bar strong, .load-headline, .load-caution, .load-value, .load-word, .load-percent, .load-seated, .load-outcome")];
      return parts.map((part) => {
        const [one, other] = [light(getComputedStyle(part).color), light(behind(part))];
        return [part.className, (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05)];
      });
    });
    assert.ok(ratios.length > 30);
    assert.deepEqual(ratios.filter(([, ratio]) => ratio < 7), [], colorScheme);
  }
});

test("keys alone change the case and reach the weakest", async (t) => {
  const { page } = await opened(t, browser);
  await page.locator(".load-weak").first().focus();
  await page.keyboard.press("Enter");
  const id = await page.locator(".load-weak").first().getAttribute("data-name");
  assert.equal(await page.evaluate(() => document.activeElement?.getAttribute("data-result")), id);
  await entry(page, "load.case").focus();
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.querySelector(".load [data-path='load.bicycle']").checkVisibility());
  assert.equal(await page.evaluate(() => document.activeElement?.getAttribute("data-path")), "load.case", "the focus stays");
});
