// Verdicts and numbers keep a contrast of 7:1 in both themes, computed from the page's own styles by the formula of
// WCAG 2.2, https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio and #dfn-relative-luminance; 7 is its criterion 1.4.6.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { EVERY_LOOK, THOROUGH, launch, named, openAllDetails, openSite, typeInto, untilPainted, untilVerdict } from "./harness.js";

const LEAST = 7;
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

/** Inside the page: every visible text with a number in it or a verdict, with its colour and that behind it. */
function contrasts() {
  const canvas = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
  const rgbaOf = (colour) => {
    canvas.clearRect(0, 0, 1, 1);
    canvas.fillStyle = colour;
    canvas.fillRect(0, 0, 1, 1);
    const [red, green, blue, alpha] = canvas.getImageData(0, 0, 1, 1).data;
    return { rgb: [red, green, blue], alpha };
  };
  const luminance = (rgb) => {
    const [red, green, blue] = rgb.map((byte) => byte / 255).map((part) => part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4);
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const ratio = (one, other) => {
    const [high, low] = [luminance(one), luminance(other)].sort((a, b) => b - a);
    return (high + 0.05) / (low + 0.05);
  };
  const behind = (element) => {
    for (let outer = element; outer; outer = outer.parentElement) {
      const { rgb, alpha } = rgbaOf(getComputedStyle(outer).backgroundColor);
      if (alpha === 255) return rgb;
      if (alpha > 0) throw new Error(`a see-through background: ${outer.className}`);
    }
    return [255, 255, 255];
  };
  // The last good drawing, while what is typed has none, is dimmed so that it is not taken for the answer.
  const isDimmed = (element) => element.closest(".stale :is(.picture, .ring-layer)");
  const isShown = (element) => !isDimmed(element) && element.checkVisibility({ opacityProperty: true, visibilityProperty: true }) && !element.closest(".hidden-text, :disabled");
  const words = /\d|Clears|Tight|Hits|Cannot be built|Not checked|clears|tight|hits/;
  const found = [];
  const take = (text, element, colour, ground) => {
    found.push({ text: text.trim().slice(0, 40), of: element.className?.baseVal ?? element.className ?? "", ratio: ratio(rgbaOf(colour).rgb, ground) });
  };
  for (const element of document.body.querySelectorAll("*")) {
    if (!isShown(element)) continue;
    const style = getComputedStyle(element);
    if (element instanceof HTMLInputElement && element.type === "text") {
      take(element.value, element, style.color, behind(element));
      continue;
    }
    const own = [...element.childNodes].filter((node) => node instanceof Text).map((node) => node.data).join("");
    if (!words.test(own) || ["SCRIPT", "OPTION", "TITLE", "title"].includes(element.tagName)) continue;
    if (element instanceof SVGElement) {
      // The words of a drawing stand in a rim of their own, over whatever lies below.
      if (parseFloat(style.strokeWidth) > 0) take(own, element, style.fill, rgbaOf(style.stroke).rgb);
      else throw new Error(`${own} has no rim`);
    } else take(own, element, style.color, behind(element));
  }
  return found;
}

const STATES = {
  Clears: async () => {},
  Tight: (page) => typeInto(page, "wheel.hub_width", "115"),
  Hits: (page) => typeInto(page, "wheel.rotor_diameter", "180"),
  "Cannot be built": (page) => typeInto(page, "wheel.hub_width", "190"),
  "Not checked": (page) => typeInto(page, "wheel.hub_width", "abc"),
};

for (const { screen, colorScheme } of THOROUGH ? EVERY_LOOK : EVERY_LOOK.slice(0, 2)) {
  for (const [verdict, enter] of Object.entries(STATES)) {
    test(`at ${named(screen)}, ${colorScheme}, ${verdict.toLowerCase()}: the verdict and all numbers have a contrast of ${LEAST} or more`, async (t) => {
      const { page } = await openSite(t, browser, { screen, colorScheme });
      await enter(page);
      await untilVerdict(page, verdict);
      await openAllDetails(page);
      await page.getByRole("button", { name: "Bench", exact: true }).click();
      await page.locator(".bench-digits:not(:empty)").waitFor();
      await untilPainted(page);
      const all = await page.evaluate(contrasts);
      assert.ok(all.length > 60, `${all.length} texts`);
      const drawn = verdict === "Not checked" ? [] : ["dimension", "ring-word"];
      for (const part of [...drawn, "number", "tick", "bench-digits"]) {
        assert.ok(all.some(({ of }) => of.includes(part)), `none is of ${part}`);
      }
      const low = all.filter((text) => text.ratio < LEAST).map((text) => `${text.text} (${text.of}): ${text.ratio.toFixed(2)}`);
      assert.deepEqual([...new Set(low)], []);
    });
  }
}
