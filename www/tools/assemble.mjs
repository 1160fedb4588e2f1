// Puts the site together: node assemble.mjs PAGE_FOLDER WASM_PACKAGES SITE [--plain]
// Packs the page's modules and style sheets into one file each, adds the wasm packages and the component, tells the service
// worker what to keep, minifies, and, unless it shall be plain, compresses.

import { cpSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, relative, resolve, sep } from "node:path";
import { parseArgs } from "node:util";
import { buildComponent, isOfComponent } from "./component.mjs";
import { START, START_PAGE, WHOLE, WORKER, copyPackage, digestOf, filesIn, minified, versionOf } from "./files.mjs";
import { pack, writeVersion } from "./pack.mjs";
import { compress, printSizes } from "./sizes.mjs";

// Besides tools: what is packed instead of copied.
const NOT_SERVED = new Set(["js", "css", "build", "serve", "tools", "node_modules", "package.json", "package-lock.json"]);
const SCHEMA = "setup.schema.json";
// The two lines of the service worker that are filled in here.
const VERSION_LINE = 'const VERSION = "dev";';
const FILES_LINE = "const FILES = {};";

const { values: { plain: isPlain }, positionals } = parseArgs({ options: { plain: { type: "boolean" } }, allowPositionals: true });
const [page, packages, site] = positionals.map((path) => resolve(path));

function copyPage(target) {
  const served = (source) => {
    const name = relative(page, source);
    return !NOT_SERVED.has(name) && !name.split(sep).some((part) => part.startsWith("."));
  };
  cpSync(page, target, { recursive: true, filter: served });
  for (const name of [START, WHOLE]) copyPackage(packages, name, join(target, "pkg"));
}

/** Pictures for the system that installs the page, the schema and the component for others: the page never asks for them. */
function isExtra(name) {
  return name.endsWith(".png") || name === SCHEMA || isOfComponent(name);
}

/** Every file to keep, by the address that the page asks it for, with its digest. */
function fillWorker(folder, names, asked, version) {
  const path = join(folder, WORKER);
  let text = readFileSync(path, "utf8");
  const address = (name) => (name === START_PAGE ? "./" : asked.has(name) ? `${name}?v=${version}` : name);
  const kept = names.filter((name) => name !== WORKER && !isExtra(name));
  const files = Object.fromEntries(kept.map((name) => [address(name), digestOf(join(folder, name))]));
  const lines = [
    [VERSION_LINE, `const VERSION = ${JSON.stringify(version)};`],
    [FILES_LINE, `const FILES = ${JSON.stringify(files)};`],
  ];
  for (const [placeholder, line] of lines) {
    if (text.split(placeholder).length !== 2) throw new Error(`www/${WORKER} must have this line once: ${placeholder}`);
    text = text.replace(placeholder, () => line);
  }
  writeFileSync(path, minified(text));
}

// Built aside and swapped in whole, so that a running server never shows half a site.
const next = `${site}.next`;
rmSync(next, { recursive: true, force: true });
mkdirSync(dirname(site), { recursive: true });
copyPage(next);
const { later, asked } = await pack(page, next);
const pageFiles = filesIn(next);
for (const needed of [START_PAGE, WORKER]) {
  if (!pageFiles.includes(needed)) throw new Error(`www/${needed} is missing`);
}
const version = versionOf(next, pageFiles);
writeVersion(next, version);
fillWorker(next, pageFiles, asked, version);
await buildComponent(page, packages, next);
const files = isPlain ? [] : await compress(next, filesIn(next));
rmSync(site, { recursive: true, force: true });
renameSync(next, site);
if (!isPlain) {
  const sizes = printSizes(files, (name) => later.includes(name), isExtra);
  writeFileSync(join(dirname(site), "site-sizes.json"), `${JSON.stringify(sizes, null, 2)}\n`);
}
