// What every browser test needs: the built site on a server that can go away, a browser, and a few questions to the page.
import { createHash } from "node:crypto";
import { createServer } from "node:http";
import { readFile } from "node:fs/promises";
import { extname, join, normalize } from "node:path";
import { fileURLToPath } from "node:url";
import { ENGINE, LACKS, launchEngine } from "./engines.js";

export { ENGINE, LACKS } from "./engines.js";

/** The built site; TABWRIGHT_SITE names another folder to test. */
export const SITE = process.env.TABWRIGHT_SITE ?? fileURLToPath(new URL("../../target/site", import.meta.url));
const WAIT_MS = 30_000;
/** As many as www/tools/files.mjs writes. */
const DIGEST_DIGITS = 20;
/** WebKit's driver does not tell what a page complains about, so a script of ours in the page does. */
const WATCH = ENGINE === "webkit" ? await readFile(new URL("webkit/watch.js", import.meta.url), "utf8") : null;
const WATCH_NAME = "watch-for-tests.js";
/** Playwright puts a style into the page while it takes a picture, which the page's policy keeps out. */
const OF_SCREENSHOTS = ["sha256-YjaKGiklmzC6wjXA513HAMmzus8VE61XCOT+SmwNZWA=", "refused by style-src-elem: inline", "refused by script-src: eval"];
const MIME = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json",
  ".svg": "image/svg+xml",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
};

export const PHONE = { width: 390, height: 844 };
export const DESK = { width: 1280, height: 800 };
/** Whether everything is looked at in every way. */
export const THOROUGH = Boolean(process.env.TABWRIGHT_THOROUGH);
/**
 * Of a list whose entries are much alike, those that an ordinary run has time for.
 * @template T @param {T[]} all @param {number} count
 */
export const some = (all, count) => THOROUGH ? all : all.slice(0, count);
/** For tests that are done on each of them; those that name no screen are done on a desk's. */
export const SCREENS = some([PHONE, DESK], 1);
/** @type {{screen: {width: number, height: number}, colorScheme: "light"|"dark"}[]} */
export const EVERY_LOOK = [
  { screen: PHONE, colorScheme: "dark" },
  { screen: DESK, colorScheme: "light" },
  { screen: PHONE, colorScheme: "light" },
  { screen: DESK, colorScheme: "dark" },
];
/** Screens and colours for tests that are many and slow. */
export const LOOKS = some(EVERY_LOOK, 1);

/** @param {{width: number, height: number}} screen */
export function named({ width, height }) {
  return `${width}x${height}`;
}

export function launch() {
  return launchEngine();
}

/**
 * Serves the built site below `base`, on a free port. Paths for which `refuses` holds are answered with 404.
 * @param {{base?: string, refuses?: (path: string) => boolean}} [options]
 */
