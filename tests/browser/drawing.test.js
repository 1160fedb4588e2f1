// The drawings on the page are the core's, whichever way they came about: patched in place step by step, or parsed afresh.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { DESK, THOROUGH, drawing, launch, openSite, untilPainted } from "./harness.js";

const CHANGES = THOROUGH ? 150 : 60;
const SEED = 20240611;
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

/**
 * Inside the page: makes random changes that the core accepts, one or a few a frame, and compares both drawings with a
 * fresh parse of the core's text each time. Returns the first that differs and how many steps kept every element.
 */
async function compareChanges({ changes, seed }) {
  const core = await import(new URL("./pkg/tabwright_wasm.js", location.href).href);
  await core.default();
  const numbers = core.fields().flatMap((group) => group.fields).filter((field) => field.kind === "number" && field.plausible);
  let state = seed;
  const random = () => {
    state = (state * 1664525 + 1013904223) % 2 ** 32;
    return state / 2 ** 32;
  };
  const oneOf = (list) => list[Math.floor(random() * list.length)];
  const names = ["piston", "a < b & \"c\"", "arm's <img>", "&amp; > x", ""];
  const edits = [
    ...Array(12).fill(() => {
      const { key, plausible: [low, high] } = oneOf(numbers);
      return [key, Number((low + random() * (high - low)).toFixed(1))];
    }),
    () => ["side", oneOf(["left", "right"])],
    () => ["dropout.closed", random() < 0.5],
    () => ["caliper.bodies.0.name", oneOf(names)],
    () => ["caliper.bodies.0.outline.0.0", -30 - Math.round(random() * 20)],
  ];
  const setup = core.default_setup();
  const place = (path) => {
    const keys = path.split(".");
    return [keys.slice(0, -1).reduce((node, key) => node[key], setup), keys.at(-1)];
  };
  const painted = () => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
  const svgOf = (view) => document.querySelector(`.picture[data-view=${view}] svg`);
  const counts = { kept: 0, replaced: 0, unchanged: 0 };

  for (let change = 0; change < changes; change++) {
    const before = ["side", "section"].map(svgOf);
    const texts = before.map((svg) => svg.outerHTML);
    for (let count = oneOf([1, 1, 1, 5]); count > 0; count--) {
      const [path, value] = oneOf(edits)();
      const [node, key] = place(path);
      const old = node[key];
      node[key] = value;
      if (core.report(setup).ok) document.dispatchEvent(new CustomEvent("edit", { detail: { path, value } }));
      else node[key] = old;
    }
    await painted();
    for (const [index, view] of ["side", "section"].entries()) {
      const svg = svgOf(view);
      const fresh = new DOMParser().parseFromString(core.drawing(setup, view).svg, "image/svg+xml").documentElement;
      const wanted = document.importNode(fresh, true).outerHTML;
      if (svg.outerHTML !== wanted) return { differs: { change, view, shown: svg.outerHTML, wanted } };
      if (svg !== before[index]) counts.replaced += 1;
      else counts[svg.outerHTML === texts[index] ? "unchanged" : "kept"] += 1;
    }
  }
  return counts;
}

test(`after each of ${CHANGES} random changes both drawings are what the core's text says`, async (t) => {
  const { page, complaints } = await openSite(t, browser, { screen: DESK });
  const { differs, kept, replaced } = await page.evaluate(compareChanges, { changes: CHANGES, seed: SEED });
  assert.equal(differs?.shown, differs?.wanted, `the ${differs?.view} after change ${differs?.change}`);
  assert.ok(kept > 50, `only ${kept} drawings were patched in place`);
  assert.ok(replaced > 0, "no drawing took another structure");
  assert.deepEqual(complaints, []);
});

test("a part that only moves stays the same element in the page", async (t) => {
  const { page } = await openSite(t, browser, { screen: DESK });
  const before = await drawing(page, "side");
  await page.evaluate(() => {
    window.elements = [...document.querySelectorAll(".picture svg, .picture svg *")];
  });
  await page.getByRole("slider", { name: /^Rotor size/ }).focus();
  for (let step = 0; step < 4; step++) await page.keyboard.press("ArrowRight");
  await untilPainted(page);
  assert.notEqual(await drawing(page, "side"), before);
  const isSame = await page.evaluate(() => {
    const now = [...document.querySelectorAll(".picture svg, .picture svg *")];
    return now.length === window.elements.length && now.every((element, index) => element === window.elements[index]);
  });
  assert.ok(isSame, "an element was replaced");
});
