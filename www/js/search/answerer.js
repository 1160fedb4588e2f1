/**
 * Answers questions to the geometry core: { id, name, input } gives { id, answer } or, where the core fails, { id, fault }.
 * @param {() => Promise<any>} load
 */
export function createAnswerer(load) {
  /** @type {any} */
  let core;

  /** @param {{id: number, name: string, input: any[]}} question */
  return async function answer({ id, name, input }) {
    try {
      core ??= await load();
      return { id, answer: core[name](...input) };
    } catch (error) {
      return { id, fault: String(error) };
    }
  };
}