export async function serveSite({ base = "/", refuses = () => false } = {}) {
  /** Scripts to run before the page's own, where the driver cannot do so. */
  const early = [];
  const server = createServer(async (request, response) => {
    const path = decodeURIComponent(new URL(request.url, "http://site").pathname);
    const file = fileFor(path, base);
    const body = file && !refuses(path) ? await bodyOf(file, early) : null;
    if (body) response.writeHead(200, {
      "Content-Type": MIME[extname(file)] ?? "application/octet-stream",
      "Cache-Control": "no-cache",
    });
    else response.writeHead(404, { "Content-Type": "text/plain" });
    response.end(body ?? "not found");
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  const origin = `http://127.0.0.1:${server.address().port}`;

  return {
    origin,
    url: origin + base,
    early,
    /** From here on, connections are refused. */
    stop() {
      server.closeAllConnections();
      return new Promise((resolve) => server.close(resolve));
    },
  };
}

/** @param {string} file @param {string[]} early */
async function bodyOf(file, early) {
  if (WATCH && file === join(SITE, WATCH_NAME)) return [WATCH, ...early].join("\n");
  const body = await readFile(file).catch(() => null);
  if (!WATCH || !body) return body;
  if (file === join(SITE, "sw.js")) return withDigestOfWatched(String(body));
  return extname(file) === ".html" ? watched(body) : body;
}

/** @param {Buffer} html */
function watched(html) {
  return String(html).replace("<head>", `<head><script src="./${WATCH_NAME}"></script>`);
}

/** The service worker keeps nothing but what it was built for, so it has to know the start page with our script in it. @param {string} worker */
async function withDigestOfWatched(worker) {
  const html = await readFile(join(SITE, "index.html"));
  const digest = (/** @type {string|Buffer} */ text) => createHash("sha256").update(text).digest("base64").slice(0, DIGEST_DIGITS);
  return worker.replace(digest(html), digest(watched(html)));
}

/** @param {string} path @param {string} base */
function fileFor(path, base) {
  if (!path.startsWith(base)) return null;
  const inside = normalize(`/${path.slice(base.length)}`);
  return join(SITE, inside.endsWith("/") ? `${inside}index.html` : inside);
}

/**
 * Opens the site in a fresh browser profile and waits for its first answer; all is closed after the test `t`.
 * `requests` and `complaints` (console errors, uncaught faults, dialogs) grow while the page lives.
 */
export async function openSite(t, browser, { screen = DESK, colorScheme = "light", hasTouch = false, waits = true, ...serving } = {}) {
  const site = await serveSite(serving);
  const context = await browser.newContext({ viewport: screen, colorScheme, hasTouch, reducedMotion: "reduce" });
  t.after(() => site.stop());
  t.after(() => context.close());
  context.setDefaultTimeout(WAIT_MS);

  const requests = [];
  const complaints = [];
  context.on("request", (request) => requests.push(request.url()));
  const page = await context.newPage();
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("dialog", (dialog) => {
    complaints.push(`dialog: ${dialog.message()}`);
    dialog.dismiss();
  });
  if (WATCH) {
    const add = async (script, value) => {
      site.early.push(typeof script === "function" ? `(${script})(${JSON.stringify(value)});` : script.content ?? script);
    };
    Object.assign(page, { addInitScript: add });
    Object.assign(context, { addInitScript: add });
  }
  await page.goto(site.url);
  if (waits) await untilAnswered(page);
  return { page, context, site, requests, complaints };
}

/** What the page complains about, without what comes from pictures that the test itself has taken. @param {string[]} complaints */
export function withoutPictures(complaints) {
  return complaints.filter((text) => !OF_SCREENSHOTS.some((part) => text.includes(part)));
}

/** Waits until the page shows a verdict and a drawing. */
export async function untilAnswered(page) {
  await page.locator("#verdict-word:not(:empty)").waitFor();
  await page.locator(".picture:not([hidden]) svg").first().waitFor();
}

/** Waits until the page says that it works without a network. */
export async function untilOffline(page) {
  await page.getByText("Ready to work offline.", { exact: true }).waitFor();
}

/** Waits until the verdict's word is `word`. */
export async function untilVerdict(page, word) {
  await page.locator("#verdict-word", { hasText: new RegExp(`^${word}$`) }).waitFor();
}

/** The row of a field: label, inputs, remarks. */
export function row(page, key) {
  return page.locator(`[data-key="${key}"]`);
}

/** The text input of a field, whose group is opened first where it is folded. */
export async function inputOf(page, key) {
  const input = page.locator(`[data-path="${key}"]`).first();
  await input.evaluate((element) => {
    for (let outer = element.closest("details"); outer; outer = outer.parentElement.closest("details")) outer.open = true;
  });
  return input;
}

export async function typeInto(page, key, text) {
  const input = await inputOf(page, key);
  await input.fill(text);
  await untilPainted(page);
}

/** The page answers once per frame; after two it has. */
export function untilPainted(page) {
  return page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
}

/** Takes the page's worker away without a word. */
export async function loseWorker(page) {
  if (LACKS.workers) await page.evaluate(deafen);
  else await page.workers()[0].evaluate(() => close());
}

/** Inside the page: the worker that is spoken to next hears nothing any more. */
function deafen() {
  const post = Worker.prototype.postMessage;
  let deaf = null;
  Worker.prototype.postMessage = function (...message) {
    deaf ??= this;
    if (this !== deaf) post.apply(this, message);
  };
}

/** @param {"side"|"section"} view */
export function drawing(page, view) {
  return page.locator(`.picture[data-view=${view}] svg`).evaluate((svg) => svg.outerHTML);
}

/** The row of the list of results in words that goes by `title`. */
export function sentence(page, title) {
  return page.locator("#notes > div", { has: page.locator("dt", { hasText: new RegExp(`^${title}$`) }) }).locator("dd").innerText();
}

/** Opens the fold of a search; its answer follows. @param {string} id */
export async function openSearch(page, id) {
  await page.locator(`details:has(#${id}) > summary`).click();
}

export function openAllDetails(page) {
  return page.evaluate(() => document.querySelectorAll("details").forEach((details) => { details.open = true; }));
}
