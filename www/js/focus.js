import { element } from "./dom.js";
import { dotted } from "./path.js";

/** @typedef {import("./types.js").Remark} Remark */

/**
 * The input for a path, or for the nearest value around it.
 * @param {string} path
 * @returns {HTMLElement|null}
 */
function inputFor(path) {
  for (let rest = dotted(path); rest; rest = rest.slice(0, Math.max(rest.lastIndexOf("."), 0))) {
    const input = document.querySelector(`[data-path="${CSS.escape(rest)}"]`)
      ?? document.querySelector(`[data-key="${CSS.escape(rest)}"] :is(input, select)`);
    if (input) return /** @type {HTMLElement} */ (input);
  }
  return null;
}

/**
 * A remark as a button that leads to its field; plain text where there is no such field.
 * @param {Remark} remark
 */
export function remarkLink({ field, message }) {
  if (!inputFor(field)) return document.createTextNode(message);
  const link = element("button", { type: "button", className: "link", textContent: message });
  link.addEventListener("click", () => goToField(field));
  return link;
}

/**
 * Opens the group around a field and puts the focus on it.
 * @param {string} path
 */
export function goToField(path) {
  const input = inputFor(path);
  if (!input) return;
  for (let outer = input.closest("details"); outer; outer = outer.parentElement?.closest("details") ?? null) outer.open = true;
  input.focus({ preventScroll: true });
  input.scrollIntoView({ block: "nearest" });
}
