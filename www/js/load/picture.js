import { element } from "../dom.js";
import { angleWords } from "../search/words.js";
import { ownNames, parsed } from "../search/pair.js";
import { arcPath, coordinates, svgElement } from "./svg.js";
import { amountText } from "./words.js";

/**
 * The forces over the side view, numbered as in the list below it.
 * @typedef {import("./words.js").Force} Force
 * @typedef {import("./words.js").Loads} Loads
 * @typedef {import("../types.js").Setup} Setup
 */

/** @type {Record<string, {name: string, about: string}>} */
const BODIES = {
  plate: { name: "Tab and dropout", about: "what caliper, axle and tube do to the plate" },
  wheel: { name: "Wheel", about: "what road, pads and dropouts do to the wheel" },
};
/** Of the page's width: the longest arrow, an arrow's head, the turning sign, the room about all. */
const LONGEST = 0.3;
const HEAD = 0.035;
const TURN = 0.07;
const ROOM = 0.06;
/** Forces and moments below this share of the largest are told and not drawn. */
const LEAST_DRAWN = 0.01;
const N_MM_PER_N_M = 1000;
/** A moment below this is none, N·m. */
const LEAST_MOMENT = 0.05;
const DEGREES_PER_RAD = 180 / Math.PI;

export function createPicture() {
  const names = Object.keys(BODIES);
  const radios = names.map((value, index) => element("input", { type: "radio", name: "load-body", value, checked: index === 0, autocomplete: "off" }));
  const choice = element(
    "fieldset",
    { className: "switch" },
    element("legend", { className: "hidden-text" }, "Forces on"),
    ...names.map((name, index) => element("label", {}, radios[index], element("span", {}, BODIES[name].name))),
  );
  const figure = element("figure", { className: "load-picture" });
  const legend = element("ol", { className: "load-legend" });
  const marks = element("ul", { className: "load-legend load-marks" });
  /** @type {{loads: Loads, drawing: string, setup: Setup}|undefined} */
  let latest;
  /** Of the page drawn, mm. */
  let size = { width: 0, height: 0 };

  new ResizeObserver(keepTextSize).observe(figure);

  /** Texts stay as large however large the picture is. */
  function keepTextSize() {
    const box = figure.firstElementChild?.getBoundingClientRect();
    if (box && box.width > 0 && box.height > 0) figure.style.setProperty("--mm-per-px", String(Math.max(size.width / box.width, size.height / box.height)));
  }

  function draw() {
    if (!latest) return;
    const { loads, drawing, setup } = latest;
    const body = radios.find((radio) => radio.checked)?.value ?? names[0];
    const forces = loads.forces.filter(({ on }) => on === body);
    const svg = ownNames(parsed(drawing), "load");
    const { parts, reach } = forceMarks(forces, loads, setup, body, boxOf(svg));
    const [left, top, right, bottom] = reach;
    svg.setAttribute("viewBox", coordinates(left, top, right - left, bottom - top));
    svg.removeAttribute("aria-labelledby");
    svg.setAttribute("role", "img");
    svg.setAttribute("aria-label", `Side view with ${BODIES[body].about}, as listed below.`);
    svg.append(svgElement("g", { class: "forces" }, ...parts));
    size = { width: right - left, height: bottom - top };
    figure.replaceChildren(svg);
    keepTextSize();
    legend.replaceChildren(...forces.map((force) => element("li", {}, forceWords(force))));
    marks.replaceChildren(...(body === "plate" ? markWords(loads) : []).map((words) => element("li", {}, words)));
  }

  choice.addEventListener("change", draw);
  return {
    element: element("div", { className: "load-forces" }, choice, figure, legend, marks),
    /** @param {Loads} loads @param {string} drawing  The side view. @param {Setup} setup */
    show(loads, drawing, setup) {
      latest = { loads, drawing, setup };
      draw();
    },
  };
}

/** @param {Element} svg @returns {number[]}  Left, top, right, bottom. */
function boxOf(svg) {
  const [x, y, width, height] = (svg.getAttribute("viewBox") ?? "0 0 1 1").split(" ").map(Number);
  return [x, y, x + width, y + height];
}

/**
 * Arrows, turning signs, cuts and welds, and the page they take with what is drawn already.
 * @param {Force[]} forces @param {Loads} loads @param {Setup} setup @param {string} body @param {number[]} box
 */
