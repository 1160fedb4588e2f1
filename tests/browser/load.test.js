// The Loads page of the Build panel: what is too much first and in words, the caution with it, inputs by case, the forces
// drawn, and the clock angles that seat the axle, also on the ring.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { DESK, PHONE, launch, openSite, typeInto, untilPainted } from "./harness.js";
import { answered, closePanel, entry, keptSetup, openFolds, openLoads, opened } from "./loads-page.js";

let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

function seatedArc(page) {
  return page.locator("#ring-layer .seating-frame .rule.seat");
}

test("what is too much stands first and in words, and the caution right with it", async (t) => {
  const { page, complaints } = await opened(t, browser, { screen: PHONE });
  await entry(page, "load.case").selectOption("own");
  await entry(page, "load.own_force").fill("9000");
  const loads = await answered(page);
  assert.equal(loads.state, "over");
  const words = await page.locator(".load").innerText();
  assert.match(words, /^Too much\s/, "the verdict's word is the first on the page");
  assert.match(words, /Too much: [^]+ times its limit[^]*\. Do not build it like this\./);
  const [headline, caution, first] = await Promise.all([".load-headline", ".load-caution", ".load-weakest"].map((place) => page.locator(place).boundingBox()));
  assert.ok(headline.y < caution.y && caution.y + caution.height < first.y, "headline, caution, results");
  assert.ok(caution.y - headline.y - headline.height < 24, "nothing between headline and caution");
  for (const part of [/estimate/i, /never an approval/, /proof-test/, /local rules/i, /qualified welder/, /cracks/]) {
    assert.match(await page.locator(".load-caution").innerText(), part);
  }
  await page.locator(".panel-body").evaluate((body) => { body.scrollTop = body.scrollHeight; });
  const bar = await page.locator(".load-bar").boundingBox();
  assert.ok(bar.y >= 0 && bar.y + bar.height < PHONE.height / 3, "the verdict stays in sight");
  assert.deepEqual(complaints, []);
});

test("without braking nothing is too much, and that is no approval", async (t) => {
  const { page } = await opened(t, browser);
  await entry(page, "load.case").selectOption("own");
  await entry(page, "load.own_force").fill("0");
  await entry(page, "load.material").evaluate((select) => { select.closest("details").open = true; });
  // The fatigue group judges the standard's own test whatever the case: a stronger plate and a long lap pass that as well.
  await entry(page, "dropout.thickness").fill("14");
  const loads = await answered(page);
  assert.notEqual(loads.state, "over");
  const words = await page.locator(".load-headline").innerText();
  assert.doesNotMatch(words, /Too much|safe|approved|\bOK\b/i);
  assert.match(words, /estimate|can be off by/);
  assert.match(await page.locator(".load-caution").innerText(), /never an approval/);
});

test("the weakest come first, each with its share as text, a bar that tells without colour, and a way to its place", async (t) => {
  const { page } = await opened(t, browser);
  const loads = await answered(page);
  const judged = loads.groups.flatMap(({ results }) => results).filter(({ utilisation }) => utilisation !== null);
  const gravity = { holds: 0, close: 1, over: 2 };
  const sorted = judged.toSorted((one, other) => gravity[other.state] - gravity[one.state] || other.utilisation - one.utilisation);
  const names = await page.locator(".load-weak-name").allInnerTexts();
  assert.ok(names.length >= 3);
  assert.deepEqual(names, sorted.slice(0, names.length).map(({ label }) => label));
  for (const { state, id } of judged) if (state === "over") assert.ok(await page.locator(`.load-weak[data-name=${id}]`).count(), id);

  await openFolds(page);
  for (const { id, utilisation, verdict } of judged) {
    const card = page.locator(`[data-result=${id}]`);
    const text = await card.innerText();
    const percent = Number(text.match(/([\d]+)\s% of its limit/)[1]);
    assert.ok(Math.abs(percent - utilisation * 100) <= 1.01, `${id}: ${percent} for ${utilisation}`);
    assert.equal(percent > 100, utilisation > 1, `${id}: 100 % is never passed unsaid`);
    assert.ok(text.includes(verdict), id);
    const bar = await card.locator(".load-share").evaluate((svg) => ({
      used: Number(svg.querySelector(".load-bar-used")?.getAttribute("width") ?? 0),
      limit: svg.querySelector(".load-bar-limit") !== null,
      over: svg.querySelector(".load-bar-over") !== null,
    }));
    assert.ok(Math.abs(bar.used - Math.min(utilisation, 1) * 100) < 0.5, `${id}: ${bar.used}`);
    assert.deepEqual([bar.limit, bar.over], [true, utilisation > 1], id);
  }

  const [worst] = sorted;
  await page.locator(".load-weak").first().click();
  await page.waitForFunction((id) => document.activeElement?.getAttribute("data-result") === id, worst.id);
  const [place, bar, head] = await Promise.all([`[data-result=${worst.id}]`, ".load-bar", ".panel-head h2"].map((part) => page.locator(part).boundingBox()));
  assert.ok(place.y >= bar.y + bar.height - 1 && place.y < DESK.height, "in sight, below the verdict");
  assert.ok(head.y >= 0, "the panel's head stays where it is");
});

