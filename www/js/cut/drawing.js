import { element } from "../dom.js";

/** @typedef {import("./shapes.js").Piece} Piece */

/**
 * An SVG text of the core as an element of this page.
 * @param {string} text
 */
export function drawn(text) {
  return /** @type {SVGSVGElement} */ (/** @type {unknown} */ (
    document.importNode(new DOMParser().parseFromString(text, "image/svg+xml").documentElement, true)
  ));
}

/** The pieces, all at one scale, with letters as large as the window allows. */
export function createPieces() {
  const root = element("div", { className: "cut-pieces" });
  new ResizeObserver(fit).observe(root);

  function fit() {
    const drawings = [...root.querySelectorAll("svg")];
    const widest = Math.max(...drawings.map((svg) => svg.viewBox.baseVal.width));
    for (const svg of drawings) {
      const { width, height } = svg.viewBox.baseVal;
      svg.style.setProperty("--share", String(width / widest));
      const pixels = svg.getBoundingClientRect();
      // A tall piece is held by the window's height.
      if (pixels.width > 0) svg.style.setProperty("--mm-per-px", String(Math.max(width / pixels.width, height / pixels.height)));
    }
  }

  return {
    element: root,
    /** @param {Piece[]} pieces @param {(piece: Piece) => Node} facts */
    show(pieces, facts) {
      root.replaceChildren(...pieces.map((piece) => {
        const svg = drawn(piece.svg);
        svg.removeAttribute("role");
        svg.setAttribute("aria-hidden", "true");
        const picture = element("div", { className: "cut-picture", role: "img", "aria-label": `Drawing: ${piece.title}, seen on its outer face` });
        picture.append(svg);
        return element("figure", { className: "cut-piece" }, element("figcaption", {}, element("h4", {}, piece.title)), picture, facts(piece));
      }));
      fit();
    },
  };
}
