/** Takes the place of ../loading.js in the component, whose files lie side by side wherever the embedding page has them. */

export async function loadStart() {
  const wasm = await import(new URL("./tabwright_wasm.js", import.meta.url).href);
  await wasm.default({ module_or_path: new URL("./tabwright_wasm_bg.wasm", import.meta.url).href });
  return wasm;
}

/** One package does for all. */
export const loadGeometry = loadStart;
