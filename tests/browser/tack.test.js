// The Tack page: the sideways stack, readings on a tacked part with one piece of advice, and a tab that is there already.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { DESK, LACKS, LOOKS, PHONE, launch, named, openSite, untilPainted } from "./harness.js";

const AXE = await readFile(new URL(import.meta.resolve("axe-core/axe.min.js")), "utf8");
const INCH = 25.4;
const TARGET_PX = 44 - 0.01;
/** The narrowest window that every engine's automation can make. */
const NARROWEST = 306;
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

function title(page) {
  return page.locator(".tack-title:visible").innerText();
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
