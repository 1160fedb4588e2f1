import { byId, setText } from "../dom.js";

/**
 * @typedef {import("../types.js").FieldGroup} FieldGroup
 * @typedef {import("../types.js").Model} Model
 * @typedef {import("../types.js").Part} Part
 */

/** So far above and below the window a section counts as about to be seen. */
const MARGIN = "50%";
const NOT_LOADED = "The searches could not be loaded. Open one again with a connection; the rest of the page works on.";

/**
 * The searches, loaded when one is first wanted: its section comes near, or a setup needs fixing.
 * @param {FieldGroup[]} groups @param {() => import("../types.js").Setup} goodSetup
 * @param {import("./client.js").SearchClient} client
 * @returns {Part}
 */
export function searchesOnDemand(groups, goodSetup, client) {
  const section = byId("searches");
  const note = byId("searches-note");
  /** @type {Part|undefined} */
  let searches;
  /** @type {Promise<void>|undefined} */
  let loading;
  /** @type {Model|undefined} */
  let latest;

  async function load() {
    try {
      const { createSearches } = await import("./searches.js");
      searches = createSearches(groups, goodSetup, client);
      nearby.disconnect();
      setText(note, "");
      if (latest) searches.update(latest);
    } catch (error) {
      console.warn(error);
      loading = undefined;
      setText(note, NOT_LOADED);
    }
  }

  function want() {
    loading ??= load();
  }

  const nearby = new IntersectionObserver((entries) => {
    if (entries.some(({ isIntersecting }) => isIntersecting)) want();
  }, { rootMargin: MARGIN });
  nearby.observe(section);
  // A fold's own event does not bubble.
  section.addEventListener("toggle", want, true);

  return {
    update(model) {
      latest = model;
      if (model.report.verdict !== "clears") want();
      searches?.update(model);
    },
  };
}
