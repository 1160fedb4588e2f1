import { loadMeasuring } from "./core.js";
import { byId, element } from "./dom.js";
import { part } from "./loading.js";
import { bringIn } from "./unit-switch.js";

/**
 * @typedef {import("./types.js").Context} Context
 * @typedef {import("./types.js").Model} Model
 * @typedef {import("./types.js").Panel} Panel
 * @typedef {import("./types.js").PanelModule} PanelModule
 */

/** Loaded when first opened, so that the first visit does not wait for them. @type {Record<string, () => Promise<PanelModule>>} */
const PANELS = {
  measure: loadMeasure,
  build: () => import("./build/panel.js"),
  setups: () => import("./setups/panel.js"),
  send: () => import("./send/panel.js"),
  bench: () => import("./bench/panel.js"),
};
const STYLES = "css/panels.css";

/** Measuring asks what the page's own part of the core does not know. @returns {Promise<PanelModule>} */
async function loadMeasure() {
  const [{ title, createPanel }, measuring] = await Promise.all([import("./measure/panel.js"), loadMeasuring()]);
  return { title, createPanel: (context) => createPanel({ ...context, core: { ...context.core, ...measuring } }) };
}

/**
 * The buttons of the dock and the dialog they open, one panel at a time.
 * @param {() => Context} context
 */
export function createPanels(context) {
  const dialog = /** @type {HTMLDialogElement} */ (byId("panel"));
  const title = byId("panel-title");
  const body = byId("panel-body");
  /** @type {NodeListOf<HTMLButtonElement>} */
  const buttons = document.querySelectorAll("button[data-panel]");
  /** @type {Map<string, {title: string, panel: Panel}>} */
  const loaded = new Map();
  /** @type {Panel|null} */
  let open = null;
  /** @type {Model|undefined} */
  let latest;

  /** @param {string} name @param {any} [input]  For the panel to take; it is shown only where that needs words. */
  async function show(name, input) {
    let found = loaded.get(name);
    if (!found) {
      try {
        const [module] = await Promise.all([PANELS[name](), loadStyles()]);
        found = { title: module.title, panel: module.createPanel(context()) };
      } catch (error) {
        console.warn(error);
        context().tell("This part of the page could not be loaded. Try again with a connection; the rest works on.");
        return;
      }
      loaded.set(name, found);
    }
    if (input !== undefined && await found.panel.take?.(input)) return;
    if (open !== found.panel) open?.closed?.();
    title.textContent = found.title;
    bringIn(body, found.panel.element);
    open = found.panel;
    if (latest) open.update(latest);
    if (!dialog.open) dialog.showModal();
    dialog.dataset.panel = name;
    body.scrollTop = 0;
    tellOpen(name);
  }

  /** @param {string} name  Of the panel open, or "". */
  function tellOpen(name) {
    for (const button of buttons) button.setAttribute("aria-expanded", String(button.dataset.panel === name));
  }

  // Beside the sheet.
  dialog.addEventListener("click", (event) => {
    if (event.target === dialog) dialog.close();
  });
  dialog.addEventListener("close", () => {
    open?.closed?.();
    open = null;
    tellOpen("");
  });
  for (const button of buttons) {
    button.disabled = false;
    button.addEventListener("click", () => show(button.dataset.panel ?? ""));
  }

  return {
    show,
    /** @param {Model} model */
    update(model) {
      latest = model;
      open?.update(model);
    },
  };
}

/** @returns {Promise<unknown>} */
function loadStyles() {
  if (document.querySelector("[data-styles=panels]")) return Promise.resolve();
  const link = element("link", { rel: "stylesheet", href: part(STYLES), "data-styles": "panels" });
  return new Promise((resolve, reject) => {
    link.addEventListener("load", resolve);
    link.addEventListener("error", () => {
      link.remove();
      reject(new Error(`${STYLES} could not be loaded.`));
    });
    document.head.append(link);
  });
}
