import { element, setText } from "../dom.js";

const COPIED = "Copied.";
const BY_HAND = "This browser does not let the page copy. The text is selected: copy it by hand.";
const NOT_SHARED = "It could not be shared from here. Copy it instead.";

/**
 * Buttons that copy a text and, where the device can, hand it to its own list of ways to send; and what came of it.
 * @param {HTMLElement} source  Shows the text; it is selected where copying fails.
 * @param {{text: () => string, share: () => ShareData}} content
 */
export function sharingButtons(source, { text, share }) {
  const status = element("p", { className: "remark", role: "status" });
  const copy = element("button", { type: "button", className: "button", textContent: "Copy" });
  copy.addEventListener("click", async () => setText(status, (await copyText(text(), source)) ? COPIED : BY_HAND));

  const send = element("button", { type: "button", className: "button", textContent: "Share\u2026", hidden: !("share" in navigator) });
  send.addEventListener("click", async () => {
    setText(status, "");
    try {
      await navigator.share(share());
    } catch (error) {
      const wasCalledOff = error instanceof DOMException && error.name === "AbortError";
      if (!wasCalledOff) setText(status, NOT_SHARED);
    }
  });
  return {
    element: element("div", { className: "sharing" }, copy, send, status),
    /** After the text has changed, it has not been copied. */
    forget() { setText(status, ""); },
  };
}

/** @param {string} text @param {HTMLElement} source @returns {Promise<boolean>} */
async function copyText(text, source) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    // Not there on an address without https, or refused.
    select(source);
    return document.execCommand("copy");
  }
}

/** @param {HTMLElement} source */
function select(source) {
  if (source instanceof HTMLTextAreaElement) {
    source.focus();
    source.select();
  } else {
    getSelection()?.selectAllChildren(source);
  }
}
