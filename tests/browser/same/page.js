import * as wasm from "../../../target/pkg/tabwright_wasm/tabwright_wasm.js";
import { ofLinks, ofSetups } from "./digests.js";

/** @param {string} path */
const lines = async (path) => (await (await fetch(path)).text()).trim().split("\n");

await wasm.default();
Object.assign(window, {
  links: async () => ofLinks(wasm, await lines("/links.txt")),
  setups: async () => ofSetups(wasm, (await lines("/setups.jsonl")).map((line) => JSON.parse(line))),
});
document.title = "Ready";
