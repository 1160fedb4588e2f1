// The page's own work for one step of a slider, in a real browser: how long its thread is busy, and with what.
import { cpus, loadavg } from "node:os";
import { DESK, PHONE, SCREENS, launch, named, serveSite, untilAnswered } from "../browser/harness.js";
import { dragSlider, stepSlider, timeCalls, timeEachCall, timeTables } from "./steps.mjs";
import { printFigures, printHead } from "./table.mjs";
import { stretches, traced } from "./trace.mjs";

const STEPS = 200;
const WARM_UP_STEPS = 20;
const STEPPED = "wheel.rotor_diameter";
const DRAGGED = "tab.clock";
const DRAG_MS = 4000;
const CALLS = 300;
const CALLS_TIMED_TOGETHER = 10;
const CALLED = ["report", "drawing", "update"];
const TABLES = 10;
const TABLE_ROTORS = [140, 150, 160, 170, 180, 190, 203, 220];
const TABLE_HUBS = [90, 95, 100, 105, 110, 115, 120, 135];
const THROTTLES = [1, 4];
/** One frame of a screen that shows sixty a second, and the gap from which one is missing. */
const FRAME_MS = 1000 / 60;
const MISSED_MS = 25;
const MARK = "measured-step";

/** A page of that size, its processor slowed down, that counts the geometry's time. */
async function openPage(browser, url, screen, throttle) {
  const context = await browser.newContext({ viewport: screen });
  const page = await context.newPage();
  await page.addInitScript(timeCalls, CALLED);
  await page.goto(url);
  await untilAnswered(page);
  const devtools = await context.newCDPSession(page);
  await devtools.send("Emulation.setCPUThrottlingRate", { rate: throttle });
  return { page, close: () => context.close() };
}

async function measureSteps(browser, url, screen, throttle) {
  const { page, close } = await openPage(browser, url, screen, throttle);
  const { events, result: callTimes } = await traced(browser, page, () => (
    page.evaluate(stepSlider, { key: STEPPED, steps: STEPS, warmUp: WARM_UP_STEPS, mark: MARK })
  ));
  await close();
  const steps = stretches(events, MARK);
  const of = (kind) => steps.map((step) => step[kind]);
  console.log(`\n${named(screen)}, ${throttle}x slower: ${STEPS} steps of ${STEPPED}`);
  printFigures("page's thread, all its work", of("main"));
  printFigures("  of it on the processor", of("processor"));
  printFigures("  script, with the geometry", of("script"));
  printFigures("    geometry", callTimes);
  printFigures("  style", of("style"));
  printFigures("  layout", of("layout"));
  printFigures("  paint and commit", of("paint"));
  printFigures("frame's begin to pixels", of("shown"));
}

async function measureDrag(browser, url, screen, throttle) {
  const { page, close } = await openPage(browser, url, screen, throttle);
  const { events, result: frames } = await traced(browser, page, () => (
    page.evaluate(dragSlider, { key: DRAGGED, duration: DRAG_MS, mark: MARK })
  ));
  await close();
  const steps = stretches(events, MARK);
  const work = steps.map((step) => step.main);
  const gaps = frames.slice(1).map((time, index) => time - frames[index]);
  const above = (values, limit) => values.filter((value) => value > limit).length;
  console.log(`\n${named(screen)}, ${throttle}x slower: ${DRAGGED} dragged for ${DRAG_MS / 1000} s, a step in each frame`);
  printFigures("page's thread, all its work", work);
  printFigures("  of it on the processor", steps.map((step) => step.processor));
  printFigures("from frame to frame", gaps);
  console.log(`${gaps.length} frames: ${above(work, FRAME_MS)} with too much work, ${above(gaps, MISSED_MS)} late`);
}

async function measureCalls(browser, url, throttle) {
  const { page, close } = await openPage(browser, url, DESK, throttle);
  const calls = await page.evaluate(timeEachCall, { calls: CALLS, together: CALLS_TIMED_TOGETHER });
  const tables = await page.evaluate(timeTables, { tables: TABLES, rotors: TABLE_ROTORS, hubs: TABLE_HUBS });
  await close();
  console.log(`\n${throttle}x slower: one call, of ${CALLS}`);
  for (const [name, times] of Object.entries(calls)) printFigures(name, times);
  console.log("\nin the worker, whose thread the browser does not slow down");
  printFigures(`what-if table of ${TABLE_ROTORS.length} x ${TABLE_HUBS.length}`, tables);
}

const site = await serveSite();
const browser = await launch();
try {
  console.log(`Chromium ${browser.version()}, ${cpus().length} x ${cpus()[0].model}, load at the start ${loadavg()[0].toFixed(1)}`);
  printHead();
  for (const screen of SCREENS) {
    for (const throttle of THROTTLES) await measureSteps(browser, site.url, screen, throttle);
  }
  await measureDrag(browser, site.url, PHONE, Math.max(...THROTTLES));
  for (const throttle of THROTTLES) await measureCalls(browser, site.url, throttle);
} finally {
  await browser.close();
  await site.stop();
}
