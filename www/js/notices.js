import { byId, element } from "./dom.js";

/**
 * Messages at the top of the page, among them any failure of the page itself.
 */
export function startNotices() {
  const list = byId("notices");

  /** @param {string} message */
  function tell(message) {
    const known = [...list.children].some((notice) => notice.firstChild?.textContent === message);
    if (known) return;
    const close = element("button", { type: "button", className: "button", textContent: "Close" });
    const notice = element("div", { className: "notice" }, element("p", {}, message), close);
    close.addEventListener("click", () => notice.remove());
    list.append(notice);
  }

  /** @param {unknown} reason */
  function confess(reason) {
    const detail = reason instanceof Error ? reason.message : String(reason);
    tell("The page ran into a fault and shows the last good state. What you typed is kept; "
      + `load the page again before you go on. (${detail})`);
  }

  addEventListener("error", (event) => confess(event.error ?? event.message));
  addEventListener("unhandledrejection", (event) => confess(event.reason));
  return { tell };
}
