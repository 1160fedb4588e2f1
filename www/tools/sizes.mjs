// Compresses every file ahead of time and says what a visit costs.
import { readFileSync, writeFileSync } from "node:fs";
import { extname, join } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

const COMPRESSIBLE = new Set([".html", ".css", ".js", ".mjs", ".ts", ".json", ".svg", ".txt", ".wasm", ".webmanifest"]);

/** Writes NAME.gz and NAME.br beside NAME and returns the three sizes; a file of another kind travels as it is. */
export function compress(folder, name) {
  const path = join(folder, name);
  const raw = readFileSync(path);
  if (!COMPRESSIBLE.has(extname(name))) return { name, raw: raw.length, gzip: raw.length, brotli: raw.length };
  const gzip = gzipSync(raw, { level: constants.Z_BEST_COMPRESSION });
  const brotli = brotliCompressSync(raw, { params: { [constants.BROTLI_PARAM_SIZE_HINT]: raw.length } });
  writeFileSync(`${path}.gz`, gzip);
  writeFileSync(`${path}.br`, brotli);
  return { name, raw: raw.length, gzip: gzip.length, brotli: brotli.length };
}

/**
 * @param {ReturnType<typeof compress>[]} sizes
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
