// The page's own core, from the built site, without a browser.
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";

const SITE = process.env.TABWRIGHT_SITE ?? fileURLToPath(new URL("../../target/site", import.meta.url));

/** @returns {Promise<import("../../www/js/types.js").Core>} */
export async function coreInNode() {
  const [script, wasm] = await Promise.all([readFile(`${SITE}/pkg/tabwright_wasm.js`, "utf8"), readFile(`${SITE}/pkg/tabwright_wasm_bg.wasm`)]);
  // Read as a module whatever its folder says of files that end in .js.
  const core = await import(`data:text/javascript;base64,${Buffer.from(script).toString("base64")}`);
  core.initSync({ module: wasm });
  const groups = core.fields();
  return { ...core, fields: () => groups, defaultSetup: core.default_setup };
}

/** Numbers from 0 to 1 that are the same in every run. @param {number} seed */
export function randomNumbers(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
