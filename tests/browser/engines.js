// The three browser engines, all behind Playwright's interface: which one a run is about, and what its automation lacks.
import { mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium, firefox } from "playwright-core";

const CHROMIUM_FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
const SILENT_FIREFOX = {
  "app.update.enabled": false,
  "browser.shell.checkDefaultBrowser": false,
  "datareporting.policy.dataSubmissionEnabled": false,
  "toolkit.telemetry.enabled": false,
};

const NO_TOUCH = "WebKitGTK's automation turns touches into a mouse";

const ENGINES = {
  chromium: {
    start: () => chromium.launch({ executablePath: process.env.TABWRIGHT_CHROMIUM ?? "/usr/bin/chromium", headless: true, args: CHROMIUM_FLAGS }),
    emulates: true,
    touch: chromiumTouch,
    lacks: {},
  },
  firefox: {
    start: ({ isDark, isStill, hasTouch }) => firefox.launch({
      channel: "moz-firefox",
      executablePath: process.env.TABWRIGHT_FIREFOX ?? "/usr/bin/firefox-esr",
      headless: true,
      firefoxUserPrefs: {
        ...SILENT_FIREFOX,
        "ui.systemUsesDarkTheme": isDark ? 1 : 0,
        "ui.prefersReducedMotion": isStill ? 1 : 0,
        "dom.w3c_touch_events.enabled": hasTouch ? 1 : 0,
      },
    }),
    touch: bidiTouch,
    lacks: {
      coarsePointer: "Firefox's automation leaves the pointer a fine one",
      doubleClick: "Firefox's automation makes two clicks of a double click",
      workers: "Firefox's automation does not run scripts in workers",
      touchCancel: "Firefox's automation cannot take a touch away",
      touchScroll: "Firefox does not scroll by touches from its automation",
      fileDialogs: "Firefox's automation does not always tell of the dialog that asks for a file",
      media: "media are set when Firefox starts, not on a page that is open",
    },
  },
  webkit: {
    start: ({ isDark }) => firefox.launch({
      channel: "moz-firefox",
      executablePath: fileURLToPath(new URL("webkit/bridge.js", import.meta.url)),
      headless: true,
      args: isDark ? ["--dark-mode"] : [],
    }),
    lacks: {
      workers: "WebKitWebDriver does not reach workers",
      touch: NO_TOUCH,
      touchCancel: NO_TOUCH,
      touchScroll: NO_TOUCH,
      media: "media are set when WebKit starts, not on a page that is open",
      routes: "WebKitWebDriver cannot hold up requests",
      coarsePointer: NO_TOUCH,
      pictures: "WebKitWebDriver's pictures are of the whole window, in which a desk's code is not found",
      lastWindow: "WebKitWebDriver ends with its last window",
      keptFiles: "WebKitGTK keeps no files between requests in its automated session",
      wheelKeys: "WebKitWebDriver's wheel knows nothing of the keys held down",
      narrow: "WebKitGTK's window is at least 305 px wide",
      fileDialogs: "WebKitWebDriver does not tell of the dialog that asks for a file",
    },
  },
};

export const ENGINE = process.env.TABWRIGHT_ENGINE ?? "chromium";
const engine = ENGINES[ENGINE];
if (!engine) throw new Error(`TABWRIGHT_ENGINE is "${ENGINE}"; it takes ${Object.keys(ENGINES).join(", ")}`);

/**
 * What this engine's automation cannot do, each with the reason, for `test(name, { skip: LACKS.touch }, ...)`.
 * @type {{workers?: string, touch?: string, touchCancel?: string, touchScroll?: string, media?: string, routes?: string, narrow?: string, coarsePointer?: string, doubleClick?: string, lastWindow?: string, pictures?: string, keptFiles?: string, fileDialogs?: string}}
 */
export const LACKS = engine.lacks;

export function launchEngine() {
  return engine.emulates ? engine.start() : browserByLooks();
}

