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
// Served for whoever writes setup files; the page has no use for it.
const NOT_OF_THE_PAGE = ["setup.schema.json"];
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
const WASM_FROM_SCRIPT = "../pkg/*";
// The worker stands alone, as it is started by its own address. It lies one folder deeper.
const SEARCH_WORKER = { file: "search/worker.js", wasm: "../../pkg/*" };
const PANEL_STYLES = "panels.css";

// One script, one worker and one style sheet, in the place of the many that the start page names; what is loaded later, when
// a panel is opened, in files of its own. Returns the names of those.
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
  buildSync({ ...options, entryPoints: [join(page, "css", PANEL_STYLES)], outfile: join(target, "css", PANEL_STYLES) });
  buildSync({
    ...options,
    format: "esm",
    external: [SEARCH_WORKER.wasm],
    entryPoints: [join(page, "js", SEARCH_WORKER.file)],
    outfile: join(target, "js", SEARCH_WORKER.file),
  });
  const { metafile } = buildSync({
    ...options,
    format: "esm",
    splitting: true,
    metafile: true,
    external: [WASM_FROM_SCRIPT],
    entryPoints: [join(page, "js", "main.js")],
    outdir: join(target, "js"),
    absWorkingDir: target,
  });
  let first = true;
  const packed = text.replace(STYLE_LINK, () => (first ? ((first = false), '  <link rel="stylesheet" href="css/page.css">\n') : ""));
  writeFileSync(path, withoutIndentation(packed));
  return [`css/${PANEL_STYLES}`, ...chunksLoadedLater(metafile.outputs)];
}

// Every chunk that the main script does not need to start.
function chunksLoadedLater(outputs) {
  const needed = new Set();
  const need = (name) => {
    if (needed.has(name)) return;
    needed.add(name);
    for (const { path, kind } of outputs[name]?.imports ?? []) if (kind === "import-statement") need(path);
  };
  need("js/main.js");
  return Object.keys(outputs).filter((name) => !needed.has(name));
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

function printSizes(sizes, later) {
  const firstFiles = sizes.filter(({ name }) => !later.includes(name));
  const total = (files, kind) => files.reduce((sum, file) => sum + file[kind], 0);
  const totals = (files) => ({ raw: total(files, "raw"), gzip: total(files, "gzip"), brotli: total(files, "brotli") });
  const wasm = sizes.find((file) => file.name.endsWith(".wasm"));
  const [firstVisit, all] = [totals(firstFiles), totals(sizes)];
  const words = ({ raw, gzip, brotli }) => `${kB(gzip)} gzip, ${kB(brotli)} brotli (${kB(raw)} raw)`;
  console.log(`wasm: ${words(wasm)}`);
  console.log(`first visit, every file once: ${words(firstVisit)}`);
  console.log(`with what the panels load later: ${words(all)}`);
  return { wasm, firstVisit, all, later, files: sizes };
}

function kB(bytes) {
  return `${(bytes / 1000).toFixed(1)} kB`;
}

// Built aside and swapped in whole, so that a running server never shows half a site.
const next = `${site}.next`;
rmSync(next, { recursive: true, force: true });
mkdirSync(dirname(site), { recursive: true });
copyPage(next);
const later = pack(next);
const names = filesIn(next);
for (const needed of [START_PAGE, WORKER]) {
  if (!names.includes(needed)) throw new Error(`www/${needed} is missing`);
}
fillWorker(next, names.filter((name) => !NOT_OF_THE_PAGE.includes(name)));
const sizes = printSizes(names.map((name) => compress(next, name)), [...later, ...NOT_OF_THE_PAGE]);
rmSync(site, { recursive: true, force: true });
renameSync(next, site);
writeFileSync(join(dirname(site), "site-sizes.json"), `${JSON.stringify(sizes, null, 2)}\n`);
