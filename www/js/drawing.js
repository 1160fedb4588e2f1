const ATTRIBUTE = /([\w:-]+)="([^"]*)"/g;
/** @type {Record<string, string>} */
const ESCAPED = { "&lt;": "<", "&gt;": ">", "&quot;": "\"", "&apos;": "'", "&amp;": "&" };

/**
 * An SVG that follows the core's text. Most steps only move parts: then no more than the attributes and words that differ
 * are touched, and all the rest needs neither style nor layout nor paint again.
 * @param {HTMLElement} frame
 */
export function createDrawing(frame) {
  let shown = "";
  /** The text cut at every tag's beginning, and the element that each of these tags opens. @type {string[]} */
  let tags = [];
  /** @type {(Element|undefined)[]} */
  let elements = [];

  /** @param {string} text @param {string[]} wanted */
  function replace(text, wanted) {
    const parsed = new DOMParser().parseFromString(text, "image/svg+xml");
    const svg = document.importNode(parsed.documentElement, true);
    frame.replaceChildren(svg);
    const opened = [svg, ...svg.querySelectorAll("*")].values();
    elements = wanted.map((tag) => tag.startsWith("/") ? undefined : opened.next().value);
  }

  return {
    /** @param {string} text  An SVG document without comments. @returns {boolean} Whether anything is different now. */
    show(text) {
      if (text === shown) return false;
      const wanted = text.split("<").slice(1);
      const isPatched = wanted.length === tags.length
        && wanted.every((tag, index) => tag === tags[index] || patch(elements[index], tag, tags[index]));
      if (!isPatched) replace(text, wanted);
      shown = text;
      tags = wanted;
      return true;
    },
    /** The page drawn, as the core's text has it. */
    get viewBox() {
      return /viewBox="([^"]*)"/.exec(tags[0] ?? "")?.[1] ?? "0 0 0 0";
    },
  };
}

/**
 * Changes one element, with the words up to the next tag, to what `wanted` says; false where that takes another element.
 * @param {Element|undefined} element @param {string} wanted @param {string} present
 */
function patch(element, wanted, present) {
  const [[tag, words], [presentTag, presentWords]] = [wanted.split(">"), present.split(">")];
  if (!element || tag.split(" ", 1)[0] !== presentTag.split(" ", 1)[0]) return false;
  const [attributes, presentOnes] = [tag, presentTag].map((text) => [...text.matchAll(ATTRIBUTE)]);
  if (attributes.length !== presentOnes.length) return false;
  for (const [index, [, name, value]] of attributes.entries()) {
    const [, presentName, presentValue] = presentOnes[index];
    if (name !== presentName) return false;
    if (value !== presentValue) element.setAttribute(name, unescaped(value));
  }
  if (words === presentWords) return true;
  const node = element.firstChild;
  if (!(node instanceof Text)) return false;
  node.data = unescaped(words);
  return true;
}

/** @param {string} text */
function unescaped(text) {
  return text.replace(/&\w+;/g, (escaped) => ESCAPED[escaped] ?? escaped);
}
