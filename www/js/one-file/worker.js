// The search worker of the page in one file: the first message brings the geometry core.
import * as geometry from "tabwright:package";
import { createAnswerer } from "../search/answerer.js";

/** @type {(core: BufferSource) => void} */
let give;
const core = new Promise((resolve) => { give = resolve; });

const answer = createAnswerer(async () => {
  await geometry.default({ module_or_path: await core });
  return geometry;
});

addEventListener("message", async ({ data }) => {
  if (data.core) give(data.core);
  else postMessage(await answer(data));
});
