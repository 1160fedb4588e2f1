// Compresses every file ahead of time and says what a visit costs.
import { readFileSync, writeFileSync } from "node:fs";
import { extname, join } from "node:path";
import { promisify } from "node:util";
import { brotliCompress, constants, gzip } from "node:zlib";
import { digestOf } from "./files.mjs";

const COMPRESSIBLE = new Set([".html", ".css", ".js", ".mjs", ".ts", ".json", ".svg", ".txt", ".wasm", ".webmanifest"]);

/**
 * Writes NAME.gz and NAME.br beside each file and returns its three sizes; a file of another kind travels as it is.
 * @param {string} folder @param {string[]} names
 */
export function compress(folder, names) {
  /** Of what is there twice, once. */
  const made = new Map();
  return Promise.all(names.map(async (name) => {
    const path = join(folder, name);
    const raw = readFileSync(path);
    if (!COMPRESSIBLE.has(extname(name))) return { name, raw: raw.length, gzip: raw.length, brotli: raw.length };
    const digest = digestOf(path);
    if (!made.has(digest)) made.set(digest, compressed(raw));
    const [gz, br] = await made.get(digest);
    writeFileSync(`${path}.gz`, gz);
    writeFileSync(`${path}.br`, br);
    return { name, raw: raw.length, gzip: gz.length, brotli: br.length };
  }));
}

/** @param {Buffer} raw */
function compressed(raw) {
  return Promise.all([
    promisify(gzip)(raw, { level: constants.Z_BEST_COMPRESSION }),
    promisify(brotliCompress)(raw, { params: { [constants.BROTLI_PARAM_SIZE_HINT]: raw.length } }),
  ]);
}

/**
 * @param {Awaited<ReturnType<typeof compress>>} sizes
 * @param {(name: string) => boolean} isLater  Loaded when a panel is opened.
 * @param {(name: string) => boolean} isExtra  Never loaded by the page itself.
 */
export function printSizes(sizes, isLater, isExtra) {
  const total = (files) => ({ raw: sum(files, "raw"), gzip: sum(files, "gzip"), brotli: sum(files, "brotli") });
  const wasm = sizes.find(({ name }) => name.endsWith(".wasm") && !isExtra(name));
  const own = sizes.filter(({ name }) => !isExtra(name));
  const [firstVisit, all] = [total(own.filter(({ name }) => !isLater(name))), total(own)];
  console.log(`wasm: ${words(wasm)}`);
  console.log(`first visit, every file once: ${words(firstVisit)}`);
  console.log(`with what the panels load later: ${words(all)}`);
  return { wasm, firstVisit, all, later: own.map(({ name }) => name).filter(isLater), files: sizes };
}

function sum(files, kind) {
  return files.reduce((total, file) => total + file[kind], 0);
}

function words({ raw, gzip, brotli }) {
  return `${kB(gzip)} gzip, ${kB(brotli)} brotli (${kB(raw)} raw)`;
}

export function kB(bytes) {
  return `${(bytes / 1000).toFixed(1)} kB`;
}
