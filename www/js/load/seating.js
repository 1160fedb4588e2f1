import { element, emit, setText } from "../dom.js";
import { angleWords } from "../search/words.js";
import { isSeatingShown, showSeating } from "./seating-arc.js";
import { arcPath, atClock, coordinates, svgElement } from "./svg.js";
import { liesInArcs, stretchWords } from "./words.js";

/**
 * @typedef {import("./words.js").Loads} Loads
 * @typedef {import("../types.js").Setup} Setup
 */

const RADIUS = 34;
/** Half of the picture. */
const WIDE = 64;
const HIGH = 48;

/** Where the caliper may sit so that the brake presses the axle into its slot, and what another slot would change. */
export function createSeating() {
  const now = element("p", { className: "load-seated" });
  const angles = element("p");
  const dial = element("div", { className: "load-dial" });
  const tick = element("input", { type: "checkbox", className: "flag-input", id: "load-ring", checked: isSeatingShown() });
  tick.addEventListener("change", () => showSeating(tick.checked));
  const slots = element("ul", { className: "load-slots" });
  let shown = "";

  return {
    element: element(
      "div",
      { className: "load-seating" },
      element("h4", {}, "Clock angles that seat the axle"),
      element("div", { className: "load-seating-row" }, dial, element("div", {}, now, angles)),
      element("label", { className: "load-tick", htmlFor: tick.id }, tick, "Show them on the ring over the side view"),
      element("h4", {}, "With another slot"),
      slots,
    ),
    /** @param {Loads} loads @param {Setup} setup */
    show({ seating, slots: choices }, setup) {
      const { closed, slot_direction: direction } = setup.dropout;
      const { clock } = setup.tab;
      const isSeated = liesInArcs(clock, seating);
      const at = `The caliper sits at ${angleWords(clock)}: there the brake`;
      now.dataset.tone = isSeated ? "clears" : "hits";
      setText(now, closed ? "A closed hole keeps the axle in at any clock angle." : `${at} ${isSeated ? "presses the axle into its slot." : "pushes the axle out of its slot."}`);
      setText(angles, closed ? "" : `It seats the axle at: ${stretchWords(seating)}. Elsewhere it pushes the axle out.`);
      const state = JSON.stringify([seating, choices, closed, direction, clock, setup.side]);
      if (state === shown) return;
      shown = state;
      dial.replaceChildren(dialPicture(seating, setup));
      showChoices(choices, closed, direction);
    },
  };

  /** @param {Loads["slots"]} choices @param {boolean} closed @param {number} direction */
  function showChoices(choices, closed, direction) {
    const focused = slots.contains(document.activeElement) ? document.activeElement?.getAttribute("data-name") : null;
    slots.replaceChildren(...choices.map((choice) => {
      const isOwn = choice.direction === null ? closed : !closed && choice.direction === direction;
      const row = element("li", {}, element("p", {}, element("strong", {}, choice.label), `: ${choice.sentence}`));
      const use = element("button", { type: "button", className: "button", "aria-label": `Try it: ${choice.label}`, "data-name": choice.label }, isOwn ? "Chosen" : "Try it");
      if (isOwn) use.setAttribute("aria-disabled", "true");
      else use.addEventListener("click", () => take(choice));
      row.append(use);
      return row;
    }));
    if (focused) /** @type {HTMLElement|null} */ (slots.querySelector(`[data-name="${CSS.escape(focused)}"]`))?.focus();
  }

  /** @param {Loads["slots"][number]} choice */
  function take({ label, direction }) {
    const changes = direction === null
      ? [{ path: "dropout.closed", value: true }]
      : [{ path: "dropout.closed", value: false }, { path: "dropout.slot_direction", value: direction }];
    emit(slots, "changes", { changes, words: `Changed to: ${label.toLowerCase()}.` });
  }
}

/** Leg, axle, slot and caliper seen from the braked side, with the arcs around them. @param {Loads["seating"]} arcs @param {Setup} setup */
function dialPicture(arcs, { side, tab, dropout }) {
  const across = side === "right" ? -1 : 1;
  const at = (/** @type {number} */ radius, /** @type {number} */ clock) => atClock(radius, clock, across);
  const [x, y] = at(RADIUS, tab.clock);
  const parts = [
    svgElement("path", { class: "dial-leg", d: "M0 -14V-46" }),
    svgElement("circle", { class: "dial-round", r: RADIUS }),
    ...arcs.map((arc) => svgElement("path", { class: "rule seat", d: arcPath(arc, RADIUS, across, 4) })),
    svgElement("circle", { class: "dial-axle", r: 5 }),
    svgElement("circle", { class: "dial-caliper", cx: coordinates(x), cy: coordinates(y), r: 6 }),
    svgElement("text", { x: across * 3, y: -40, "text-anchor": across > 0 ? "start" : "end" }, "leg"),
    svgElement("text", { x: across * (RADIUS + 5), y: 3, "text-anchor": across > 0 ? "start" : "end" }, "back"),
  ];
  if (!dropout.closed) parts.push(svgElement("path", { class: "dial-slot", d: `M${coordinates(...at(6, dropout.slot_direction))}L${coordinates(...at(20, dropout.slot_direction))}` }));
  return svgElement("svg", {
    class: "view", viewBox: `${-WIDE} ${-HIGH} ${2 * WIDE} ${2 * HIGH - 6}`, role: "img",
    "aria-label": `About the axle, from the braked side: the axle is seated at ${stretchWords(arcs)}; the caliper sits at ${angleWords(tab.clock)}.`,
  }, ...parts);
}
