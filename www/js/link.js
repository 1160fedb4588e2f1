import { emit } from "./dom.js";

/** @typedef {import("./types.js").Core} Core */

/** Each shows as a note at the top of the page. */
const MOST_REMARKS = 5;
const NOT_LOADED = "The link could not be opened, as a part of the page could not be loaded. Load the page again with a connection.";

/** Of the page's own places, such as "#controls", a link differs by its values. */
function linkInAddress() {
  const { hash } = location;
  return /=|%(25)*3d/i.test(hash) ? hash : "";
}

/**
 * Opens the setup that the address brings, now and whenever it brings another, as one step that Undo takes back. The
 * address is cleaned, so that loading the page again does not undo later work.
 * @param {Core} core @param {(message: string) => void} tell
 */
export async function startLinks(core, tell) {
  addEventListener("hashchange", open);
  await open();

  async function open() {
    const fragment = linkInAddress();
    if (!fragment) return;
    let createReader;
    try {
      ({ createReader } = await import("./link/read.js"));
    } catch (error) {
      console.warn(error);
      tell(NOT_LOADED);
      return;
    }
    history.replaceState(history.state, "", location.pathname + location.search);
    const { setup, remarks } = createReader(core)(fragment);
    for (const remark of remarks.slice(0, MOST_REMARKS)) tell(remark);
    const more = remarks.length - MOST_REMARKS;
    if (more > 0) tell(`${more} more of what the link brings could not be read.`);
    if (setup) emit(document.body, "setup", { setup, words: "The setup from the link is open. Undo brings back the one before." });
  }
}
