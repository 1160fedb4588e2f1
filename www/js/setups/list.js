import { element, mark } from "../dom.js";
import { lengthText } from "../units.js";
import { VERDICT_WORDS } from "../verdicts.js";

/**
 * @typedef {import("./kept.js").Sound} Sound
 * @typedef {import("./kept.js").Damaged} Damaged
 *
 * @typedef {Object} Actions
 * @property {(item: Sound|Damaged) => void} open
 * @property {(item: Sound, name: string) => void} rename
 * @property {(item: Sound) => void} replace
 * @property {(item: Sound|Damaged) => void} save
 * @property {(item: Sound|Damaged) => void} remove
 */

const MOST_NAME_CHARS = 80;

/**
 * The list of kept setups, each with what can be done with it.
 * @param {Actions} actions
 */
export function createList(actions) {
  const root = element("ul", { className: "setups-list" });
  /** Folds left open, and the setup that is being renamed. @type {Set<string>} */
  const unfolded = new Set();
  let renamed = "";
  /** @type {(Sound|Damaged)[]} */
  let shown = [];

  /** @param {(Sound|Damaged)[]} items */
  function show(items) {
    shown = items;
    const focused = root.contains(document.activeElement) ? document.activeElement?.getAttribute("data-name") : null;
    const typed = root.querySelector("input")?.value;
    root.replaceChildren(...items.map((item) => "fault" in item ? damagedItem(item) : soundItem(item)));
    const input = root.querySelector("input");
    if (input && typed !== undefined) input.value = typed;
    if (focused) /** @type {HTMLElement|null} */ (root.querySelector(`[data-name="${CSS.escape(focused)}"]`))?.focus();
  }

  /** @param {Sound} item */
  function soundItem(item) {
    const { record, name, when, setup, report } = item;
    const { rotor_diameter: rotor, hub_width: hub } = setup.wheel;
    const sizes = `rotor ${lengthText(rotor)} on hub ${lengthText(hub)}, ${setup.side}`;
    if (renamed === record.id) return element("li", { className: "setups-item" }, renameForm(item));
    return element(
      "li",
      { className: "setups-item", "data-tone": report.verdict },
      element(
        "div",
        { className: "setups-head" },
        mark(report.verdict),
        element(
          "div",
          {},
          element("strong", { className: "setups-name" }, name),
          element("span", {}, `${VERDICT_WORDS[report.verdict]}: ${sizes}`),
          element("time", { className: "remark", dateTime: when.toISOString() }, whenWords(when)),
        ),
      ),
      buttons(item, [
        actionButton(item, "Rename", () => rename(record.id)),
        actionButton(item, "Replace", () => actions.replace(item), "by the setup at hand"),
        actionButton(item, "Save file", () => actions.save(item)),
        actionButton(item, "Delete", () => actions.remove(item)),
      ]),
    );
  }

  /** @param {Damaged} item */
  function damagedItem(item) {
    return element(
      "li",
      { className: "setups-item", "data-tone": "unchecked" },
      element(
        "div",
        { className: "setups-head" },
        mark("unchecked"),
        element(
          "div",
          {},
          element("strong", { className: "setups-name" }, item.name),
          element("span", {}, `${item.fault} Open takes over what can be read.`),
        ),
      ),
      buttons(item, [
        actionButton(item, "Save file", () => actions.save(item), "as it is"),
        actionButton(item, "Delete", () => actions.remove(item)),
      ]),
    );
  }

  /** @param {Sound|Damaged} item @param {Node[]} rest */
  function buttons(item, rest) {
    const id = String(item.record?.id);
    const summary = element("summary", { "data-name": `More ${id}`, "aria-label": `More for ${item.name}` }, "More");
    const more = element("div", { className: "setups-buttons" }, ...rest);
    const fold = element("details", { open: unfolded.has(id) }, summary, more);
    fold.addEventListener("toggle", () => fold.open ? unfolded.add(id) : unfolded.delete(id));
    return element("div", { className: "setups-actions" }, actionButton(item, "Open", () => actions.open(item)), fold);
  }

  /** @param {string} id */
  function rename(id) {
    renamed = id;
    show(shown);
    root.querySelector("input")?.select();
    if (!id) return;
    root.querySelector("input")?.focus();
  }

  /** @param {Sound} item */
  function renameForm(item) {
    const id = `setups-name-${item.record.id}`;
    const input = element("input", {
      id, type: "text", className: "text-input", value: item.name, maxLength: MOST_NAME_CHARS, autocomplete: "off",
    });
    const cancel = element("button", { type: "button", className: "button", textContent: "Cancel" });
    const form = element(
      "form",
      { className: "setups-rename" },
      element("label", { className: "field-label", htmlFor: id }, `New name for \u201c${item.name}\u201d`),
      input,
      element("div", { className: "setups-buttons" }, element("button", { className: "button", textContent: "Rename" }), cancel),
    );
    const leave = () => {
      rename("");
      /** @type {HTMLElement|null} */ (root.querySelector(`[data-name="More ${CSS.escape(item.record.id)}"]`))?.focus();
    };
    cancel.addEventListener("click", leave);
    form.addEventListener("keydown", (event) => {
      if (event.key !== "Escape") return;
      event.preventDefault();
      leave();
    });
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const name = input.value.trim();
      leave();
      if (name !== "" && name !== item.name) actions.rename(item, name);
    });
    return form;
  }

  return { element: root, show };
}

/**
 * @param {Sound|Damaged} item @param {string} words @param {() => void} act
 * @param {string} [more]  For those who do not see the item around it.
 */
function actionButton(item, words, act, more = "") {
  const button = element("button", {
    type: "button",
    className: "button",
    textContent: words,
    "data-name": `${words} ${item.record?.id}`,
    "aria-label": `${words}${words === "Replace" ? "" : ":"} ${item.name} ${more}`.trim(),
  });
  button.addEventListener("click", act);
  return button;
}

/** @param {Date} when */
function whenWords(when) {
  return when.toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
}
