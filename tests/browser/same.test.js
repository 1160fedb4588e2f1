// One answer in every engine: the geometry says the same in Node's WebAssembly and in the engine's, byte for byte.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { chance, setups as randomSetups, wasm, writer } from "./codec.js";
import { THOROUGH, launch } from "./harness.js";
import { startHost } from "./host.js";
import { ofLinks, ofSetups } from "./same/digests.js";
import { ROOT, SEED, SETUPS, drawn } from "./same/drawn.js";

const LINKS = THOROUGH ? 200 : 80;
const IN_ENGINE = THOROUGH ? SETUPS : Math.min(SETUPS, 80);
const BASE = "http://site/";

let setups;
let links;
let browser;

before(async () => {
  setups = drawn(IN_ENGINE).map(({ setup }) => setup);
  const random = randomSetups(chance(SEED));
  links = Array.from({ length: LINKS }, (_, index) => writer.links(random.next([1, 0.3, 0.1][index % 3]), BASE).link);
  browser = await launch();
});
after(() => browser?.close());

test(`${LINKS} links and ${IN_ENGINE} setups give the same drawings, rings and reports in Node and in this engine, byte for byte`, async (t) => {
  const host = await startHost(t, ROOT);
  const files = { "/links.txt": links, "/setups.jsonl": setups.map((setup) => JSON.stringify(setup)) };
  host.breaks = (path, response) => path in files && Boolean(response.writeHead(200, { "Content-Type": "text/plain; charset=utf-8" }).end(files[path].join("\n")));
  const page = await (await browser.newContext()).newPage();
  await page.goto(`${host.url}tests/browser/same/page.html`);
  await page.waitForFunction(() => document.title === "Ready");
  const [ofPage, reportsOfPage] = [await page.evaluate(() => window.links()), await page.evaluate(() => window.setups())];
  assert.equal(new Set(ofPage).size, LINKS, "each link has a drawing of its own");
  assert.deepEqual(ofPage, await ofLinks(wasm, links));
  assert.deepEqual(reportsOfPage, await ofSetups(wasm, setups));
});
