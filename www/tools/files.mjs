// Folders, hashes and the two settings that every step of the build shares.
import { createHash } from "node:crypto";
import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { transformSync } from "esbuild";

export const START_PAGE = "index.html";
export const WORKER = "sw.js";
/** What of the geometry a first verdict needs, and all of it: each a package of this name with two files for the browser. */
export const START = "tabwright_start";
export const WHOLE = "tabwright_wasm";
export const glue = (name) => `${name}.js`;
export const wasm = (name) => `${name}_bg.wasm`;
const VERSION_DIGITS = 12;
/** Of a file's SHA-256 in base64, six bits each, that the service worker compares: plenty against accidents. */
const DIGEST_DIGITS = 20;
const TARGET = "es2022";
/** For esbuild, whatever it packs. */
export const PACKING = { bundle: true, minify: true, legalComments: "none", target: TARGET, write: true };

/** Relative paths with forward slashes, sorted, so that the version is the same on every machine. */
export function filesIn(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name)).split(sep).join("/"))
    .sort();
}

/** One version for all files of a folder. */
export function versionOf(folder, names) {
  const hash = createHash("sha256");
  for (const name of names) hash.update(`${name}\0`).update(readFileSync(join(folder, name)));
  return hash.digest("hex").slice(0, VERSION_DIGITS);
}

export function digestOf(path) {
  return createHash("sha256").update(readFileSync(path)).digest("base64").slice(0, DIGEST_DIGITS);
}

/** For a Content-Security-Policy. @param {string} text */
export function policyHash(text) {
  return `'sha256-${createHash("sha256").update(text).digest("base64")}'`;
}

/** Puts a package's two files into a folder. */
export function copyPackage(packages, name, target) {
  mkdirSync(target, { recursive: true });
  writeFileSync(join(target, glue(name)), minified(readFileSync(join(packages, name, glue(name)), "utf8")));
  cpSync(join(packages, name, wasm(name)), join(target, wasm(name)));
}

/** A module by itself; what it exports keeps its name. @param {string} module */
export function minified(module) {
  return transformSync(module, { minify: true, legalComments: "none", format: "esm", target: TARGET }).code;
}

/** Comments and indentation; every line keeps its break, which may stand between two words. @param {string} html */
export function withoutIndentation(html) {
  return html.replace(/<!--.*?-->/gs, "").replace(/\n\s+/g, "\n");
}
