// Puts the site together: node assemble.mjs PAGE_FOLDER WASM_PACKAGE SITE
// Packs the page's modules and style sheets into one file each, adds the wasm package, tells the service worker what to
// keep, minifies, and compresses every file ahead of time. The page in www/ runs unpacked just as well; packing saves requests.

import { createHash } from "node:crypto";
import { cpSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { dirname, extname, join, relative, sep } from "node:path";
import { buildSync, transformSync } from "esbuild";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

// Besides tools: what is packed instead of copied.
const NOT_SERVED = new Set(["js", "css", "build", "serve", "tools", "node_modules", "package.json", "package-lock.json"]);
const WASM_FILES = ["tabwright_wasm.js", "tabwright_wasm_bg.wasm"];
const COMPRESSIBLE = new Set([".html", ".css", ".js", ".mjs", ".json", ".svg", ".txt", ".wasm", ".webmanifest"]);
const START_PAGE = "index.html";
const WORKER = "sw.js";
// The two lines of the service worker that are filled in here.
const VERSION_LINE = 'const VERSION = "dev";';
const FILES_LINE = "const FILES = [];";
const VERSION_DIGITS = 12;
const TARGET = "es2022";

const [page, wasmPackage, site] = process.argv.slice(2);

// Relative paths with forward slashes, sorted, so that the version is the same on every machine.
function filesIn(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name)).split(sep).join("/"))
    .sort();
}

function copyPage(target) {
  const served = (source) => {
    const name = relative(page, source);
    return !NOT_SERVED.has(name) && !name.split(sep).some((part) => part.startsWith("."));
  };
  cpSync(page, target, { recursive: true, filter: served });
  mkdirSync(join(target, "pkg"), { recursive: true });
  for (const name of WASM_FILES) {
    const source = join(wasmPackage, name);
    if (name.endsWith(".js")) writeFileSync(join(target, "pkg", name), minified(readFileSync(source, "utf8")));
    else cpSync(source, join(target, "pkg", name));
  }
}

// A module by itself; what it exports keeps its name.
function minified(module) {
  return transformSync(module, { minify: true, legalComments: "none", format: "esm", target: TARGET }).code;
}

// Comments and indentation; every line keeps its break, which may stand between two words.
function withoutIndentation(html) {
  return html.replace(/<!--.*?-->/gs, "").replace(/\n\s+/g, "\n");
}

const STYLE_LINK = /^\s*<link rel="stylesheet" href="css\/([\w-]+\.css)"(?: media="(\w+)")?>\n/gm;
const SCRIPT_LINK = 'src="js/main.js"';
// The page's script and its worker, each with where it imports the wasm package from.
const SCRIPTS = { "main.js": "../pkg/*", "search/worker.js": "../../pkg/*" };

// One script, one worker and one style sheet, in the place of the many that the start page names.
function pack(target) {
  const path = join(target, START_PAGE);
  const text = readFileSync(path, "utf8");
  const sheets = [...text.matchAll(STYLE_LINK)].map(([, name, media = ""]) => `@import "./css/${name}" ${media};`);
  if (sheets.length === 0 || !text.includes(SCRIPT_LINK)) throw new Error(`www/${START_PAGE} must link css/ and js/main.js`);
  const options = { bundle: true, minify: true, legalComments: "none", target: TARGET };
  buildSync({
    ...options,
    stdin: { contents: sheets.join("\n"), resolveDir: page, loader: "css" },
    outfile: join(target, "css", "page.css"),
  });
  for (const [script, wasm] of Object.entries(SCRIPTS)) {
    const place = { entryPoints: [join(page, "js", script)], outfile: join(target, "js", script) };
    buildSync({ ...options, ...place, format: "esm", external: [wasm] });
  }
  let first = true;
  const packed = text.replace(STYLE_LINK, () => (first ? ((first = false), '  <link rel="stylesheet" href="css/page.css">\n') : ""));
  writeFileSync(path, withoutIndentation(packed));
}

function contentHash(folder, names) {
  const hash = createHash("sha256");
  for (const name of names) hash.update(`${name}\0`).update(readFileSync(join(folder, name)));
  return hash.digest("hex").slice(0, VERSION_DIGITS);
}

function fillWorker(folder, names) {
  const path = join(folder, WORKER);
  let text = readFileSync(path, "utf8");
  const urls = ["./", ...names.filter((name) => name !== WORKER).map((name) => `./${name}`)];
  const lines = [
    [VERSION_LINE, `const VERSION = ${JSON.stringify(contentHash(folder, names))};`],
    [FILES_LINE, `const FILES = ${JSON.stringify(urls, null, 2)};`],
  ];
  for (const [placeholder, line] of lines) {
    if (text.split(placeholder).length !== 2) throw new Error(`www/${WORKER} must have this line once: ${placeholder}`);
    text = text.replace(placeholder, () => line);
  }
  writeFileSync(path, minified(text));
}

// Writes NAME.gz and NAME.br beside NAME and returns the three sizes; a file of another kind travels as it is.
function compress(folder, name) {
  const path = join(folder, name);
  const raw = readFileSync(path);
  if (!COMPRESSIBLE.has(extname(name))) return { name, raw: raw.length, gzip: raw.length, brotli: raw.length };
  const gzip = gzipSync(raw, { level: constants.Z_BEST_COMPRESSION });
  const brotli = brotliCompressSync(raw, { params: { [constants.BROTLI_PARAM_SIZE_HINT]: raw.length } });
  writeFileSync(`${path}.gz`, gzip);
  writeFileSync(`${path}.br`, brotli);
  return { name, raw: raw.length, gzip: gzip.length, brotli: brotli.length };
}

function printSizes(sizes) {
  const total = (kind) => sizes.reduce((sum, file) => sum + file[kind], 0);
  const wasm = sizes.find((file) => file.name.endsWith(".wasm"));
  const kB = (bytes) => `${(bytes / 1000).toFixed(1)} kB`;
  console.log(`wasm: ${kB(wasm.raw)} raw, ${kB(wasm.gzip)} gzip, ${kB(wasm.brotli)} brotli`);
  console.log(`first visit, every file once: ${kB(total("gzip"))} gzip, ${kB(total("brotli"))} brotli (${kB(total("raw"))} raw)`);
  return { wasm, firstVisit: { raw: total("raw"), gzip: total("gzip"), brotli: total("brotli") }, files: sizes };
}

// Built aside and swapped in whole, so that a running server never shows half a site.
const next = `${site}.next`;
rmSync(next, { recursive: true, force: true });
mkdirSync(dirname(site), { recursive: true });
copyPage(next);
pack(next);
const names = filesIn(next);
for (const needed of [START_PAGE, WORKER]) {
  if (!names.includes(needed)) throw new Error(`www/${needed} is missing`);
}
fillWorker(next, names);
const sizes = printSizes(names.map((name) => compress(next, name)));
rmSync(site, { recursive: true, force: true });
renameSync(next, site);
writeFileSync(join(dirname(site), "site-sizes.json"), `${JSON.stringify(sizes, null, 2)}\n`);
