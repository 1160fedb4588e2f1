// Puts the whole page into one file: node one-file.mjs PAGE_FOLDER WASM_PACKAGE FILE
// It opens from a phone's storage or out of a message, without a host and without a network. The same input gives the same file.
import { readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { gzipSync } from "node:zlib";
import { build } from "esbuild";
import { PACKING, START_PAGE, WHOLE, glue, policyHash, wasm, withoutIndentation } from "./files.mjs";
import { kB } from "./sizes.mjs";
import { styleImports, withParts } from "./start-page.mjs";

const MIME = { svg: "image/svg+xml", png: "image/png" };
const POLICY = /(http-equiv="Content-Security-Policy" content=")([^"]*)"/;
// Nothing in a file can be installed.
const HOSTED_LINKS = /^\s*<link rel="(?:manifest|apple-touch-icon)"[^>]*>\n/gm;

const [page, wasmPackage, file] = process.argv.slice(2).map((path) => resolve(path));

/** @param {string} [workerText] */
function oneFile(workerText = "") {
  return {
    name: "one-file",
    setup({ onResolve, onLoad }) {
      onResolve({ filter: /^tabwright:package$/ }, () => ({ path: join(wasmPackage, glue(WHOLE)) }));
      onResolve({ filter: /\/loading\.js$/ }, () => ({ path: join(page, "js/one-file/loading.js") }));
      onResolve({ filter: /^tabwright:worker$/ }, () => ({ path: "worker", namespace: "text" }));
      onLoad({ filter: /.*/, namespace: "text" }, () => ({ contents: workerText, loader: "text" }));
    },
  };
}

/** @param {import("esbuild").BuildOptions} options */
async function packed(options) {
  // The core comes from the page and never from an address.
  const define = { "import.meta.url": '""' };
  const { outputFiles } = await build({ ...PACKING, define, ...options, write: false });
  return outputFiles[0].text.trimEnd();
}

/** The hosted page's policy for a file: what came from the host is in it, known by hash, and nothing is asked for. */
function policy(hosted, scriptHash, styleHash) {
  const directives = new Map(hosted.split(";").map((directive) => {
    const [name, ...sources] = directive.trim().split(/\s+/);
    return [name, sources.filter((source) => source !== "'self'")];
  }));
  directives.get("script-src").push(scriptHash);
  directives.set("style-src", [styleHash]).set("worker-src", ["blob:"]).delete("manifest-src");
  const text = ([name, sources]) => `${name} ${sources.length > 0 ? sources.join(" ") : "'none'"}`;
  return [...directives].map(text).join("; ");
}

/** Icons become data. Whatever else the page still asks for by an address is a mistake. */
function withoutAddresses(html) {
  const inlined = html.replace(/(src|href)="(icons\/[\w-]+\.(\w+))"/g, (_, attribute, path, ending) => (
    `${attribute}="data:${MIME[ending]};base64,${readFileSync(join(page, path)).toString("base64")}"`
  ));
  const left = inlined.match(/\s(?:src|href)="(?!#|data:)[^"]*"/);
  if (left) throw new Error(`www/${START_PAGE} asks for${left[0]}, which the page in one file cannot have`);
  return inlined;
}

const html = readFileSync(join(page, START_PAGE), "utf8");
const styles = await packed({
  stdin: { contents: `${styleImports(html)}\n@import "./css/panels.css";`, resolveDir: page, loader: "css" },
});
const worker = await packed({ entryPoints: [join(page, "js/one-file/worker.js")], format: "iife", plugins: [oneFile()] });
const script = await packed({ entryPoints: [join(page, "js/main.js")], format: "esm", plugins: [oneFile(worker)] });
if (/<\/style/i.test(styles) || /<\/script|<!--/i.test(script)) throw new Error("styles or script would end too early in a page");

const core = readFileSync(join(wasmPackage, wasm(WHOLE))).toString("base64");
// Put in last, as nothing may be changed in them: the policy has their hashes.
const parts = {
  "@styles": `<style data-styles="panels">${styles}</style>`,
  "@core": `<script type="text/plain" id="core">${core}</script>`,
  "@script": `<script type="module">${script}</script>`,
};
const hosted = withParts(html, "@styles", "@core\n@script")
  .replace(HOSTED_LINKS, "")
  .replace(POLICY, (_, start, sources) => `${start}${policy(sources, policyHash(script), policyHash(styles))}"`);
const whole = withoutAddresses(withoutIndentation(hosted)).replace(/@(?:styles|core|script)/g, (name) => parts[name]);
writeFileSync(file, whole);
console.log(`one file: ${kB(Buffer.byteLength(whole))} (${kB(gzipSync(whole).length)} gzip)`);
