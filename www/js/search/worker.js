// Answers one question at a time beside the page, with a geometry core of its own.
// A message is { id, name, input }; the reply { id, answer } or, where the core fails, { id, fault }.

let core;

addEventListener("message", async ({ data: { id, name, input } }) => {
  try {
    core ??= await load();
    postMessage({ id, answer: core[name](...input) });
  } catch (error) {
    postMessage({ id, fault: String(error) });
  }
});

async function load() {
  const wasm = await import("../../pkg/tabwright_wasm.js");
  await wasm.default();
  return wasm;
}