test("every result has value, what is allowed, formula, source and one line of caution", async (t) => {
  const { page } = await opened(t, browser);
  const loads = await answered(page);
  await openFolds(page);
  const groups = await page.locator(".load-group-name").allInnerTexts();
  assert.deepEqual(groups, loads.groups.map(({ label }) => label));
  for (const { results, note, id } of loads.groups) {
    const fold = await page.locator(`[data-load=${id}]`).innerText();
    assert.ok(fold.includes(note), `the note of ${id}`);
    for (const result of results) {
      const text = await page.locator(`[data-result=${result.id}]`).innerText();
      for (const part of ["label", "formula", "source", "caution"]) assert.ok(result[part] && text.includes(result[part]), `${part} of ${result.id}`);
      if (result.unit === "N") assert.ok(text.includes(`${Math.round(result.value)}`.replace("-", "\u2212")), result.id);
      assert.equal(/ allowed$/.test(await page.locator(`[data-result=${result.id}] .load-numbers`).innerText()), result.allowable !== null, result.id);
    }
  }
  const tube = await page.locator("[data-load=tube]").innerText();
  assert.match(tube, /not computed/i);
  assert.match(tube, /gusset/);
});

// What slips or twists breaks nothing at once, and must not read as if all were well either.
test("where only slip or twist pass a limit, they are named first", async (t) => {
  const { page } = await opened(t, browser);
  await entry(page, "load.case").selectOption("own");
  await entry(page, "load.own_force").fill("250");
  await openFolds(page);
  await entry(page, "dropout.thickness").fill("12");
  await entry(page, "load.bolt_torque").fill("0.5");
  const loads = await answered(page);
  assert.notEqual(loads.state, "over");
  const moving = loads.groups.flatMap(({ results }) => results).filter(({ utilisation }) => utilisation > 1);
  assert.ok(moving.some(({ verdict }) => verdict === "Slips"));
  const head = await page.locator(".load").innerText();
  assert.ok(head.startsWith("Slips"), head.slice(0, 40));
  assert.ok((await page.locator(".load-headline").innerText()).startsWith(`${moving[0].label}: `));
  assert.equal(await page.locator(".load-bar").getAttribute("data-tone"), "tight");
});

const CASES = {
  iso_static: ["load.wheel", "wheel.tyre_radius"],
  iso_fatigue: ["load.bicycle", "load.scheme", "load.wheel", "wheel.tyre_radius"],
  rider: ["load.mass", "load.cog_height", "load.cog_to_front", "load.wheelbase", "load.slope", "load.friction", "wheel.tyre_radius"],
  own: ["load.own_force", "wheel.tyre_radius"],
};

test("the case's own inputs are in sight, all others folded, none twice", async (t) => {
  const { page } = await opened(t, browser);
  for (const [name, wanted] of Object.entries(CASES)) {
    await entry(page, "load.case").selectOption(name);
    await untilPainted(page);
    const shown = await page.locator(".load [data-path]").evaluateAll((inputs) => inputs.filter((input) => input.checkVisibility()).map((input) => input.dataset.path));
    assert.deepEqual(shown, ["load.case", ...wanted], name);
    const all = await page.locator(".load [data-path]").evaluateAll((inputs) => inputs.map((input) => input.dataset.path));
    assert.equal(new Set(all).size, all.length);
    for (const key of Object.values(CASES).flat()) assert.ok(all.includes(key), key);
  }
  const ids = await page.evaluate(() => [...document.querySelectorAll("[id]")].map(({ id }) => id));
  assert.deepEqual(ids.filter((id, index) => ids.indexOf(id) !== index), [], "no id twice, even with the form behind");
  for (const key of ["load.material", "load.weld.leg", "load.weld.electrode", "load.weld.method", "load.bolt_class", "load.bolt_torque", "load.nut_torque"]) {
    assert.equal(await entry(page, key).count(), 1, key);
  }
});

