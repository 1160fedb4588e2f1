// What axe-core, a published set of checks for accessible pages, finds on a page.
import { readFile } from "node:fs/promises";

const AXE = await readFile(new URL(import.meta.resolve("axe-core/axe.min.js")), "utf8");

/**
 * The serious and critical findings within an element, each with the places it was made at.
 * @param {import("playwright-core").Page} page
 * @param {string} [within]  A selector; the whole page without it.
 * @returns {Promise<string[]>}
 */
export async function seriousFindings(page, within = ":root") {
  if (!await page.evaluate(() => "axe" in globalThis)) await page.evaluate(AXE);
  // Nothing has to be fetched: the page's styles are its own.
  const { violations } = await page.evaluate((within) => globalThis.axe.run(within, { resultTypes: ["violations"], preload: false }), within);
  const serious = violations.filter(({ impact }) => impact === "serious" || impact === "critical");
  return serious.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(" ")).join(", ")}`);
}
