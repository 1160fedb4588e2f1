// Answers one question at a time beside the page, with a geometry core of its own.
// A message is { id, unit, name, input }, with the unit for lengths in words; the reply { id, answer } or, where the core fails, { id, fault }.

let core;

addEventListener("message", async ({ data: { id, unit, name, input } }) => {
  try {
    core ??= await load();
    core.speak_in(unit);
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
