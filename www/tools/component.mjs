// The custom element for other pages, in a folder of its own with all that it needs.
import { cpSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import { PACKING, WHOLE, copyPackage } from "./files.mjs";

const FOLDER = "component";
const ELEMENT = "tabwright-fit";
const STYLES = ["tokens.css", "drawing.css", "component.css"];

/** @param {string} name  From the site's folder. */
export function isOfComponent(name) {
  return name.startsWith(`${FOLDER}/`);
}

/** @param {string} page @param {string} packages @param {string} site */
export async function buildComponent(page, packages, site) {
  const target = join(site, FOLDER);
  mkdirSync(target);
  const source = join(page, "js", FOLDER);
  const styles = await stylesOfHost(page);
  const parts = {
    name: FOLDER,
    setup({ onResolve, onLoad }) {
      onResolve({ filter: /\/loading\.js$/ }, () => ({ path: join(source, "loading.js") }));
      onResolve({ filter: /^tabwright:styles$/ }, () => ({ path: "styles", namespace: "text" }));
      onLoad({ filter: /.*/, namespace: "text" }, () => ({ contents: styles, loader: "text" }));
    },
  };
  await build({
    ...PACKING,
    format: "esm",
    entryPoints: [join(source, `${ELEMENT}.js`)],
    outfile: join(target, `${ELEMENT}.js`),
    plugins: [parts],
  });
  cpSync(join(source, `${ELEMENT}.d.ts`), join(target, `${ELEMENT}.d.ts`));
  copyPackage(packages, WHOLE, target);
  cpSync(join(packages, WHOLE, `${WHOLE}.d.ts`), join(target, `${WHOLE}.d.ts`));
}

/** The drawing's own rules, with its colours on the element instead of the whole page. @param {string} page */
async function stylesOfHost(page) {
  const contents = STYLES.map((name) => `@import "./css/${name}";`).join("\n");
  const { outputFiles } = await build({ ...PACKING, write: false, stdin: { contents, resolveDir: page, loader: "css" } });
  return outputFiles[0].text.replaceAll(":root", ":host");
}
