import { element } from "../dom.js";

export const name = "Loads";

/** @param {import("../types.js").Context} context @returns {import("../types.js").Panel} */
export function createPage(context) {
  const root = element("div", { className: "load" });
  return {
    element: root,
    update() {},
  };
}
