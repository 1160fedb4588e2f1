// One script, one worker and one style sheet, in the place of the many that the start page names; what is loaded when a
// panel is opened, in files of its own.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { build, buildSync } from "esbuild";
import { PACKING, START, START_PAGE, WHOLE, glue, wasm, withoutIndentation } from "./files.mjs";
import { styleImports, withParts } from "./start-page.mjs";

const SCRIPT = "js/main.js";
const STYLES = "css/page.css";
const PANEL_STYLES = "css/panels.css";
const SEARCH_WORKER = "js/search/worker.js";
/** Stands for the version until that is known. */
const VERSION = "@version";

/**
 * Packs the page's modules into `target`.
 * @returns {Promise<{later: string[], asked: Set<string>}>}  Names of what is loaded later; names of what is asked for with the
 *   version behind it (see www/js/loading.js).
 */
export async function pack(page, target) {
  const html = readFileSync(join(page, START_PAGE), "utf8");
  buildSync({ ...PACKING, stdin: { contents: styleImports(html), resolveDir: page, loader: "css" }, outfile: join(target, STYLES) });
  buildSync({ ...PACKING, entryPoints: [join(page, PANEL_STYLES)], outfile: join(target, PANEL_STYLES) });
  buildSync({ ...PACKING, format: "esm", entryPoints: [join(page, SEARCH_WORKER)], outfile: join(target, SEARCH_WORKER) });
  const { metafile } = await packScripts(page, target);
  const { needed, later } = chunks(metafile.outputs);
  writeFileSync(join(target, START_PAGE), withoutIndentation(startPage(html, needed)));
  const whole = [`pkg/${glue(WHOLE)}`, `pkg/${wasm(WHOLE)}`];
  const asked = [SCRIPT, STYLES, PANEL_STYLES, SEARCH_WORKER, `pkg/${glue(START)}`, `pkg/${wasm(START)}`, ...whole];
  return { later: [PANEL_STYLES, SEARCH_WORKER, ...whole, ...later], asked: new Set(asked) };
}

/**
 * The main script, and what is loaded later in files of its own. A host sends six files at a time, so what the page starts
 * with shall be one: the packer puts modules into one file where the same scripts want them, so whatever is loaded later
 * is made to want all of the main script.
 */
async function packScripts(page, target) {
  const options = { ...PACKING, format: "esm", splitting: true, metafile: true, entryPoints: [join(page, SCRIPT)], outdir: join(target, "js"), absWorkingDir: target };
  const { metafile } = await build({ ...options, write: false });
  const later = Object.values(metafile.inputs).flatMap(({ imports }) => imports.filter(({ kind }) => kind === "dynamic-import"));
  const laterPaths = new Set(later.filter(({ external }) => !external).map(({ path }) => join(target, path)));
  const wantMain = {
    name: "want the main script",
    setup: ({ onLoad }) => onLoad({ filter: /\.js$/ }, ({ path }) => {
      if (!laterPaths.has(path)) return undefined;
      return { contents: `${readFileSync(path, "utf8")}\nimport ${JSON.stringify(join(page, SCRIPT))};`, loader: "js" };
    }),
  };
  return build({ ...options, plugins: [wantMain] });
}

/**
 * The start page asks at once for all that the first verdict needs: each link of a chain would cost a way there and back.
 * @param {string} html @param {string[]} chunksNeeded
 */
function startPage(html, chunksNeeded) {
  const asked = (path) => `${path}?v=${VERSION}`;
  const modules = [asked(`pkg/${glue(START)}`), ...chunksNeeded];
  const head = [
    `<link rel="stylesheet" href="${asked(STYLES)}">`,
    `<link rel="preload" as="fetch" crossorigin href="${asked(`pkg/${wasm(START)}`)}">`,
    ...modules.map((path) => `<link rel="modulepreload" href="${path}">`),
  ];
  return withParts(html, head.join("\n"), `<script type="module" src="${asked(SCRIPT)}"></script>`);
}

/** Writes the version where the start page asks for it. */
export function writeVersion(target, version) {
  const path = join(target, START_PAGE);
  writeFileSync(path, readFileSync(path, "utf8").replaceAll(VERSION, version));
}

/** The chunks that the main script needs to start, and those that it does not. */
function chunks(outputs) {
  const started = new Set();
  const start = (name) => {
    if (started.has(name)) return;
    started.add(name);
    for (const { path, kind } of outputs[name]?.imports ?? []) if (kind === "import-statement") start(path);
  };
  start(SCRIPT);
  const names = Object.keys(outputs);
  return {
    needed: names.filter((name) => started.has(name) && name !== SCRIPT),
    later: names.filter((name) => !started.has(name)),
  };
}
