// Runs Lighthouse on the built page behind a static host, and prints scores and what falls short: node lighthouse.mjs PROGRAM
import { execFile } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { slowHost } from "./slow-host.mjs";

const SITE = process.env.TABWRIGHT_SITE ?? fileURLToPath(new URL("../../target/site", import.meta.url));
const CATEGORIES = ["performance", "accessibility", "best-practices"];
const DEVICES = { phone: [], desk: ["--preset=desktop"] };
const BROWSER_FLAGS = "--headless=new --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-component-update";
const LONGEST_MS = 240_000;
const PROGRAM = process.argv[2];

/** @param {string} url @param {string[]} options */
async function report(url, options) {
  const folder = mkdtempSync(join(tmpdir(), "tabwright-"));
  const path = join(folder, "report.json");
  try {
    await promisify(execFile)(process.execPath, [
      PROGRAM, url, "--quiet", "--output=json", `--output-path=${path}`, `--only-categories=${CATEGORIES}`,
      `--chrome-flags=${BROWSER_FLAGS}`, ...options,
    ], { timeout: LONGEST_MS, env: { ...process.env, CHROME_PATH: process.env.TABWRIGHT_CHROMIUM } });
    return JSON.parse(readFileSync(path, "utf8"));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

// Lighthouse slows the connection by itself.
const host = await slowHost({ site: SITE, latency: 0, bytesPerSecond: 1e9 });
const running = new URL(host.url);
running.hostname = "localhost";
try {
  for (const [device, options] of Object.entries(DEVICES)) {
    const { categories, audits, runtimeError } = await report(running.href, options);
    if (runtimeError) throw new Error(runtimeError.message);
    console.log(`\n${device}: ${CATEGORIES.map((name) => `${name} ${Math.round(categories[name].score * 100)}`).join(", ")}`);
    for (const name of CATEGORIES) {
      for (const { id, weight } of categories[name].auditRefs) {
        const { score, title, displayValue = "" } = audits[id];
        if (score !== null && score < 0.9) console.log(`  ${name}: ${title} ${displayValue} (score ${score}, weight ${weight})`);
      }
    }
  }
} finally {
  await host.stop();
}
