// What is on the page outlives a reload and a crash: values, steps back and on, choices of the searches.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { launch, openAllDetails, openSite, typeInto, untilAnswered, untilPainted } from "./harness.js";
import { rotorOf } from "./setups-page.js";

const ROTOR = "wheel.rotor_diameter";
const STORAGE_KEY = "tabwright-setup";
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

test("what can be taken back and done again outlives a reload", async (t) => {
  const { page } = await openSite(t, browser);
  await typeInto(page, ROTOR, "180");
  await typeInto(page, "wheel.hub_width", "115");
  await typeInto(page, ROTOR, "abc");
  await page.locator("#undo").click();
  await untilPainted(page);
  await page.reload();
  await untilAnswered(page);
  await page.locator("#redo").click();
  assert.equal(await rotorOf(page), "abc");
  for (const _ of [1, 2]) await page.locator("#undo").click();
  await untilPainted(page);
  assert.equal(await page.inputValue("#wheel-hub_width"), "100");
  await page.locator("#undo").click();
  assert.equal(await rotorOf(page), "203");
  assert.ok(await page.locator("#undo").isDisabled());
});

for (const steps of ['"text"', "[7]", '[[["wheel.hub_width",{}]]]', '[[["__proto__",1]]]', '[[["wheel.hub_width",115]],[["nothing",1]]]', "null"]) {
  test(`steps kept from last time that read ${steps} cost neither the setup nor the page`, async (t) => {
    const { page, context, site, complaints } = await openSite(t, browser);
    await typeInto(page, ROTOR, "180");
    const other = await context.newPage();
    await page.close();
    await other.goto(`${site.url}icons/icon.svg`);
    await other.evaluate(([key, steps]) => {
      localStorage.setItem(key, JSON.stringify({ ...JSON.parse(localStorage.getItem(key)), past: JSON.parse(steps), future: JSON.parse(steps) }));
    }, [STORAGE_KEY, steps]);
    await other.goto(site.url);
    await untilAnswered(other);
    assert.equal(await rotorOf(other), "180");
    const isUsable = steps.includes("115");
    assert.equal(await other.locator("#undo").isDisabled(), !isUsable);
    if (isUsable) {
      await other.locator("#undo").click();
      await untilPainted(other);
      assert.equal(await other.inputValue("#wheel-hub_width"), "115");
      assert.ok(await other.locator("#undo").isDisabled());
    }
    assert.deepEqual(complaints, []);
  });
}

test("while a value goes on changing it is kept again and again, not only once it rests", async (t) => {
  const { page } = await openSite(t, browser);
  await page.clock.install();
  await page.reload();
  await untilAnswered(page);
  // From here time stands still but for what the test lets pass.
  await page.clock.pauseAt(await page.evaluate(() => Date.now() + 60_000));
  const kept = () => page.evaluate((key) => JSON.parse(localStorage.getItem(key) ?? "null")?.setup.wheel.rotor_diameter, STORAGE_KEY);
  for (let size = 204; size <= 213; size++) {
    await page.locator("#wheel-rotor_diameter").fill(String(size));
    await page.clock.runFor(100);
  }
  const last = await kept();
  assert.ok(last >= 210 && last <= 213, `${last} is kept of 213`);
});

test("lists of rotors and hubs and the rules ticked outlive a reload; nonsense in their place does not", async (t) => {
  const { page, complaints } = await openSite(t, browser);
  /** The searches are loaded when they come near. */
  const reloaded = async () => {
    await page.reload();
    await untilAnswered(page);
    await page.evaluate(() => document.getElementById("searches").scrollIntoView());
    await page.locator("#rotor-list-input").waitFor({ state: "attached" });
  };
  await openAllDetails(page);
  await page.locator("#rotor-list-input").fill("160, 180");
  await page.locator("#hub-list-input").fill("110");
  await page.locator("#rule-wheel").uncheck();
  await reloaded();
  assert.equal(await page.inputValue("#rotor-list-input"), "160, 180");
  assert.equal(await page.inputValue("#hub-list-input"), "110");
  assert.equal(await page.locator("#rule-wheel").isChecked(), false);
  assert.equal(await page.locator("#rule-line").isChecked(), true);
  for (const kept of ["{", "null", "7", '{"rotors":[],"hubs":"x","lineUp":3}', '{"rotors":[1e9],"hubs":[200,100]}', '{"rotors":[1,2,3,4,5,6,7,8,9],"hubs":[null]}']) {
    await page.evaluate((text) => localStorage.setItem("tabwright-options", text), kept);
    await reloaded();
    assert.equal(await page.inputValue("#rotor-list-input"), "140, 160, 180, 203, 220", kept);
    assert.equal(await page.inputValue("#hub-list-input"), "100, 110, 115, 135", kept);
    assert.ok(await page.locator("#rule-line").isChecked() && await page.locator("#rule-wheel").isChecked(), kept);
  }
  assert.deepEqual(complaints, []);
});
