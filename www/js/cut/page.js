import { element } from "../dom.js";

export const name = "Cut";

/** @param {import("../types.js").Context} context @returns {import("../types.js").Panel} */
export function createPage(context) {
  const root = element("div", { className: "cut" });
  return {
    element: root,
    update() {},
  };
}