test("a rider's mass and slope change the braking, and the material's own strengths come with the material", async (t) => {
  const { page } = await opened(t, browser);
  await entry(page, "load.case").selectOption("rider");
  const before = await answered(page);
  await entry(page, "load.mass").fill("220");
  const heavier = await answered(page);
  assert.notEqual(heavier.case, before.case);
  assert.equal(await page.locator(".load-case").innerText(), heavier.case);
  await openFolds(page);
  assert.ok(await entry(page, "load.yield_strength").isHidden());
  await entry(page, "load.material").selectOption("own");
  await entry(page, "load.yield_strength").waitFor();
  await entry(page, "load.tensile_strength").fill("700");
  await entry(page, "load.yield_strength").fill("500");
  const own = await answered(page);
  assert.equal(own.groups.flatMap(({ results }) => results).find(({ id }) => id === "root_stress").allowable, 500);
});

// ISO 5775-1: a tyre 47-559 is 47 wide on a bead seat of 559, so nominally 559 + 2 · 47 = 653 mm across.
test("a tyre's size by ISO 5775 sets the radius in one step, and one that is none says what to type", async (t) => {
  const { page } = await opened(t, browser, { screen: PHONE });
  const before = (await keptSetup(page)).wheel.tyre_radius;
  const size = page.getByLabel("Tyre size, ISO 5775");
  await size.fill("47-559");
  await size.press("Enter");
  await page.locator(".load-tyre-said", { hasText: "Tyre radius set to 326.5 mm" }).waitFor();
  assert.ok(await page.locator("#panel").isVisible(), "Enter does not close the panel");
  const { wheel, load } = await keptSetup(page);
  assert.equal(wheel.tyre_radius, 326.5);
  assert.equal(load.wheel, "26");
  assert.equal(await entry(page, "wheel.tyre_radius").inputValue(), "326.5");

  for (const wrong of ["", "26 x 2", "999-999", "<b>47</b>"]) {
    await size.fill(wrong);
    await page.getByRole("button", { name: "Set radius" }).click();
    await page.locator(".load-tyre.refused .load-tyre-said").waitFor();
    assert.equal(await size.getAttribute("aria-invalid"), "true");
    assert.match(await page.locator(".load-tyre-said").innerText(), /47-559|from \d+/);
  }
  assert.equal((await keptSetup(page)).wheel.tyre_radius, 326.5, "nothing wrong is taken over");
  await closePanel(page);
  await page.locator("#undo").click();
  const back = await keptSetup(page);
  assert.deepEqual([back.wheel.tyre_radius, back.load.wheel], [before, "by_radius"], "one step back");
});

test("arrows point where the forces do, mirrored on a right-hand brake, and the list says the same", async (t) => {
  const { page } = await opened(t, browser);
  for (const side of ["left", "right"]) {
    if (side === "right") {
      await closePanel(page);
      await page.getByRole("radio", { name: "Right" }).check({ force: true });
      await openLoads(page);
    }
    const { forces } = await answered(page);
    for (const [name, body] of [["Tab and dropout", "plate"], ["Wheel", "wheel"]]) {
      await page.getByRole("radio", { name, exact: true }).check({ force: true });
      await untilPainted(page);
      const own = forces.filter(({ on }) => on === body);
      const told = await page.locator("ol.load-legend li").allInnerTexts();
      assert.equal(told.length, own.length);
      own.forEach(({ label, size }, index) => assert.ok(told[index].startsWith(`${label}: ${Math.round(size)}\u00a0N`), told[index]));
      assert.deepEqual(await page.locator(".load-picture .force-name").allTextContents(), own.map((_, index) => String(index + 1)));
      const ways = await page.locator(".load-picture path.force:not(.turn)").evaluateAll((paths) => paths.map((path) => {
        const [x1, y1, x2, y2] = path.getAttribute("d").match(/-?[\d.]+/g).map(Number);
        return { x1, y1, way: Math.atan2(x2 - x1, y1 - y2) };
      }));
      const drawn = own.filter(({ force: [back, up] }) => Math.hypot(back, up) > 0.02 * Math.max(...own.map(({ size }) => size)));
      assert.equal(ways.length, drawn.length);
      drawn.forEach(({ force: [back, up], point }, index) => {
        const across = side === "right" ? -1 : 1;
        const off = Math.atan2(across * back, up) - ways[index].way;
        assert.ok(Math.abs(Math.sin(off / 2)) < 0.02, `${side} ${body} ${index + 1}: off by ${off}`);
        assert.ok(Math.hypot(ways[index].x1 - across * point[0], ways[index].y1 + point[1]) < 0.02, "it starts where it acts");
      });
    }
  }
});

