// Times of the page in a real browser: a slider step to painted pixels, and the core's calls on their own.
import { cpus, loadavg } from "node:os";
import { DESK, PHONE, launch, named, serveSite, untilAnswered } from "../browser/harness.js";

const STEPS = 200;
const WARM_UP_STEPS = 20;
const CALLS = 300;
/** The browser's clock is too coarse for a single call. */
const CALLS_TIMED_TOGETHER = 10;
const THROTTLES = [1, 4];

/** One full way of the slider back and forth, so that both verdicts and all drawings occur. */
function stepTimes({ steps, warmUp }) {
  const slider = document.querySelector('[data-field="wheel.rotor_diameter"] input[type=range]');
  const low = 160;
  const span = 60;
  const afterPaint = () => new Promise((resolve) => {
    // The page's own answer runs in the frame asked for first; this one is asked for after it, and its message arrives
    // once the page's thread has painted that frame; the screen's own refresh comes on top.
    requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => resolve(performance.now());
      port2.postMessage(0);
    });
  });
  const idle = () => new Promise((resolve) => setTimeout(resolve, 20 + Math.random() * 17));

  return (async () => {
    const times = [];
    for (let step = 0; step < warmUp + steps; step++) {
      await idle();
      const phase = step % (2 * span);
      slider.value = String(low + (phase < span ? phase : 2 * span - phase));
      const before = performance.now();
      slider.dispatchEvent(new Event("input", { bubbles: true }));
      const after = await afterPaint();
      if (step >= warmUp) times.push(after - before);
    }
    return times;
  })();
}

/** Mean times per call of groups of calls, on rotors that differ. */
async function callTimes({ calls, together }) {
  const core = await import(new URL("./pkg/tabwright_wasm.js", location.href).href);
  await core.default();
  const setup = core.default_setup();
  const timesOf = (ask) => {
    const times = [];
    for (let call = 0; call < calls; call += together) {
      const before = performance.now();
      for (let index = 0; index < together; index++) {
        setup.wheel.rotor_diameter = 160 + ((call + index) % 60);
        if (!ask(setup).ok) throw new Error("refused");
      }
      times.push((performance.now() - before) / together);
    }
    return times;
  };
  return {
    "report()": timesOf(core.report),
    'drawing("side")': timesOf((input) => core.drawing(input, "side")),
    'drawing("section")': timesOf((input) => core.drawing(input, "section")),
  };
}

function quantile(times, share) {
  const sorted = [...times].sort((one, other) => one - other);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))];
}

function print(what, screen, throttle, times) {
  const ms = (value) => value.toFixed(2).padStart(8);
  console.log(`${what.padEnd(34)} ${screen.padEnd(9)} ${throttle}x ${ms(quantile(times, 0.5))} ${ms(quantile(times, 0.95))}`);
}

async function measure(browser, url, screen) {
  const context = await browser.newContext({ viewport: screen });
  const page = await context.newPage();
  await page.goto(url);
  await untilAnswered(page);
  const devtools = await context.newCDPSession(page);
  for (const throttle of THROTTLES) {
    await devtools.send("Emulation.setCPUThrottlingRate", { rate: throttle });
    const steps = await page.evaluate(stepTimes, { steps: STEPS, warmUp: WARM_UP_STEPS });
    print(`slider step to paint, ${STEPS} steps`, named(screen), throttle, steps);
    if (screen !== DESK) continue;
    const calls = await page.evaluate(callTimes, { calls: CALLS, together: CALLS_TIMED_TOGETHER });
    for (const [name, times] of Object.entries(calls)) print(name, "", throttle, times);
  }
  await context.close();
}

const site = await serveSite();
const browser = await launch();
try {
  console.log(`Chromium ${browser.version()}, ${cpus().length} x ${cpus()[0].model}, load at the start ${loadavg()[0].toFixed(1)}`);
  console.log(`${"milliseconds".padEnd(34)} ${"screen".padEnd(9)} CPU  median      95 %`);
  for (const screen of [PHONE, DESK]) await measure(browser, site.url, screen);
} finally {
  await browser.close();
  await site.stop();
}
