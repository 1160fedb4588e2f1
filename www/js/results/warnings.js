import { byId, element, mark } from "../dom.js";
import { remarkLink } from "../focus.js";

/** Unusual values and other remarks that do not stop the work. */
export function createWarnings() {
  const section = byId("warnings");
  const list = byId("warning-list");
  let shown = "";

  return {
    /** @param {import("../types.js").Model} model */
    update({ report: { warnings } }) {
      const wanted = warnings.map((warning) => warning.message).join("\n");
      if (wanted === shown) return;
      shown = wanted;
      section.hidden = warnings.length === 0;
      list.replaceChildren(...warnings.map((warning) => element("li", {}, mark("tight"), remarkLink(warning))));
    },
  };
}
