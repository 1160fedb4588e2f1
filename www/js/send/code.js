import { element } from "../dom.js";
import { encode } from "uqr";

const SVG = "http://www.w3.org/2000/svg";
/** Light squares round the code: ISO/IEC 18004 asks for four. From memory. */
const QUIET = 4;
/** With more squares across, each is under 0.6 mm on a phone's screen: common practice, no source. */
const MOST_SQUARES = 85;
const FINE = "This setup has so much in it that the code is fine: hold the other phone close, open the code full screen, or send the link.";

/** The link as a code for another phone's camera, as large as there is room, and full screen. */
export function createCode() {
  const frame = element("div", { className: "code" });
  const remark = element("p", { className: "remark", textContent: FINE });
  const enlarge = element("button", { type: "button", className: "button", textContent: "Full screen" });
  const close = element("button", { className: "button", textContent: "Close" });
  const whole = element("dialog", { className: "code-whole", "aria-label": "Code to scan" });
  const place = element("div", { className: "code" });
  whole.append(place, element("form", { method: "dialog" }, close));
  enlarge.addEventListener("click", () => whole.showModal());
  place.addEventListener("click", () => whole.close());

  return {
    element: element("div", {}, frame, remark, enlarge, whole),
    /** @param {string} link */
    show(link) {
      const { data, size } = encode(link, { ecc: "L", boostEcc: true, border: 0 });
      remark.hidden = size <= MOST_SQUARES;
      frame.replaceChildren(drawn(data, size));
      place.replaceChildren(drawn(data, size));
    },
    close() { whole.close(); },
  };
}

/**
 * The link as a code for a place in a larger drawing, filled with its light edge.
 * @param {string} link @param {{x: number, y: number, size: number}} place  A square from its upper left corner.
 */
export function codeMark(link, { x, y, size: room }) {
  const { data, size } = encode(link, { ecc: "L", boostEcc: true, border: 0 });
  const group = made("g", { class: "code-mark", transform: `translate(${x} ${y}) scale(${room / (size + 2 * QUIET)})`, "shape-rendering": "crispEdges" });
  group.append(...squares(data, size));
  return group;
}

/** @param {boolean[][]} rows @param {number} size */
function drawn(rows, size) {
  const across = size + 2 * QUIET;
  const svg = made("svg", { viewBox: `0 0 ${across} ${across}`, role: "img", "aria-label": "Code to scan: it opens this setup", "shape-rendering": "crispEdges" });
  svg.append(...squares(rows, size));
  return svg;
}

/** @param {boolean[][]} rows @param {number} size */
function squares(rows, size) {
  const across = String(size + 2 * QUIET);
  return [
    made("rect", { width: across, height: across, fill: "#ffffff" }),
    made("path", { d: rows.map(rowPath).join(""), fill: "#000000" }),
  ];
}

/** Each stretch of dark squares in one piece. @param {boolean[]} row @param {number} y */
function rowPath(row, y) {
  let path = "";
  for (let start = row.indexOf(true); start !== -1;) {
    const light = row.indexOf(false, start);
    const end = light === -1 ? row.length : light;
    path += `M${start + QUIET} ${y + QUIET}h${end - start}v1h${start - end}z`;
    start = row.indexOf(true, end);
  }
  return path;
}

/** @param {string} tag @param {Record<string, string>} attributes */
function made(tag, attributes) {
  const node = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
  return node;
}
