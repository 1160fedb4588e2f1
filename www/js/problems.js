import { byId, element } from "./dom.js";
import { remarkLink } from "./focus.js";

/** The list of refused values, each leading to its field. A single one already stands in the verdict's place. */
export function createProblems() {
  const section = byId("problems");
  const list = byId("problem-list");
  let shown = "";

  return {
    /** @param {import("./types.js").Model} model */
    update({ problems }) {
      const wanted = problems.map((problem) => problem.message).join("\n");
      if (wanted === shown) return;
      shown = wanted;
      section.hidden = problems.length < 2;
      list.replaceChildren(...problems.map((problem) => element("li", {}, remarkLink(problem))));
    },
  };
}
