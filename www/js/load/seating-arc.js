import { byId, element, setText } from "../dom.js";
import { arcPath, atClock, coordinates, svgElement } from "./svg.js";
import { stretchWords } from "./words.js";

/**
 * The clock angles that seat the axle as an arc on the ring over the side view. It is there from when the loads are first
 * looked at, until the builder takes it away; no first visit waits for it.
 *
 * @typedef {import("../types.js").Arc} Arc
 * @typedef {import("../types.js").Setup} Setup
 */

const STORAGE_KEY = "tabwright-seating";
/** Quiet time before the core is asked anew. */
const REST_MS = 250;
/** Outside the ring's band and the rules about it, mm. */
const BEYOND_BAND = 14;
const BAR = 2.5;
/** Arcs narrower than this have no room for their word, degrees. */
const ROOM_FOR_A_WORD = 30;
const WORD_OUTWARD = 6;

/** Whether the arc was asked for; null before the loads were ever looked at. @returns {boolean|null} */
function wanted() {
  try {
    const kept = localStorage.getItem(STORAGE_KEY);
    return kept === null ? null : kept === "shown";
  } catch {
    return null;
  }
}

/** Whether the arc is on the ring, or will be with the first look at the loads. */
export function isSeatingShown() {
  return wanted() ?? true;
}

/** @param {boolean} isShown */
export function showSeating(isShown) {
  try {
    localStorage.setItem(STORAGE_KEY, isShown ? "shown" : "hidden");
  } catch {
    // For this visit only.
  }
  document.dispatchEvent(new CustomEvent("seating", { detail: isShown }));
}

/** Told by the page of loads when it is opened. */
export function showSeatingFirst() {
  if (wanted() === null) showSeating(true);
}

/**
 * @param {import("../search/client.js").SearchClient} client
 * @param {() => Setup} goodSetup
 * @returns {import("../types.js").Part}
 */
export function startSeatingArc(client, goodSetup) {
  const owner = {};
  const frame = element("div", { className: "seating-frame", hidden: true });
  frame.setAttribute("aria-hidden", "true");
  byId("ring-layer").querySelector(".ring-handle")?.before(frame);
  const words = element("p", { hidden: true });
  byId("window-rules").after(words);
  const key = element("li", { hidden: true }, svgElement("svg", { class: "view", viewBox: "0 0 40 10", "aria-hidden": "true" }, svgElement("path", { class: "rule seat", d: "M3 5H37M3 1V9M37 1V9" })), "axle seated");
  document.querySelector(".keys")?.append(key);
  let isOn = wanted() === true;
  let timer = 0;
  /** @type {Setup|undefined} */
  let asked;
  /** @type {{arcs: Arc[], setup: Setup}|undefined} */
  let answer;

  function draw() {
    const { arcs, setup } = answer ?? {};
    const band = document.querySelector(".ring-band");
    const isShown = isOn && arcs !== undefined && setup !== undefined && band !== null;
    for (const part of [frame, words, key]) part.hidden = !isShown;
    if (!isShown) return;
    setText(words, setup.dropout.closed ? "A closed hole keeps the axle in at any clock angle." : `The brake seats the axle: ${stretchWords(arcs)}.`);
    const radius = Number(band.getAttribute("data-radius")) + BEYOND_BAND;
    const across = setup.side === "right" ? -1 : 1;
    frame.replaceChildren(svgElement("svg", { class: "view view-seating" }, ...(setup.dropout.closed ? [] : arcs).flatMap((arc) => [
      svgElement("path", { class: "rule seat", d: arcPath(arc, radius, across, BAR) }),
      ...(arc.width < ROOM_FOR_A_WORD ? [] : [word(arc, radius + WORD_OUTWARD, across)]),
    ])));
    sharePage();
  }

  /** The arc lies on the side view's page. */
  function sharePage() {
    const box = document.querySelector(".picture[data-view=side] svg")?.getAttribute("viewBox");
    if (box) frame.firstElementChild?.setAttribute("viewBox", box);
  }

  function ask() {
    const setup = goodSetup();
    if (!isOn || setup === asked) return;
    asked = setup;
    client.run(owner, [["loads", setup]], {
      answer(reply) {
        answer = reply.ok ? { arcs: reply.answer.seating, setup } : undefined;
        draw();
      },
      done() {},
      failed() {
        answer = asked = undefined;
        draw();
      },
    });
  }

  byId("drawings").addEventListener("look", sharePage);
  document.addEventListener("seating", (event) => {
    isOn = /** @type {CustomEvent} */ (event).detail;
    ask();
    draw();
  });
  ask();

  return {
    update() {
      if (!isOn) return;
      sharePage();
      clearTimeout(timer);
      timer = setTimeout(() => {
        ask();
        draw();
      }, REST_MS);
    },
  };
}

/** In the middle of an arc. @param {Arc} arc @param {number} radius @param {1|-1} across */
function word({ from, width }, radius, across) {
  const [x, y] = atClock(radius, from + width / 2, across);
  return svgElement("text", { class: "ring-word", x: coordinates(x), y: coordinates(y + 2), "text-anchor": "middle" }, "axle seated");
}
