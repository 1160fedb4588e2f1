import { element } from "../dom.js";

export const title = "At the bench";

/** @param {import("../types.js").Context} _context @returns {import("../types.js").Panel} */
export function createPanel(_context) {
  return { element: element("div"), update() {} };
}
