// Prints a setup's template from the page by Chromium: node print_template.mjs SETUP.json "A4"|"US Letter" OUT.pdf [...]
// Three words for each print.
import { readFile, writeFile } from "node:fs/promises";
import { launch, serveSite, untilAnswered } from "../browser/harness.js";

const words = process.argv.slice(2);
const browser = await launch();
const site = await serveSite();
for (let index = 0; index < words.length; index += 3) {
  const [file, paper, out] = words.slice(index, index + 3);
  const setup = JSON.parse(await readFile(file, "utf8"));
  const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
  await page.goto(site.url);
  await untilAnswered(page);
  await page.evaluate((setup) => document.body.dispatchEvent(new CustomEvent("setup", { bubbles: true, detail: { setup, words: "" } })), setup);
  await page.locator("[data-panel=build]").click();
  const done = page.locator(".cut-answer:not(.outdated):not([hidden])");
  await done.waitFor();
  await page.getByRole("radio", { name: paper, exact: true }).check({ force: true });
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
  await done.waitFor();
  await page.getByRole("button", { name: "Template to print" }).click();
  await writeFile(out, await page.pdf({ preferCSSPageSize: true }));
  await page.close();
}
await browser.close();
await site.stop();
