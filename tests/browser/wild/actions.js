// What a user without a plan does to the page; each by chance, and each checks what must hold afterwards.
import assert from "node:assert/strict";
import { readLength, useUnit } from "../../../www/js/units.js";
import { readNumber } from "../../../www/js/numbers.js";
import { chance, fields, setups, writer } from "../codec.js";
import { DESK, PHONE, untilAnswered, untilPainted } from "../harness.js";

const SIDEWAYS = { width: PHONE.height, height: PHONE.width };
export const PANELS = ["measure", "build", "setups", "send", "bench"];
const NONSENSE = [
  "", " ", "abc", "1e999", "-1", "0", "NaN", "9".repeat(300), "1/0", "1 1/4\"", "31,8", "1.25in", "<b>x</b>", "\u202e12", "\u0000", "__proto__", "203.5", "28", "5e-324",
];
const KEYS = ["Tab", "Shift+Tab", "ArrowUp", "ArrowLeft", "ArrowRight", "PageUp", "Home", "End", "Escape", "+", "-", "0", "Control+z", "Control+y", "Space"];
/** Inches are shown in four decimals, mm. */
const AS_SHOWN = 2e-3;

/** Inside the page: every input of the setup by its place, and the unit. */
function inputs() {
  const all = [...document.querySelectorAll("#main [data-path]")].filter((input) => input instanceof HTMLInputElement || input instanceof HTMLSelectElement);
  return {
    unit: document.querySelector("#unit-switch :checked").value,
    values: all.map((input) => [input.dataset.path, input.dataset.unit ?? "", input.type === "checkbox" || input.type === "radio" ? String(input.checked) : input.value]),
    undo: !document.querySelector("#undo").disabled,
  };
}

/** What the form says, as numbers where it is numbers. @param {import("playwright-core").Page} page */
async function said(page) {
  await untilPainted(page);
  const { unit, values, undo } = await page.evaluate(inputs);
  useUnit(unit);
  const meant = values.map(([path, lengths, text]) => [path, lengths === "mm" ? readLength(text) : readNumber(text)]);
  useUnit("mm");
  return { meant, undo };
}

/** Fails where the form says something else than it did. */
function assertSame(now, before, what) {
  assert.deepEqual(now.meant.map(([path]) => path), before.meant.map(([path]) => path), what);
  for (const [index, [path, value]] of now.meant.entries()) {
    const was = before.meant[index][1];
    const isSame = typeof value === "number" && typeof was === "number" ? Math.abs(value - was) <= AS_SHOWN : value === was;
    assert.ok(isSame, `${what}: ${path} was ${JSON.stringify(was)} and is ${JSON.stringify(value)}`);
  }
}

/**
 * The actions by name, with how often each comes.
 * @param {{page: any, host: {isDown: boolean}, random: () => number}} user
 * @returns {Record<string, {share: number, act: () => Promise<void>}>}
 */
