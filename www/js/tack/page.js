import { element } from "../dom.js";

export const name = "Tack";

/** @param {import("../types.js").Context} context @returns {import("../types.js").Panel} */
export function createPage(context) {
  const root = element("div", { className: "tack" });
  return {
    element: root,
    update() {},
  };
}