// A caliper behind the leg lifts the axle out of a downward slot, one ahead of it presses it in: common practice, no source.
test("with a downward slot the axle is seated ahead of the leg and not behind, in words, on the dial and on the ring", async (t) => {
  const { page, complaints } = await opened(t, browser);
  await openFolds(page);
  const { seating } = await answered(page);
  const holds = (clock) => seating.some(({ from, width }) => (((clock - from) % 360) + 360) % 360 <= width);
  assert.deepEqual([holds(-90), holds(90)], [true, false]);
  assert.match(await page.locator(".load-seated").innerText(), /28\.0°: there the brake pushes the axle out/);
  assert.match(await page.locator(".load-dial svg").getAttribute("aria-label"), /seated at 180\.0° to 0\.0° by way of −90\.0°/);
  await closePanel(page);

  await seatedArc(page).waitFor({ state: "attached" });
  const place = await seatedArc(page).evaluate((path) => {
    const [left, axle] = [path.getBoundingClientRect(), document.querySelector(".picture[data-view=side] svg").getScreenCTM()];
    return { middle: left.x + left.width / 2 - axle.e, right: left.right - axle.e };
  });
  assert.ok(place.middle < -20 && place.right < 10, `ahead is to the left: ${JSON.stringify(place)}`);
  assert.match(await page.locator("#window-rules + p").innerText(), /seats the axle: 180\.0° to 0\.0° by way of −90\.0°/);
  assert.match(await page.locator(".keys").innerText(), /axle seated/);
  const matrixOf = (selector) => page.locator(selector).evaluate((svg) => {
    const { a, d, e, f } = svg.getScreenCTM();
    return [a, d, e, f].map((number) => number.toFixed(2));
  });
  assert.deepEqual(await matrixOf(".view-seating"), await matrixOf(".picture[data-view=side] svg"), "on the drawing's page");

  await page.getByRole("radio", { name: "Right" }).check({ force: true });
  await page.waitForFunction(() => {
    const path = document.querySelector(".seating-frame .rule.seat");
    return path && path.getBoundingClientRect().left - document.querySelector(".picture[data-view=side] svg").getScreenCTM().e > -10;
  });
  await page.reload();
  await seatedArc(page).waitFor({ state: "attached" });
  await openLoads(page);
  await openFolds(page);
  await page.getByLabel("Show them on the ring over the side view").uncheck();
  await page.locator(".seating-frame").waitFor({ state: "hidden" });
  assert.deepEqual(complaints, []);
});

test("no arc is on the ring before the loads were looked at", async (t) => {
  const { page } = await openSite(t, browser);
  await page.locator(".seating-frame").waitFor({ state: "attached" });
  await typeInto(page, "wheel.rotor_diameter", "220");
  await typeInto(page, "dropout.thickness", "12");
  await page.locator("#window-list", { hasText: "No clock angle clears" }).waitFor();
  for (const part of [".seating-frame", ".keys li:last-child", "#window-rules + p"]) assert.ok(await page.locator(part).isHidden(), part);
  await openLoads(page);
  await closePanel(page);
  for (const part of [".seating-frame svg", ".keys li:last-child", "#window-rules + p"]) await page.locator(part).waitFor({ state: "visible" });
});

test("another slot is tried in one step: forward seats the axle, a closed hole keeps it in", async (t) => {
  const { page } = await opened(t, browser);
  await openFolds(page);
  await page.getByRole("button", { name: "Try it: Closed hole" }).click();
  await page.locator(".load-seated", { hasText: "A closed hole keeps the axle in" }).waitFor();
  const loads = await answered(page);
  assert.deepEqual(loads.groups[1].results.map(({ id }) => id), ["axle_across", "axle_clamp"]);
  assert.equal(await page.evaluate(() => document.activeElement?.getAttribute("data-name")), "Closed hole", "the focus stays");
  await page.getByRole("button", { name: "Try it: Slot forward" }).click();
  await page.locator(".load-seated", { hasText: "presses the axle into its slot" }).waitFor();
  const forward = (await keptSetup(page)).dropout;
  assert.deepEqual([forward.slot_direction, forward.closed], [-90, false]);
  await closePanel(page);
  await page.locator("#undo").click();
  await page.locator("#undo").click();
  const { dropout } = await keptSetup(page);
  assert.deepEqual([dropout.slot_direction, dropout.closed], [180, false]);
});

