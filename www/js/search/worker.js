// Answers one question at a time beside the page, with a geometry core of its own.
import { loadGeometry } from "../loading.js";
import { createAnswerer } from "./answerer.js";

const answer = createAnswerer(loadGeometry);
addEventListener("message", async ({ data }) => postMessage(await answer(data)));