/** For engines whose looks are set when they start: a browser for each of them, started when its first context is wanted. */
function browserByLooks() {
  const started = new Map();
  return {
    async newContext({ colorScheme, reducedMotion, hasTouch = false, ...options } = {}) {
      const looks = { isDark: colorScheme === "dark", isStill: reducedMotion === "reduce", hasTouch };
      const key = JSON.stringify(looks);
      if (!started.has(key)) started.set(key, engine.start(looks));
      const context = await (await started.get(key)).newContext({ ...options, hasTouch });
      context.on("page", fillAtOnce);
      context.on("page", tapByDriver);
      context.on("page", noteDownloads);
      return context;
    },
    async newPage(options) {
      return (await this.newContext(options)).newPage();
    },
    browserType: () => ({ name: () => ENGINE }),
    async close() {
      await Promise.all([...started.values()].map(async (browser) => (await browser).close()));
    },
  };
}

/** Neither engine's driver tells of files that a page makes itself: here, a download is what the page hands to the browser. */
function noteDownloads(page) {
  const wait = page.waitForEvent.bind(page);
  page.waitForEvent = async (event, options) => {
    if (event !== "download") return wait(event, options);
    const { name, text } = await page.evaluate(nextDownload);
    const path = join(await mkdtemp(join(tmpdir(), "tabwright-")), "download");
    await writeFile(path, text);
    return { suggestedFilename: () => name, path: async () => path };
  };
}

/** Inside the page: name and text of the next file that a link with a name for it leads to. */
function nextDownload() {
  const blobs = new Map();
  const make = URL.createObjectURL;
  const click = HTMLAnchorElement.prototype.click;
  URL.createObjectURL = (blob) => {
    const url = make.call(URL, blob);
    blobs.set(url, blob);
    return url;
  };
  return new Promise((resolve) => {
    const note = (link) => {
      URL.createObjectURL = make;
      HTMLAnchorElement.prototype.click = click;
      removeEventListener("click", heard, true);
      const text = blobs.get(link.href)?.text() ?? fetch(link.href).then((response) => response.text());
      resolve(text.then((value) => ({ name: link.download, text: value })));
    };
    const heard = ({ target }) => {
      const link = target.closest?.("a[download]");
      if (link) note(link);
    };
    addEventListener("click", heard, true);
    HTMLAnchorElement.prototype.click = function () {
      if (this.hasAttribute("download")) note(this);
      else click.call(this);
    };
  });
}

/** Playwright leaves taps out here. */
function tapByDriver(page) {
  insideOf(page).rawTouchscreen.tap = async (_progress, x, y) => {
    const send = await bidiTouch(page);
    await send("press", [{ x, y }]);
    await send("lift");
  };
}

/** Playwright has no door to this; the object behind the page has it. */
function insideOf(page) {
  return page._connection.toImpl(page).delegate;
}

/** A text that is filled in is one change, as in Chromium; Playwright would type it here, and each key would be a change. */
function fillAtOnce(page) {
  insideOf(page).rawKeyboard.sendText = (_progress, text) => (
    page.evaluate((inserted) => { document.execCommand("insertText", false, inserted); }, text)
  );
}

/**
 * Touches as a screen reports them, one point of the page for each finger; see LACKS.touch.
 * @returns {Promise<(type: "press"|"move"|"lift"|"cancel", points?: {x: number, y: number}[]) => Promise<void>>}
 */
export function touchscreen(page) {
  return engine.touch(page);
}

async function chromiumTouch(page) {
  const names = { press: "touchStart", move: "touchMove", lift: "touchEnd", cancel: "touchCancel" };
  const session = await page.context().newCDPSession(page);
  return (type, touchPoints = []) => session.send("Input.dispatchTouchEvent", { type: names[type], touchPoints });
}

async function bidiTouch(page) {
  const session = insideOf(page)._session;
  const at = ({ x, y }) => ({ type: "pointerMove", x: Math.round(x), y: Math.round(y) });
  /** How many fingers are down. */
  let down = 0;
  return (type, points = Array(down).fill(null)) => {
    const actions = {
      press: (point, finger) => finger < down ? [at(point)] : [at(point), { type: "pointerDown", button: 0 }],
      move: (point) => [at(point)],
      lift: () => [{ type: "pointerUp", button: 0 }],
    };
    const sources = points.map((point, finger) => (
      { type: "pointer", id: `finger-${finger}`, parameters: { pointerType: "touch" }, actions: actions[type](point, finger) }
    ));
    down = type === "lift" ? 0 : points.length;
    return session.send("input.performActions", { context: session.sessionId, actions: sources });
  };
}
