import { element, setText } from "../dom.js";

/**
 * What to do in which order, to be ticked off. The ticks belong to the bench and not to the setup: they last as long as
 * the page.
 * @typedef {import("../../../wasm/src/build.js").TackCheck["check_list"]} Items
 */

export function createCheckList() {
  const list = element("ol", { className: "tack-check-list" });
  /** @type {Map<string, {root: HTMLElement, tick: HTMLInputElement, title: HTMLElement, text: HTMLElement}>} */
  const made = new Map();

  return {
    element: list,
    /** Whether an item is ticked. @param {string} key */
    isDone: (key) => made.get(key)?.tick.checked ?? false,
    /** @param {Items} items */
    show(items) {
      for (const { key, title, text } of items) {
        let item = made.get(key);
        if (!item) made.set(key, item = make());
        setText(item.title, title);
        setText(item.text, text);
      }
      const roots = items.flatMap(({ key }) => made.get(key)?.root ?? []);
      if (roots.length !== list.children.length || roots.some((root, index) => list.children[index] !== root)) list.replaceChildren(...roots);
    },
  };

  function make() {
    const tick = element("input", { type: "checkbox", className: "flag-input", autocomplete: "off" });
    const title = element("strong");
    const text = element("span");
    const root = element("li", {}, element("label", { className: "tack-item" }, tick, element("span", {}, title, text)));
    return { root, tick, title, text };
  }
}
