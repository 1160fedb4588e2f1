import { element } from "../dom.js";
import { goToField } from "../focus.js";
import { dotted } from "../path.js";

/** @typedef {import("../types.js").Remark} Remark */

const STALE = "What is typed now has something to correct. What follows is of the last good values.";

/**
 * What is refused in the setup, each with a way to its input: on this page where there is one, else on the page behind.
 * @param {HTMLElement} root  Where to look first.
 */
export function createRefusals(root) {
  const list = element("ul");
  const box = element("div", { className: "tack-refusals", hidden: true }, element("p", {}, STALE), list);
  let shown = "";
  return {
    element: box,
    /** @param {Remark[]} problems */
    show(problems) {
      const wanted = problems.map(({ message }) => message).join("\n");
      if (wanted === shown) return;
      shown = wanted;
      box.hidden = problems.length === 0;
      list.replaceChildren(...problems.map((problem) => element("li", {}, remarkWay(problem, root))));
    },
  };
}

/** A remark as a button that leads to its input. @param {Remark} remark @param {HTMLElement} root */
export function remarkWay({ field, message }, root) {
  if (!field) return document.createTextNode(message);
  const link = element("button", { type: "button", className: "link", textContent: message });
  link.addEventListener("click", () => goTo(field, root));
  return link;
}

/** @param {string} field @param {HTMLElement} root */
function goTo(field, root) {
  for (let rest = dotted(field); rest; rest = rest.slice(0, Math.max(rest.lastIndexOf("."), 0))) {
    const own = root.querySelectorAll(`[data-path="${CSS.escape(rest)}"]`);
    const input = /** @type {HTMLElement|undefined} */ ([...own].find((one) => one.checkVisibility()));
    if (!input) continue;
    input.focus({ preventScroll: true });
    input.scrollIntoView({ block: "center" });
    return;
  }
  /** @type {HTMLDialogElement|null} */ (root.closest("dialog"))?.close();
  goToField(field);
}
