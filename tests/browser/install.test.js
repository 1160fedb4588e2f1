// Installing as an app, judged by the browser's own reading of the manifest, and the page's requests with all of it open.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { launch, openSite, untilOffline } from "./harness.js";

/** By the Web App Manifest specification's "purpose"; the sizes are those that systems ask for (common practice, no source). */
const WANTED_ICONS = ["192x192 any", "512x512 any", "512x512 maskable"];
const APPLE_SIZE = 180;
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

test("the browser finds nothing that keeps the page from being installed", async (t) => {
  if (browser.browserType().name() !== "chromium") return t.skip("only Chromium tells");
  const { page, context } = await openSite(t, browser, { base: "/some/where/" });
  await untilOffline(page);
  const devtools = await context.newCDPSession(page);
  const { installabilityErrors } = await devtools.send("Page.getInstallabilityErrors");
  // A window without a history, as tests open them, is the one thing it may hold against the page.
  assert.deepEqual(installabilityErrors.filter(({ errorId }) => errorId !== "in-incognito"), []);
  const { data, errors, url } = await devtools.send("Page.getAppManifest");
  assert.deepEqual(errors, []);
  const manifest = JSON.parse(data);
  for (const member of ["name", "short_name", "id", "start_url", "theme_color", "background_color", "categories"]) {
    assert.ok(manifest[member].length > 0, member);
  }
  assert.equal(manifest.display, "standalone");
  const raster = manifest.icons.filter(({ type }) => type === "image/png").map(({ sizes, purpose }) => `${sizes} ${purpose}`);
  assert.deepEqual(raster.sort(), WANTED_ICONS);
  for (const { src, sizes } of manifest.icons) {
    const size = await sizeOf(page, new URL(src, url).href);
    if (sizes !== "any") assert.equal(`${size.width}x${size.height}`, sizes, src);
    assert.ok(size.width > 0 && size.width === size.height, src);
  }
  const apple = await page.locator("link[rel=apple-touch-icon]").evaluate((link) => link.href);
  assert.equal((await sizeOf(page, apple)).width, APPLE_SIZE);
});

function sizeOf(page, address) {
  return page.evaluate(async (src) => {
    const image = new Image();
    image.src = src;
    await image.decode();
    return { width: image.naturalWidth, height: image.naturalHeight };
  }, address);
}

test("with every panel opened and every fold unfolded, the page asks its own folder alone", async (t) => {
  const { page, site, requests, complaints } = await openSite(t, browser, { base: "/some/where/" });
  await untilOffline(page);
  const buttons = page.locator("button[data-panel]");
  const names = await buttons.evaluateAll((all) => all.map((button) => button.dataset.panel));
  assert.ok(names.length > 0);
  for (const name of names) {
    await page.locator(`button[data-panel=${name}]`).click();
    await page.locator(`#panel[data-panel=${name}][open]`).waitFor();
    await page.keyboard.press("Escape");
  }
  for (const fold of await page.locator("#searches-title ~ details > summary").all()) await fold.click();
  await page.locator("#shortest").getByText(/mm/).first().waitFor();
  assert.ok(requests.some((url) => new URL(url).pathname.endsWith("panels.css")), "requests are recorded");
  assert.deepEqual(requests.filter((url) => !url.startsWith(site.url)), []);
  assert.deepEqual(complaints, []);
});