test("hand force with other rotors is the ratio of the pads' distances", async (t) => {
  const { page } = await opened(t, browser);
  await page.locator("[data-load=pads] > summary").click();
  const rows = await page.locator(".load-rotors tbody tr").allInnerTexts();
  // Pads 16 mm high, 0.5 mm inside the edge: 101.5 − 8.5 = 93 mm and 80 − 8.5 = 71.5 mm from the axle.
  assert.match(rows.find((row) => row.startsWith("160")), new RegExp(`${(93 / 71.5).toFixed(2)}\\s×`));
  assert.match(rows.find((row) => row.includes("at hand")), /^203\smm, at hand\s+1\.00/);
});

test("a refused value is told with a way to it, and what is shown is the last good answer", async (t) => {
  const { page } = await opened(t, browser);
  const before = await page.locator(".load-headline").innerText();
  await openFolds(page);
  await entry(page, "load.weld.leg").fill("much");
  const link = page.locator(".load-problems .link");
  await link.waitFor();
  assert.ok(await page.getByText("These results belong to the last good values").first().isVisible());
  assert.equal(await entry(page, "load.weld.leg").getAttribute("aria-invalid"), "true");
  assert.equal(await page.locator(".load-headline").innerText(), before);
  await page.evaluate(() => document.querySelectorAll(".load details").forEach((details) => { details.open = false; }));
  await link.click();
  assert.equal(await page.evaluate(() => document.activeElement?.id), "build-load-weld-leg");
  await entry(page, "load.weld.leg").fill("5");
  await page.locator(".load-stale").waitFor({ state: "hidden" });
  await answered(page);

  await closePanel(page);
  await typeInto(page, "wheel.hub_width", "wide");
  await openLoads(page);
  await page.locator(".load-problems .link").click();
  await page.locator("#panel").waitFor({ state: "hidden" });
  assert.equal(await page.evaluate(() => document.activeElement?.id), "wheel-hub_width", "what has no place here has one in the form");
});

test("lengths are read and typed in inches too", async (t) => {
  const { page } = await opened(t, browser);
  await closePanel(page);
  await page.locator("#unit-switch [value=in]").check({ force: true });
  await openLoads(page);
  await openFolds(page);
  await answered(page);
  assert.match(await page.locator("[data-result=pad_shift] .load-value").innerText(), /"$/);
  assert.match(await page.locator("[data-result=torque]").innerText(), /N·m/);
  await entry(page, "wheel.tyre_radius").fill("13");
  assert.equal((await keptSetup(page)).wheel.tyre_radius, 330.2);
  const units = await page.locator(".load [data-length-unit]").allInnerTexts();
  assert.ok(units.length > 0 && units.every((unit) => unit === "in"), units.join());
});

test("the message and what is shared say that loads are estimates and no approval", async (t) => {
  const { page, context } = await openSite(t, browser);
  await context.addInitScript(() => { navigator.share = async (data) => { window.shared = data; }; });
  await page.reload();
  await page.locator("#verdict-word:not(:empty)").waitFor();
  await page.getByRole("button", { name: "Send", exact: true }).click();
  await page.locator("#message:not(:empty)").waitFor();
  const caution = /load[^.\n]*(?:estimate|approval)|estimate[^.\n]*load/i;
  assert.match(await page.locator("#message").innerText(), caution);
  const shares = page.getByRole("button", { name: "Share" });
  await shares.first().click();
  assert.match(await page.evaluate(() => window.shared.text), caution);
  await shares.last().click();
  assert.match(await page.evaluate(() => window.shared.text), caution);
});

test("where the worker does not answer, it is told and asked again", async (t) => {
  const { page } = await openSite(t, browser);
  await page.evaluate(() => {
    const { Worker } = window;
    window.mend = () => { window.Worker = Worker; };
    window.Worker = class { constructor() { throw new Error("no worker"); } };
  });
  await page.getByRole("button", { name: "Build", exact: true }).click();
  await page.getByRole("radio", { name: "Loads", exact: true }).check({ force: true });
  await page.locator(".load-message", { hasText: "could not be started" }).waitFor();
  assert.ok(await page.locator(".load-answered").isHidden());
  await page.evaluate(() => window.mend());
  await page.getByRole("button", { name: "Try again" }).click();
  await page.locator(".load-answered:not([hidden])").waitFor();
  assert.equal(await page.locator(".load-message").textContent(), "");
});
