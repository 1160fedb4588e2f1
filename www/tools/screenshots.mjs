// Takes the README's pictures of the built page: node www/tools/screenshots.mjs
// Needs target/site (./www/serve --build-only) and the browser that tests/run installs.
import { mkdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { DESK, PHONE, launch, serveSite, untilAnswered } from "../../tests/browser/harness.js";

const FOLDER = fileURLToPath(new URL("../../fixtures/readme/", import.meta.url));
const PICTURES = { "page.png": DESK, "phone.png": PHONE };

mkdirSync(FOLDER, { recursive: true });
const site = await serveSite();
const browser = await launch();
try {
  for (const [name, viewport] of Object.entries(PICTURES)) {
    const context = await browser.newContext({ viewport, colorScheme: "light", deviceScaleFactor: 1, reducedMotion: "reduce" });
    const page = await context.newPage();
    await page.goto(site.url);
    await untilAnswered(page);
    await page.screenshot({ path: FOLDER + name });
    console.log(`fixtures/readme/${name}`);
    await context.close();
  }
} finally {
  await browser.close();
  await site.stop();
}
