// Results out of sight may skip the steps of a movement, but never its end.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { PHONE, launch, openSite } from "./harness.js";

let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

test("after a quick movement the results below the window are those of its last value", async (t) => {
  const { page } = await openSite(t, browser, { screen: PHONE });
  const wanted = await page.evaluate(async () => {
    const core = await import(new URL("./pkg/tabwright_wasm.js", location.href).href);
    await core.default();
    const setup = core.default_setup();
    for (const rotor of [200, 195, 190, 185, 180, 170]) {
      setup.wheel.rotor_diameter = rotor;
      const detail = { path: "wheel.rotor_diameter", value: rotor };
      document.dispatchEvent(new CustomEvent("edit", { detail }));
      await new Promise(requestAnimationFrame);
    }
    return core.report(setup).report;
  });
  const text = (value) => value.toFixed(2).replace("-", "\u2212");
  const worst = [...wanted.pairs].sort((one, other) => one.margin - other.margin)[0];
  const gap = page.locator("#gap-rows tr").first();
  await gap.locator("td", { hasText: text(worst.gap) }).first().waitFor({ state: "attached" });
  assert.equal(await gap.locator("th").textContent(), worst.label);
  await page.locator("#notes dd", { hasText: wanted.pad.sentence }).waitFor({ state: "attached" });
});

test("results in sight follow every step of a movement", async (t) => {
  const { page } = await openSite(t, browser, { screen: PHONE });
  await page.locator("#gap-rows").evaluate((rows) => rows.scrollIntoView());
  await page.waitForTimeout(200);
  const texts = await page.evaluate(async () => {
    const shown = [];
    for (const rotor of [180, 190, 200]) {
      const detail = { path: "wheel.rotor_diameter", value: rotor };
      document.dispatchEvent(new CustomEvent("edit", { detail }));
      await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
      shown.push(document.getElementById("gap-rows").textContent);
    }
    return shown;
  });
  assert.equal(new Set(texts).size, 3, "each step of the movement is shown while the table is in sight");
});
