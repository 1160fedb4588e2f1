// Setups drawn at random with the reports that the geometry compiled for this machine makes of them, and the geometry in Node's
// WebAssembly.
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

export const ROOT = fileURLToPath(new URL("../../../", import.meta.url));
export const SEED = 20_261_127;
export const SETUPS = Number(process.env.TABWRIGHT_SAME_SETUPS ?? 2_000);
const PACKAGE = `${ROOT}target/pkg/tabwright_wasm/tabwright_wasm`;
const MOST_BYTES = 2 ** 30;

/** @param {number} count @returns {{setup: object, report: object}[]} */
export function drawn(count) {
  const cargo = ["run", "--quiet", "--locked", "--profile", "checks", "-p", "tabwright-tests", "--example", "drawn", "--", String(count), String(SEED)];
  const lines = execFileSync("cargo", cargo, { cwd: ROOT, encoding: "utf8", maxBuffer: MOST_BYTES }).trim().split("\n");
  return lines.map((line) => JSON.parse(line));
}

export async function wholeGeometry() {
  const wasm = await import(`${PACKAGE}.js`);
  wasm.initSync({ module: readFileSync(`${PACKAGE}_bg.wasm`) });
  return wasm;
}
