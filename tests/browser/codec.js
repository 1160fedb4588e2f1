// The real core and the page's own link code, in node; and seeded chance.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { createReader } from "../../www/js/link/read.js";
import { createWriter } from "../../www/js/link/write.js";
import { withValueAt } from "../../www/js/path.js";
import { SITE } from "./harness.js";

/** All of the geometry, in Node. */
export const wasm = await import(`${SITE}/pkg/tabwright_wasm.js`);
wasm.initSync({ module: readFileSync(`${SITE}/pkg/tabwright_wasm_bg.wasm`) });

export const core = { fields: wasm.fields, defaultSetup: wasm.default_setup, report: wasm.report };
export const explain = wasm.explain;
export const fields = core.fields().flatMap((group) => group.fields);
export const writer = createWriter(core);
export const read = createReader(core);

export const fixturesFolder = fileURLToPath(new URL("../../fixtures/", import.meta.url));

/** A fixture's text. @param {string} path */
export function fixture(path) {
  return readFileSync(fixturesFolder + path, "utf8");
}

/** As `read`, with the core's word on the values left out, which takes most of the time. */
export const readFreely = createReader({ ...core, report: () => ({ ok: true }) });

/** Numbers from 0 up to 1, the same for the same seed: mulberry32, in the public domain. @param {number} seed */
export function chance(seed) {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

const SCRIPTS = ["abcdefghij XYZ 019", "äöüßéñ", "αβγδ", "автомобиль", "自転車屋", "غقس", "🚲🔧🧑‍🔧", "%&=+,;:/#?\"'<>`\\|~!()*[]{}", "\u200f\u202e\u00a0\ufffd\u{10ffff}"];

/**
 * Random setups over the whole hard ranges.
 * @param {() => number} random
 */
export function setups(random) {
  const defaults = core.defaultSetup();
  const below = (count) => Math.floor(random() * count);
  const pick = (list) => list[below(list.length)];
  // A zero that was rounded has no sign.
  const rounded = (number, digits) => Number(number.toFixed(digits)) + 0;
  const between = (low, high, digits = pick([0, 1, 2, 6, 99])) => {
    const number = low + (high - low) * random();
    return digits > 20 ? number : Math.min(Math.max(rounded(number, digits), low), high);
  };
  /** Of at most so many characters and bytes. */
  const name = (most, bytes) => {
    let made = "";
    for (let left = below(most + 1); left > 0; left -= 1) {
      const longer = made + pick([...pick(SCRIPTS)]);
      if (Buffer.byteLength(longer) <= bytes) made = longer;
    }
    return made;
  };

  /** A convex outline: corners on an ellipse, to six decimals or fewer. */
  function outline(corners) {
    const [x, y, across, up] = [between(-100, 100), between(-100, 100), between(20, 150), between(20, 150)];
    const digits = pick([3, 4, 6]);
    return Array.from({ length: corners }, (_, index) => {
      const angle = ((index + 0.3 * random()) / corners) * 2 * Math.PI;
      return [rounded(x + across * Math.cos(angle), digits), rounded(y + up * Math.sin(angle), digits)];
    });
  }

  /** Up to the limits: 8 bodies, 48 corners, 80 characters and 90 bytes of names. */
  function bodies() {
    const count = 1 + below(8);
    return Array.from({ length: count }, () => ({
      name: name(Math.floor(80 / count), Math.floor(90 / count)),
      outline: outline(3 + below(Math.min(Math.floor(48 / count), 24) - 2)),
      inboard: rounded(between(1, 290), 6),
      outboard: rounded(between(1, 290), 6),
      bolted: random() < 0.5,
    }));
  }

  function any(field) {
    switch (field.kind) {
      case "number": return between(field.hard[0], field.hard[1], field.decimals === null ? undefined : pick([0, 1, field.decimals]));
      case "choice": return pick(field.choices).value;
      case "flag": return random() < 0.5;
      case "text": return name(80, 120);
      case "vector": return field.default === null && random() < 0.2 ? null : [0, 1, 2].map(() => between(-300, 300));
      case "points": return [0, 1].map(() => [0, 1].map(() => between(-300, 300, field.decimals === null ? undefined : field.decimals)));
      case "readings": return Array.from({ length: below(4) }, () => rounded(between(...field.hard, 99), 3));
      case "bodies": return bodies();
    }
  }

  /** What the core wants to go together is made to. @param {any} setup */
  function consistent(setup) {
    const { wheel, fork, caliper, tab } = setup;
    const below = (value, limit) => (value < limit ? value : limit * (0.1 + 0.8 * random()));
    wheel.track_width = below(wheel.track_width, Math.min(wheel.rotor_diameter / 2, 60));
    wheel.rotor_inset = below(wheel.rotor_inset, wheel.hub_width / 2);
    wheel.flange_inset = below(wheel.flange_inset, wheel.hub_width / 2);
    fork.tube_wall = below(fork.tube_wall, fork.tube_diameter / 2);
    const padInner = () => wheel.rotor_diameter / 2 - caliper.pad.edge_inset - caliper.pad.height + tab.reach;
    if (padInner() <= 0) Object.assign(caliper.pad, { height: 3 + random() * 10, edge_inset: 0 });
    if (padInner() <= 0) tab.reach = 0;
    const [one, other] = caliper.holes;
    if (Math.hypot(one[0] - other[0], one[1] - other[1]) < 1.1) caliper.holes = [[-20.5, 1], [20.5, 2.25]];
    if (Math.hypot(...caliper.line.direction) < 0.01) caliper.line.direction = [1, 0, 0];
    const [across, up] = caliper.bolt_direction ?? [0, 0];
    if (caliper.mount === "post" && Math.hypot(across, up) < 0.01) caliper.bolt_direction = [0, -1, 0];
    return setup;
  }

  return {
    /** A setup that the core accepts, with about the given share of its fields changed. */
    next(share = 1) {
      const changed = fields.filter(() => random() < share);
      return consistent(structuredClone(changed.reduce((setup, field) => withValueAt(setup, field.key, any(field)), defaults)));
    },
  };
}

/** As long an address as a free host for pages gives. */
export const BASE = "https://a-builder-of-cargo-trikes.example.org/tools/tabwright/index.html";
/** The core is asked about one link in so many: it takes a millisecond each. */
export const ASKED = 50;

/** @param {string} link */
export function fragmentOf(link) {
  return new URL(link).hash;
}
