// One answer everywhere: the geometry compiled for this machine, in Node's WebAssembly and in the engine's says the same.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";
import { chance, setups as randomSetups, writer } from "./codec.js";
import { launch } from "./harness.js";
import { startHost } from "./host.js";
import { ofLinks, ofSetups } from "./same/digests.js";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const PACKAGE = `${ROOT}target/pkg/tabwright_wasm/tabwright_wasm`;
const SEED = 20_261_127;
const SETUPS = Number(process.env.TABWRIGHT_SAME_SETUPS ?? 2_000);
const LINKS = 200;
/** Of the setups, so many are asked about in the engine too, which takes longer. */
const IN_ENGINE = process.env.TABWRIGHT_THOROUGH ? SETUPS : Math.min(SETUPS, 300);
const MOST_BYTES = 2 ** 30;
/** Numbers of any report agree to this, mm or degrees. */
const NUMBERS_AGREE = 1e-9;
/** Two points are nearest to each other as well as two others where they are as far apart to this, mm: what a gap is certified to. */
const AS_NEAR = 2e-3;
const BASE = "http://site/";

let wasm;
let drawn;
let links;
let browser;

before(async () => {
  const cargo = ["run", "--quiet", "--locked", "--profile", "checks", "-p", "tabwright-tests", "--example", "drawn", "--", String(SETUPS), String(SEED)];
  drawn = execFileSync("cargo", cargo, { cwd: ROOT, encoding: "utf8", maxBuffer: MOST_BYTES }).trim().split("\n").map((line) => JSON.parse(line));
  wasm = await import(`${PACKAGE}.js`);
  wasm.initSync({ module: readFileSync(`${PACKAGE}_bg.wasm`) });
  const random = randomSetups(chance(SEED));
  links = Array.from({ length: LINKS }, (_, index) => writer.links(random.next([1, 0.3, 0.1][index % 3]), BASE).link);
  browser = await launch();
});
after(() => browser?.close());

/**
 * Every place where two reports say something else, with both. Nearest points, and the pieces they are on, need not be the
 * only ones: there, it is enough that they are as far apart as the gap says.
 */
function differences(one, other, path = "") {
  if (typeof one === "number" && typeof other === "number") {
    return Math.abs(one - other) <= NUMBERS_AGREE ? [] : [[path, one, other]];
  }
  if (one === null || other === null || typeof one !== "object" || typeof other !== "object") return one === other ? [] : [[path, one, other]];
  const found = [...new Set([...Object.keys(one), ...Object.keys(other)])].flatMap((key) => differences(one[key], other[key], `${path}.${key}`));
  const isPair = "points" in one && "gap" in one;
  if (!isPair || found.every(([where]) => !/\.(points|parts)\./.test(where))) return found;
  const apart = ({ points: [a, b] }) => Math.hypot(...a.map((number, index) => number - b[index]));
  const areAsNear = [one, other].every((pair) => Math.abs(apart(pair) - Math.abs(pair.gap)) <= AS_NEAR);
  return areAsNear ? found.filter(([where]) => !/\.(points|parts)\./.test(where)) : found;
}

test(`this machine's own code and WebAssembly agree on ${SETUPS} setups`, (t) => {
  assert.ok(drawn.length > SETUPS * 0.9, `${drawn.length} setups`);
  const wrong = drawn.flatMap(({ setup, report }, index) => {
    const told = wasm.report(setup);
    assert.ok(told.ok, `setup ${index}: ${JSON.stringify(told.errors)}`);
    return differences(report, told.report, String(index));
  });
  t.diagnostic(`${drawn.length} setups, ${wrong.length} numbers differ by more than ${NUMBERS_AGREE}`);
  assert.deepEqual(wrong.slice(0, 10), []);
});

test(`${LINKS} links and ${IN_ENGINE} setups give the same drawings, rings and reports in Node and in this engine, byte for byte`, async (t) => {
  const host = await startHost(t, ROOT);
  const setups = drawn.slice(0, IN_ENGINE).map(({ setup }) => setup);
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
