import { element, mark } from "../dom.js";
import { TONES, amountText, shareText } from "./words.js";
import { coordinates, svgElement } from "./svg.js";

/** @typedef {import("./words.js").Result} Result */

/** The bar ends at this share of the limit; what is more is told by an arrow at its end. */
const BAR_END = 1.5;
const LIMIT_AT = 100;
const BAR_HEIGHT = 12;

/**
 * What is used as a bar against a mark at the limit: whole up to it, hatched beyond it. The words beside it say the same.
 * @param {Result} result
 */
export function shareBar({ utilisation }) {
  const share = Math.min(utilisation ?? 0, BAR_END) * LIMIT_AT;
  const end = BAR_END * LIMIT_AT;
  const parts = [svgElement("rect", { class: "load-bar-track", x: 0.5, y: 3, width: end - 1, height: BAR_HEIGHT - 6 })];
  if (share > 0) parts.push(svgElement("rect", { class: "load-bar-used", x: 0.5, y: 3, width: Math.min(share, LIMIT_AT), height: BAR_HEIGHT - 6 }));
  if (share > LIMIT_AT) {
    const hatch = [];
    for (let x = LIMIT_AT + 3; x < share; x += 4) hatch.push(`M${coordinates(x, 1)}L${coordinates(x, BAR_HEIGHT - 1)}`);
    parts.push(svgElement("path", { class: "load-bar-over", d: hatch.join("") || `M${LIMIT_AT + 2} 1V${BAR_HEIGHT - 1}` }));
  }
  if ((utilisation ?? 0) > BAR_END) parts.push(svgElement("path", { class: "load-bar-beyond", d: `M${end - 5} 1L${end} ${BAR_HEIGHT / 2}L${end - 5} ${BAR_HEIGHT - 1}` }));
  parts.push(svgElement("path", { class: "load-bar-limit", d: `M${LIMIT_AT} 0V${BAR_HEIGHT}` }));
  return svgElement("svg", { class: "load-share", viewBox: `0 0 ${end} ${BAR_HEIGHT}`, preserveAspectRatio: "none", "aria-hidden": "true" }, ...parts);
}

/** A verdict with its mark. @param {Result} result */
export function verdictMark({ state, verdict }) {
  return element("strong", { className: "pair-verdict load-word" }, mark(TONES[state]), verdict);
}

/** One result in full. @param {Result} result @param {string} id  Of its element, to be led to. */
export function resultCard(result, id) {
  const { label, value, unit, allowable, state, sentence, formula, source, caution } = result;
  const isJudged = allowable !== null && result.utilisation !== null;
  const numbers = element("p", { className: "load-numbers" }, element("strong", { className: "load-value" }, amountText(value, unit)));
  if (allowable !== null) numbers.append(` against ${amountText(allowable, unit)} allowed`);
  const card = element(
    "div",
    { className: "load-result", id, tabIndex: -1, "data-result": result.id, "data-tone": TONES[state] },
    element("h4", {}, label),
    numbers,
  );
  if (isJudged) {
    card.append(
      element("p", { className: "load-judged" }, verdictMark(result), element("span", { className: "load-percent" }, shareText(result))),
      shareBar(result),
    );
  }
  card.append(
    element("p", {}, sentence),
    element("p", { className: "remark" }, `By ${formula}. Source: ${source}.`),
    element("p", { className: "load-care" }, caution),
  );
  return card;
}
