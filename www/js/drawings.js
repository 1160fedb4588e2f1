import { byId, emit } from "./dom.js";

/** @typedef {import("./types.js").View} View */

/** Room for both views, one above the other; the style sheet uses the same limits. */
const ROOM_FOR_BOTH = matchMedia("(min-width: 900px) and (min-height: 501px)");
/** @type {View[]} */
const ALL_VIEWS = ["side", "section"];

/** The side view and the section, both or one at a time. */
export function createDrawings() {
  const root = byId("drawings");
  const choice = byId("view-switch");
  const shown = new Map();

  /** @returns {View[]} */
  function views() {
    if (ROOM_FOR_BOTH.matches) return ALL_VIEWS;
    const chosen = /** @type {HTMLInputElement} */ (choice.querySelector("input:checked"));
    return [/** @type {View} */ (chosen.value)];
  }

  function showViews() {
    const visible = views();
    for (const view of ALL_VIEWS) figureOf(root, view).hidden = !visible.includes(view);
  }

  function changeViews() {
    showViews();
    emit(root, "views", views());
  }

  choice.addEventListener("change", changeViews);
  ROOM_FOR_BOTH.addEventListener("change", changeViews);
  showViews();

  return {
    views,
    /** @param {import("./types.js").Model} model */
    update({ drawings, problems }) {
      document.body.classList.toggle("stale", problems.length > 0);
      for (const view of ALL_VIEWS) {
        const svg = drawings[view];
        if (svg === undefined || svg === shown.get(view)) continue;
        shown.set(view, svg);
        place(figureOf(root, view), svg);
      }
    },
  };
}

/** @param {HTMLElement} root @param {View} view @returns {HTMLElement} */
function figureOf(root, view) {
  return /** @type {HTMLElement} */ (root.querySelector(`[data-view=${view}]`));
}

/**
 * Puts a drawing into its figure. Stacked figures share the height in proportion to their drawings, which, as both
 * drawings are equally wide in millimetres, gives both the same scale.
 * @param {HTMLElement} figure @param {string} text
 */
function place(figure, text) {
  const parsed = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  const svg = document.importNode(parsed, true);
  figure.querySelector(".picture-frame")?.replaceChildren(svg);
  const height = svg instanceof SVGSVGElement ? svg.viewBox.baseVal.height : 0;
  figure.style.flexGrow = String(height || 1);
}
