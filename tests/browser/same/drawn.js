// Setups drawn at random with the reports that the geometry compiled for this machine makes of them.
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";

export const ROOT = fileURLToPath(new URL("../../../", import.meta.url));
export const SEED = 20_261_127;
export const SETUPS = Number(process.env.TABWRIGHT_SAME_SETUPS ?? 2_000);
const MOST_BYTES = 2 ** 30;

/** @param {number} count @returns {{setup: object, report: object}[]} */
export function drawn(count) {
  const cargo = ["run", "--quiet", "--locked", "--profile", "checks", "-p", "tabwright-tests", "--example", "drawn", "--", String(count), String(SEED)];
  const lines = execFileSync("cargo", cargo, { cwd: ROOT, encoding: "utf8", maxBuffer: MOST_BYTES }).trim().split("\n");
  return lines.map((line) => JSON.parse(line));
}
