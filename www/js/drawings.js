import { byId, emit } from "./dom.js";
import { createPicture } from "./picture.js";

/** @typedef {import("./types.js").View} View */

/** Room for both views, one above the other; the style sheet uses the same limits. */
const ROOM_FOR_BOTH = matchMedia("(min-width: 900px) and (min-height: 501px)");
/** @type {View[]} */
const ALL_VIEWS = ["side", "section"];

/** The side view and the section, both or one at a time. */
export function createDrawings() {
  const root = byId("drawings");
  const choice = byId("view-switch");
  const pictures = ALL_VIEWS.map((view) => ({ view, ...createPicture(figureOf(root, view), refresh) }));
  /** Comes after the first drawing. @type {import("./zoom/start.js").Zoom|undefined} */
  let zoom;
  let side = "";
  import("./zoom/start.js").then(({ startZoom }) => {
    zoom = startZoom(root, pictures);
    zoom.show(side);
  }, console.warn);

  function refresh() {
    for (const picture of pictures) zoom ? zoom.refresh(picture) : picture.look(picture.page());
    emit(root, "look");
  }

  /** @returns {View[]} */
  function views() {
    if (ROOM_FOR_BOTH.matches) return ALL_VIEWS;
    const chosen = /** @type {HTMLInputElement} */ (choice.querySelector("input:checked"));
    return [/** @type {View} */ (chosen.value)];
  }

  function showViews() {
    const visible = views();
    for (const { view, figure } of pictures) figure.hidden = !visible.includes(view);
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
    update({ setup, drawings, problems }) {
      if (problems.length === 0) ({ side } = setup);
      zoom?.show(side);
      document.body.classList.toggle("stale", problems.length > 0);
      for (const { view, show } of pictures) {
        const svg = drawings[view];
        if (svg !== undefined) show(svg);
      }
    },
  };
}

/** @param {HTMLElement} root @param {View} view @returns {HTMLElement} */
function figureOf(root, view) {
  return /** @type {HTMLElement} */ (root.querySelector(`[data-view=${view}]`));
}
