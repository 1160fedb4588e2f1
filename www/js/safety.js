import { byId } from "./dom.js";

/** Lets every button marked for it open the safety notice. */
export function startSafety() {
  const dialog = /** @type {HTMLDialogElement} */ (byId("safety"));
  for (const button of document.querySelectorAll("[data-opens=safety]")) {
    button.addEventListener("click", () => dialog.showModal());
  }
}