export function actionsOf({ page, host, random }) {
  const below = (count) => Math.floor(random() * count);
  const pick = (list) => list[below(list.length)];
  const drawn = setups(chance(below(2 ** 31)));
  const closePanel = async () => {
    if (await page.locator("dialog[open]").count() === 0) return;
    await page.evaluate(() => document.querySelectorAll("dialog[open]").forEach((dialog) => dialog.close()));
  };
  const press = async (id) => {
    await closePanel();
    const button = page.locator(id);
    if (await button.isDisabled()) return false;
    await button.evaluate((element) => element.click());
    return true;
  };

  return {
    drag: { share: 5, act: async () => {
      await closePanel();
      const slider = page.locator("#controls input[type=range]").nth(below(3));
      await slider.scrollIntoViewIfNeeded();
      const box = await slider.boundingBox();
      if (!box) return;
      await page.mouse.move(box.x + box.width * random(), box.y + box.height / 2);
      await page.mouse.down();
      for (let step = below(6); step >= 0; step -= 1) await page.mouse.move(box.x + box.width * (1.4 * random() - 0.2), box.y + box.height / 2);
      await page.mouse.up();
    } },
    turn: { share: 2, act: async () => {
      await closePanel();
      const knob = page.locator(".ring-handle");
      if (!await knob.isVisible()) return;
      await knob.focus();
      await page.keyboard.press(pick(["ArrowUp", "ArrowDown", "PageUp", "PageDown", "Home", "End"]));
    } },
    type: { share: 6, act: async () => {
      await closePanel();
      const text = random() < 0.5 ? pick(NONSENSE) : String(Math.round(random() * 3000) / 10);
      const path = pick(fields).key;
      await page.evaluate(([path, text]) => {
        const all = [...document.querySelectorAll(`#main [data-path^="${path}"]`)];
        const input = all.find((one) => one instanceof HTMLInputElement && one.type === "text");
        if (!input) return;
        input.focus();
        input.value = text;
        input.dispatchEvent(new InputEvent("input", { bubbles: true }));
        if (text.length % 2) input.dispatchEvent(new Event("change", { bubbles: true }));
      }, [path, text]);
    } },
    choose: { share: 2, act: async () => {
      await closePanel();
      await page.evaluate((share) => {
        const all = [...document.querySelectorAll("#main select, #main input[type=radio], #main input[type=checkbox], .head input[type=radio]")];
        const one = all[Math.floor(share * all.length)];
        if (one instanceof HTMLSelectElement) {
          one.selectedIndex = Math.floor(((share * 7919) % 1) * one.options.length);
          one.dispatchEvent(new Event("change", { bubbles: true }));
        } else one.click();
      }, random());
    } },
    undo: { share: 3, act: async () => { await press("#undo"); } },
    redo: { share: 2, act: async () => { await press("#redo"); } },
    "there and back": { share: 2, act: async () => {
      await closePanel();
      const before = await said(page);
      if (!await press("#undo")) return;
      await untilPainted(page);
      await press("#redo");
      assertSame(await said(page), before, "after Undo and Redo");
    } },
    rotate: { share: 2, act: () => page.setViewportSize(pick([PHONE, SIDEWAYS, DESK])) },
    network: { share: 1, act: async () => { host.isDown = !host.isDown; } },
    reload: { share: 0.6, act: async () => {
      await closePanel();
      const before = await said(page);
      await page.reload();
      await untilAnswered(page);
      const now = await said(page);
      assertSame(now, before, "after loading again");
      assert.equal(now.undo, before.undo, "what can be taken back outlives a reload");
    } },
    link: { share: 1, act: async () => {
      await closePanel();
      const before = await said(page);
      const { hash } = new URL(writer.links(drawn.next(0.2), "http://site/").link);
      await page.evaluate((hash) => { location.hash = hash; }, hash);
      await page.waitForFunction(() => location.hash === "");
      await untilPainted(page);
      if (random() < 0.5 && await press("#undo")) assertSame(await said(page), before, "after a link was taken back");
    } },
    view: { share: 2, act: async () => {
      await closePanel();
      const view = page.locator(`#view-switch input[value=${pick(["side", "section"])}]`);
      await view.evaluate((radio) => radio.click());
    } },
    panel: { share: 2, act: async () => {
      await closePanel();
      const name = pick(PANELS);
      await page.locator(`button[data-panel=${name}]`).evaluate((button) => button.click());
      // Where the network is away and the worker did not keep it, words say so.
      await page.waitForFunction(() => document.querySelector("#panel[open]") || document.querySelector(".notice"));
    } },
    press: { share: 1.5, act: async () => {
      // Anything in the panel that does not leave the page or ask for a file.
      await page.evaluate((share) => {
        const all = [...document.querySelectorAll("#panel[open] .panel-body button:not([disabled])")].filter((button) => !/open a file|save|share|print|full|screen/i.test(button.textContent));
        all[Math.floor(share * all.length)]?.click();
      }, random());
    } },
    unit: { share: 1, act: async () => {
      await closePanel();
      await page.locator(`#unit-switch input[value=${pick(["mm", "in"])}]`).evaluate((radio) => radio.click());
    } },
    unfold: { share: 1, act: async () => {
      await closePanel();
      await page.evaluate((share) => {
        const all = [...document.querySelectorAll("#main details")];
        const fold = all[Math.floor(share * all.length)];
        fold.open = !fold.open;
      }, random());
    } },
    key: { share: 3, act: () => page.keyboard.press(pick(KEYS)) },
    zoom: { share: 1, act: async () => {
      const box = await page.locator(".drawings").boundingBox();
      if (!box) return;
      await page.mouse.move(box.x + box.width * random(), box.y + box.height * random());
      await page.keyboard.down("Control");
      await page.mouse.wheel(0, 400 * (random() - 0.5));
      await page.keyboard.up("Control");
    } },
  };
}

/** One of them, as often as its share says. */
export function chosen(actions, random) {
  const entries = Object.entries(actions);
  let left = random() * entries.reduce((sum, [, { share }]) => sum + share, 0);
  return entries.find(([, { share }]) => (left -= share) < 0) ?? entries[0];
}
