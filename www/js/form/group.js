import { element, setText } from "../dom.js";
import { goToField } from "../focus.js";

/**
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").FieldGroup} FieldGroup
 * @typedef {import("./row.js").Row} Row
 */

/**
 * A folded group of rows that tells from outside how many values in it were refused.
 * @param {FieldGroup} fieldGroup
 * @param {Row[]} rows
 * @param {Field[]} elsewhere  Fields of the group that have their place further up the page.
 */
export function createGroup({ key, label, help }, rows, elsewhere) {
  const count = element("span", { className: "group-count", hidden: true });
  const details = element(
    "details",
    { className: "group", "data-group": key },
    element("summary", {}, element("span", {}, label), count),
    element("p", { className: "remark" }, help),
    ...(elsewhere.length > 0 ? [createPointers(elsewhere)] : []),
    element("div", { className: "group-rows" }, ...rows.map((row) => row.element)),
  );

  return {
    element: details,
    rows,
    count() {
      const refused = rows.filter((row) => row.element.classList.contains("refused")).length;
      setText(count, `${refused} to correct`);
      count.hidden = refused === 0;
    },
  };
}

/** @param {Field[]} fields */
function createPointers(fields) {
  const links = fields.map(({ key, label }) => {
    const link = element("button", { type: "button", className: "link" }, label);
    link.addEventListener("click", () => goToField(key));
    return link;
  });
  return element("p", { className: "pointers" }, "Further up the page:", ...links);
}
