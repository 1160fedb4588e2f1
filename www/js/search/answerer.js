/**
 * Answers questions to the geometry core: { id, unit, name, input }, with the unit for
 * lengths in words, gives { id, answer } or, where the core fails, { id, fault }.
 * @param {() => Promise<any>} load
 */
export function createAnswerer(load) {
  /** @type {any} */
  let core;

  /** @param {{id: number, unit: "mm"|"in", name: string, input: any[]}} question */
  return async function answer({ id, unit, name, input }) {
    try {
      core ??= await load();
      core.speak_in(unit);
      return { id, answer: core[name](...input) };
    } catch (error) {
      return { id, fault: String(error) };
    }
  };
}
