// node www/tools/weights.mjs: how much of the geometry's code each crate makes, and of the page's scripts each npm package.
// Code in bytes as the compiler leaves it, by the names of functions; packed in proportion to the package that is sent.
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { buildSync } from "esbuild";

const ROOT = join(dirname(fileURLToPath(import.meta.url)), "../..");
const [CUSTOM, IMPORT, CODE] = [0, 2, 10];
/** Of the parts of a name section: the one with the functions' names. */
const FUNCTION_NAMES = 1;

/** Reads one of WebAssembly's whole numbers after the other. */
class Reader {
  constructor(bytes, at = 0) { Object.assign(this, { bytes, at }); }
  number() {
    let [value, shift, byte] = [0, 0, 0];
    do {
      byte = this.bytes[this.at++];
      value += (byte & 0x7f) * 2 ** shift;
      shift += 7;
    } while (byte & 0x80);
    return value;
  }
  text() {
    const length = this.number();
    this.at += length;
    return Buffer.from(this.bytes.subarray(this.at - length, this.at)).toString();
  }
}

/** Bytes of code by crate. @param {Uint8Array} wasm */
function byCrate(wasm) {
  const [sizes, names] = [[], new Map()];
  let imported = 0;
  const reader = new Reader(wasm, 8);
  while (reader.at < wasm.length) {
    const kind = wasm[reader.at++];
    const end = reader.number() + reader.at;
    if (kind === CODE) {
      for (let count = reader.number(); count > 0; count -= 1) {
        const size = reader.number();
        sizes.push(size);
        reader.at += size;
      }
    } else if (kind === IMPORT) {
      for (let count = reader.number(); count > 0; count -= 1) {
        reader.text();
        reader.text();
        // Functions alone are imported by this package.
        if (wasm[reader.at++] === 0) imported += 1;
        reader.number();
      }
    } else if (kind === CUSTOM && reader.text() === "name") {
      while (reader.at < end) {
        const part = wasm[reader.at++];
        const partEnd = reader.number() + reader.at;
        if (part === FUNCTION_NAMES) for (let count = reader.number(); count > 0; count -= 1) names.set(reader.number(), reader.text());
        reader.at = partEnd;
      }
    }
    reader.at = end;
  }
  const sums = new Map();
  for (const [index, size] of sizes.entries()) {
    const name = names.get(index + imported) ?? "";
    // Such functions tell wasm-bindgen of types, and are taken out by it.
    if (/__wbindgen_describe|describe\b|8describe/.test(name)) continue;
    const crate = crateOf(name);
    sums.set(crate, (sums.get(crate) ?? 0) + size);
  }
  return sums;
}

/** The first name in a mangled or plain path that is a crate's. @param {string} name */
function crateOf(name) {
  // Of `<A as B>::c` and its like, A is what the code is made for, or B where A may be any type.
  const [, digits, rest] = /C(?:s\w+?_)(\d+)_?([a-z]\w*)/.exec(name.startsWith("_R") ? name : "") ?? [];
  if (digits) return grouped(rest.slice(0, Number(digits)));
  const [, length, path] = /^_ZN(\d+)(.*)/.exec(name) ?? [];
  const first = length ? path.slice(0, Number(length)) : name;
  const crates = [...first.replace(/\$\w+\$/g, " ").matchAll(/([a-z]\w*)(?=\.\.|::|$)/g)].map(([, crate]) => crate);
  return grouped(crates.find((crate) => crate.length > 2) ?? (name ? "of no one crate" : "without a name"));
}

/** @param {string} crate */
function grouped(crate) {
  return ["core", "alloc", "std", "compiler_builtins", "rustc_demangle"].includes(crate) ? "the standard library" : crate;
}

const built = readFileSync(join(ROOT, "target/wasm32-unknown-unknown/page/tabwright_wasm.wasm"));
const sent = gzipSync(readFileSync(join(ROOT, "target/pkg/tabwright_wasm/tabwright_wasm_bg.wasm")), { level: 9 }).length;
const sums = [...byCrate(built)].sort((one, other) => other[1] - one[1]);
const all = sums.reduce((sum, [, size]) => sum + size, 0);
console.log(`geometry, ${all} bytes of code, ${sent} sent gzipped`);
for (const [crate, size] of sums.filter(([, size]) => size > all / 1000)) console.log(`  ${crate}: ${size}, sent about ${Math.round((size / all) * sent)}`);
for (const name of ["idb", "uqr"]) {
  const { outputFiles: [file] } = buildSync({
    stdin: { contents: `export * from "${name}"`, resolveDir: join(ROOT, "www") }, bundle: true, minify: true, format: "esm", write: false,
  });
  console.log(`${name}, whole: ${file.contents.length} bytes, sent at most ${gzipSync(file.contents, { level: 9 }).length}`);
}