function forceMarks(forces, loads, setup, body, box) {
  const across = setup.side === "right" ? -1 : 1;
  const at = (/** @type {number[]} */ [back, up]) => [across * back, -up];
  const isWheel = body === "wheel";
  const tyre = setup.wheel.tyre_radius;
  const round = tyre * (1 + ROOM);
  const reach = isWheel ? [Math.min(box[0], -round), Math.min(box[1], -round), Math.max(box[2], round), Math.max(box[3], round)] : [...box];
  const span = reach[2] - reach[0];
  const most = Math.max(...forces.map(({ size }) => size), 1);
  const mostTurn = Math.max(...forces.map(({ moment }) => Math.abs(moment[2])), 1);
  /** @type {SVGElement[]} */
  const parts = [];
  const widen = (/** @type {number[]} */ [x, y]) => {
    const room = ROOM * span;
    reach[0] = Math.min(reach[0], x - room);
    reach[1] = Math.min(reach[1], y - room);
    reach[2] = Math.max(reach[2], x + room);
    reach[3] = Math.max(reach[3], y + room);
  };

  if (isWheel) parts.push(svgElement("circle", { class: "load-tyre-line", r: coordinates(tyre) }));
  else {
    for (const { ends } of loads.seams) parts.push(line("load-seam", ends.map(at)));
    for (const { id, ends } of loads.cuts) {
      const [from, to] = ends.map(at);
      const [x, y] = from[1] < to[1] ? from : to;
      parts.push(line("load-cut", [from, to]), svgElement("text", { class: "load-cut-name", x: coordinates(x), y: coordinates(y - 3), "text-anchor": "middle" }, id));
    }
  }
  forces.forEach(({ point, force, moment, size }, index) => {
    const start = at(point);
    widen(start);
    const flat = Math.hypot(force[0], force[1]);
    let name = [start[0] + span * HEAD, start[1] - span * HEAD];
    if (flat > LEAST_DRAWN * most) {
      const way = at([force[0] / flat, force[1] / flat]);
      const length = Math.max((size / most) * LONGEST, 1.6 * HEAD) * span;
      const tip = [start[0] + way[0] * length, start[1] + way[1] * length];
      parts.push(...arrow(start, tip, way, HEAD * span));
      name = [tip[0] + way[0] * HEAD * span, tip[1] + way[1] * HEAD * span];
      widen(tip);
    }
    if (Math.abs(moment[2]) > LEAST_DRAWN * mostTurn && Math.abs(moment[2]) > LEAST_MOMENT * N_MM_PER_N_M) parts.push(...turning(start, moment[2] > 0, across, TURN * span, HEAD * span));
    parts.push(svgElement("text", { class: "force-name", x: coordinates(name[0]), y: coordinates(name[1]), "text-anchor": "middle", "dominant-baseline": "central" }, String(index + 1)));
  });
  return { parts, reach };
}

/** @param {string} kind @param {number[][]} ends */
function line(kind, [[x1, y1], [x2, y2]]) {
  return svgElement("path", { class: kind, d: `M${coordinates(x1, y1)}L${coordinates(x2, y2)}` });
}

/** @param {number[]} start @param {number[]} tip @param {number[]} way  Of length 1. @param {number} head */
function arrow(start, tip, [wx, wy], head) {
  const neck = [tip[0] - wx * head, tip[1] - wy * head];
  const side = 0.4 * head;
  const corners = [tip, [neck[0] - wy * side, neck[1] + wx * side], [neck[0] + wy * side, neck[1] - wx * side]];
  return [
    line("force", [start, neck]),
    svgElement("path", { class: "force-head", d: `M${corners.map((corner) => coordinates(...corner)).join("L")}Z` }),
  ];
}

/** Three quarters of a turn about a point; a moment above 0 turns back towards up. @param {number[]} centre @param {boolean} turnsUp @param {1|-1} across @param {number} radius @param {number} head */
function turning([x, y], turnsUp, across, radius, head) {
  // Clock angles grow from up to back, so a moment above 0 runs towards smaller ones.
  const [from, width] = [135, 270];
  const arc = svgElement("path", { class: "force turn", d: arcPath({ from, width }, radius, across, 0) });
  const end = (turnsUp ? from : from + width) / DEGREES_PER_RAD;
  const tip = [across * radius * Math.sin(end), -radius * Math.cos(end)];
  const forward = [across * Math.cos(end), Math.sin(end)].map((part) => (turnsUp ? -part : part));
  const [, point] = arrow(tip, [tip[0] + forward[0] * head, tip[1] + forward[1] * head], forward, head);
  return [svgElement("g", { transform: `translate(${coordinates(x, y)})` }, arc, point)];
}

/** @param {Force} force */
function forceWords({ label, force: [back, up, out], moment, size }) {
  const flat = Math.hypot(back, up);
  const parts = [`${label}: ${amountText(size, "N")}`];
  if (flat > LEAST_DRAWN * size && size > 0) parts.push(` towards clock angle ${angleWords(Math.atan2(back, up) * DEGREES_PER_RAD)}`);
  if (Math.abs(out) > LEAST_DRAWN * size && size > 0) parts.push(`, of that ${amountText(Math.abs(out), "N")} ${out > 0 ? "outboard" : "inboard"}`);
  const turn = Math.abs(moment[2]) / N_MM_PER_N_M;
  const bend = Math.hypot(moment[0], moment[1]) / N_MM_PER_N_M;
  if (turn >= LEAST_MOMENT) parts.push(`; turning ${amountText(turn, "N·m")} in this plane`);
  if (bend >= LEAST_MOMENT) parts.push(`${turn >= LEAST_MOMENT ? "," : ";"} ${amountText(bend, "N·m")} across it`);
  return `${parts.join("")}.`;
}

/** @param {Loads} loads */
function markWords({ cuts, seams }) {
  const words = cuts.map(({ id, label }) => `Dashed, "${id}": ${label.charAt(0).toLowerCase()}${label.slice(1)}.`);
  if (seams.length > 0) words.push("Thick lines: the weld that is counted.");
  return words;
}
