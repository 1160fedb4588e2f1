// The first visit: how long until the first verdict is painted, and how much travels until then and in all.
import { cpus, loadavg } from "node:os";
import { fileURLToPath } from "node:url";
import { PHONE, launch, untilOffline } from "../browser/harness.js";
import { slowHost } from "./slow-host.mjs";
import { quantile } from "./table.mjs";

const SITE = process.env.TABWRIGHT_SITE ?? fileURLToPath(new URL("../../target/site", import.meta.url));
const VISITS = 5;
const LATENCY_MS = 400;
const BYTES_PER_SECOND = 400_000;
const THROTTLE = 4;
/** For what the page starts when all is quiet. */
const QUIET_MS = 3000;

/** In the page: the time from the navigation's start until a verdict is on the screen. */
function watchForVerdict() {
  const isThere = () => Boolean(document.getElementById("verdict-word")?.textContent) && !document.getElementById("main").hidden;
  window.firstVerdict = new Promise((resolve) => {
    const observer = new MutationObserver(() => {
      if (!isThere()) return;
      observer.disconnect();
      const set = performance.now();
      // After the next frame's paint.
      requestAnimationFrame(() => setTimeout(() => resolve({ set, shown: performance.now() })));
    });
    observer.observe(document, { subtree: true, childList: true, characterData: true, attributes: true });
  });
}

async function visit(browser) {
  const host = await slowHost({ site: SITE, latency: LATENCY_MS, bytesPerSecond: BYTES_PER_SECOND });
  const context = await browser.newContext({ viewport: PHONE });
  const page = await context.newPage();
  const devtools = await context.newCDPSession(page);
  await devtools.send("Emulation.setCPUThrottlingRate", { rate: THROTTLE });
  await page.addInitScript(watchForVerdict);
  const total = () => [...host.sent.values()].reduce((sum, bytes) => sum + bytes, 0);
  await page.goto(host.url, { waitUntil: "commit" });
  await page.waitForFunction(() => window.firstVerdict !== undefined);
  const { set, shown } = await page.evaluate(() => window.firstVerdict);
  const before = total();
  await untilOffline(page);
  await page.waitForTimeout(QUIET_MS);
  const all = total();
  const files = [...host.sent.entries()];
  await context.close();
  await host.stop();
  return { set, shown, before, all, files };
}

const browser = await launch();
try {
  console.log(`Chromium ${browser.version()}, ${cpus().length} x ${cpus()[0].model}, load at the start ${loadavg()[0].toFixed(1)}`);
  console.log(`${LATENCY_MS} ms, ${BYTES_PER_SECOND / 1000} kB/s, processor ${THROTTLE}x slower, nothing kept; median of ${VISITS}`);
  const visits = [];
  for (let count = 0; count < VISITS; count += 1) visits.push(await visit(browser));
  const median = (kind) => Math.round(quantile(visits.map((one) => one[kind]), 0.5));
  const times = visits.map(({ shown }) => Math.round(shown)).join(", ");
  console.log(`first verdict on the screen: ${median("shown")} ms (${times}); in the page's tree: ${median("set")} ms`);
  console.log(`bytes until then: ${median("before")}; in all, ready to work offline: ${median("all")}`);
  for (const [path, bytes] of visits[0].files) console.log(`  ${path} ${bytes}`);
} finally {
  await browser.close();
}
