// The page in one file, opened by its path: no host, no network, the same answers.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { after, before, test } from "node:test";
import { PHONE, SCREENS, drawing, launch, named, openSearch, untilAnswered, untilVerdict } from "./harness.js";
import { buildOneFile } from "./host.js";

const closing = [];
let browser;
let file;

before(async () => {
  browser = await launch();
  file = buildOneFile({ after: (work) => closing.push(work) });
});
after(async () => {
  await browser.close();
  for (const close of closing) close();
});

/** @param {() => void} [firstScript]  Run in the page before its own. */
async function openFile(t, screen, firstScript) {
  const context = await browser.newContext({ viewport: screen, reducedMotion: "reduce" });
  t.after(() => context.close());
  context.setDefaultTimeout(10_000);
  const [requests, complaints] = [[], []];
  context.on("request", (request) => requests.push(request.url()));
  const page = await context.newPage();
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(error.message));
  if (firstScript) await page.addInitScript(firstScript);
  const url = pathToFileURL(file).href;
  await page.goto(url);
  await untilAnswered(page);
  return { page, url, requests, complaints };
}

async function searchAnswers(page) {
  await openSearch(page, "shortest");
  await page.locator("#shortest").getByText(/mm/).first().waitFor();
}

for (const screen of SCREENS) {
  test(`at ${named(screen)} the file answers, follows a slider, searches beside the page and opens a panel`, async (t) => {
    const { page, url, requests, complaints } = await openFile(t, screen);
    await untilVerdict(page, "Clears");
    assert.match(await drawing(page, "side"), /^<svg[^>]*verdict-clears/);
    await page.getByText("This file works without a network.", { exact: true }).waitFor();

    const before = await drawing(page, "side");
    await page.getByRole("slider", { name: /^Rotor size/ }).press("ArrowRight");
    await page.waitForFunction((text) => document.querySelector(".picture[data-view=side] svg").outerHTML !== text, before);
    await searchAnswers(page);
    assert.ok(page.workers().some((worker) => worker.url().startsWith("blob:")), "the worker is one of the file's own");
    for (const name of await page.locator("button[data-panel]").evaluateAll((all) => all.map((button) => button.dataset.panel))) {
      await page.locator(`button[data-panel=${name}]`).click();
      await page.locator(`#panel[data-panel=${name}][open]`).waitFor();
      await page.keyboard.press("Escape");
    }
    const fetched = requests.filter((address) => !/^(data|blob):/.test(address));
    assert.deepEqual(fetched, [url], "requests besides the file itself");
    assert.deepEqual(complaints, []);
  });
}

const REFUSALS = {
  "at once": () => {
    window.Worker = class {
      constructor() { throw new DOMException("no workers for files", "SecurityError"); }
    };
  },
  "a moment later": () => {
    window.Worker = class extends EventTarget {
      constructor() {
        super();
        setTimeout(() => this.dispatchEvent(new Event("error", { cancelable: true })), 200);
      }
      postMessage() {}
      terminate() {}
    };
  },
};
for (const [when, refuse] of Object.entries(REFUSALS)) {
  test(`where a file's worker is refused ${when}, searches are answered on the page's own thread`, async (t) => {
    const { page, complaints } = await openFile(t, PHONE, refuse);
    await searchAnswers(page);
    await openSearch(page, "positions");
    await page.locator("#positions").getByText(/Clears|Hits|Tight/i).first().waitFor();
    assert.deepEqual(page.workers(), []);
    assert.deepEqual(complaints, []);
  });
}

test("the file's own policy runs no script and no style but those it was built with", async (t) => {
  const { page } = await openFile(t, PHONE);
  const refused = await page.evaluate(async () => {
    const found = [];
    document.addEventListener("securitypolicyviolation", ({ effectiveDirective }) => found.push(effectiveDirective));
    const add = (tag, text) => document.head.append(Object.assign(document.createElement(tag), { textContent: text }));
    add("script", "window.hasRun = true");
    add("style", "body { visibility: hidden }");
    await fetch("https://host.invalid/").catch(() => {});
    await new Promise((resolve) => setTimeout(resolve, 200));
    return { found: found.sort(), hasRun: "hasRun" in window, visibility: getComputedStyle(document.body).visibility };
  });
  assert.deepEqual(refused.found, ["connect-src", "script-src-elem", "style-src-elem"]);
  assert.equal(refused.hasRun, false);
  assert.equal(refused.visibility, "visible");
  assert.doesNotMatch(readFileSync(file, "utf8"), /unsafe-inline|'unsafe-eval'/);
});

test("built twice, the file is the same to the byte", (t) => {
  assert.ok(readFileSync(file).equals(readFileSync(buildOneFile(t))));
});
