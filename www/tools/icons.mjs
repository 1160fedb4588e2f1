// Draws the icons that systems want as PNG from our own SVG: node www/tools/icons.mjs
// Needs the browser that tests/run installs. Run it when an SVG in www/icons has changed, and commit what it writes.
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { launch } from "../../tests/browser/harness.js";

const FOLDER = fileURLToPath(new URL("../icons/", import.meta.url));
const PICTURES = [
  { from: "icon.svg", to: "icon-192.png", size: 192 },
  { from: "icon.svg", to: "icon-512.png", size: 512 },
  // To its edges, as the system cuts these into its own shape.
  { from: "icon-maskable.svg", to: "icon-maskable-512.png", size: 512 },
  { from: "icon-maskable.svg", to: "apple-touch-icon.png", size: 180 },
];

const browser = await launch();
try {
  for (const { from, to, size } of PICTURES) {
    const page = await browser.newPage({ viewport: { width: size, height: size }, deviceScaleFactor: 1 });
    const svg = readFileSync(FOLDER + from).toString("base64");
    await page.setContent(`<style>body { margin: 0 } img { display: block }</style>
      <img src="data:image/svg+xml;base64,${svg}" width="${size}" height="${size}">`);
    const png = await page.screenshot({ omitBackground: true });
    writeFileSync(FOLDER + to, png);
    console.log(`www/icons/${to} ${png.length} bytes`);
    await page.close();
  }
} finally {
  await browser.close();
}
