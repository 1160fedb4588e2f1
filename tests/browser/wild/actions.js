// What a user without a plan does to the page, each by chance.
import assert from "node:assert/strict";
import { fields, fixture, setups, chance, writer } from "../codec.js";
import { DESK, LACKS, PHONE, untilAnswered } from "../harness.js";
import { assertKept, stateOf } from "./state.js";
import { BUILD_PAGES, PANELS, openBuildPage, openPanel, touchControl } from "./panel.js";

const SIDEWAYS = { width: PHONE.height, height: PHONE.width };
/** Where there is something to type, choose or press on the page itself; starting again asks first. */
const SECTIONS = ["#searches", "#fixes-section", "#problems", "#warnings", "#window-list", ".stage", "#groups", ".title-row"];
const NONSENSE = [
  "", " ", "abc", "1e999", "-1", "0", "NaN", "9".repeat(300), "1/0", "1 1/4\"", "31,8", "1.25in", "<b>x</b>", "\u202e12", "\u0000", "__proto__", "203.5", "28", "5e-324",
  "31.8; 32; 1 1/4\"", "12; ;13;x",
];
const KEYS = ["Tab", "Shift+Tab", "ArrowUp", "ArrowLeft", "ArrowRight", "PageUp", "Home", "End", "Escape", "+", "-", "0", "Control+z", "Control+y", "Space"];
const TURNING_KEYS = ["ArrowUp", "ArrowDown", "PageUp", "PageDown", "Home", "End"];
const FILE = fixture("setups/default.json");

/**
 * @typedef {Object} Action
 * @property {number} share  How often it comes.
 * @property {boolean} [keeps]  Whether the setup and the steps from it stay as they are.
 * @property {() => Promise<void>} act
 */

/**
 * @param {{page: import("playwright-core").Page, host: {isDown: boolean}, random: () => number}} user
 * @returns {Record<string, Action>}
 */
export function actionsOf({ page, host, random }) {
  const below = (count) => Math.floor(random() * count);
  const pick = (list) => list[below(list.length)];
  const text = () => random() < 0.3 ? pick(NONSENSE) : String(Math.round(random() * 3000) / 10);
  const drawn = setups(chance(below(2 ** 31)));
  const closePanel = () => page.evaluate(() => document.querySelectorAll("dialog[open]").forEach((dialog) => dialog.close()));
  const click = (selector) => page.evaluate((selector) => document.querySelector(selector)?.click(), selector);
  const touch = (within) => page.evaluate(touchControl, { within, share: random(), part: random(), text: text() });
  /** Not out of the window, which only Chromium's pointer may leave. */
  const moveTo = (x, y) => {
    const { width, height } = page.viewportSize();
    return page.mouse.move(Math.min(Math.max(x, 0), width - 1), Math.min(Math.max(y, 0), height - 1));
  };
  /** From a place within, in shares of its size, to others. */
  const drag = async (place, start, reach) => {
    if (!await place.isVisible()) return;
    await place.scrollIntoViewIfNeeded();
    const box = await place.boundingBox();
    if (!box) return;
    const at = (across, up) => moveTo(box.x + box.width * across, box.y + box.height * up);
    await at(...start);
    await page.mouse.down();
    for (let step = below(6); step >= 0; step -= 1) await at(...reach());
    await page.mouse.up();
  };
  /** As a link or a file is after a bad copy: cut short, a character doubled, lost or another. */
  const damaged = (whole) => {
    const at = 1 + below(whole.length - 1);
    const [before, after] = [whole.slice(0, at), whole.slice(at)];
    return pick([before, before + before.at(-1) + after, before + after.slice(1), before + pick([..."%&=.~0ä\"}"]) + after.slice(1)]);
  };
  const openLink = async (hash) => {
    await closePanel();
    await page.evaluate((hash) => { location.hash = hash; }, hash);
    // Without a value in it, it is taken for a place on the page.
    if (hash.includes("=")) await page.waitForFunction(() => location.hash === "");
  };
  const paste = async (file) => {
    await closePanel();
    await page.evaluate((file) => {
      // What it says is told from what was said before.
      document.querySelectorAll(".notice button, #changed button:last-child").forEach((close) => close.click());
      // Not every browser lets a script make a paste that carries something.
      const clipboardData = { files: [], getData: () => file };
      document.body.dispatchEvent(Object.assign(new Event("paste", { bubbles: true }), { clipboardData }));
    }, file);
    await page.waitForFunction(() => document.querySelector("#panel[open], #changed.shown, .notice"));
  };
  const fileOf = (setup) => random() < 0.5 ? JSON.stringify(setup) : FILE;

  return {
    drag: { share: 5, act: async () => {
      await closePanel();
      const sliders = page.locator("#controls input[type=range]");
      await drag(sliders.nth(below(await sliders.count())), [random(), 0.5], () => [1.4 * random() - 0.2, 0.5]);
    } },
    "turn the knob": { share: 2, act: async () => {
      await closePanel();
      await drag(page.locator(".ring-handle"), [0.5, 0.5], () => [20 * random() - 10, 20 * random() - 10]);
    } },
    "turn by keys": { share: 1, act: async () => {
      await closePanel();
      const knob = page.locator(".ring-handle");
      if (!await knob.isVisible()) return;
      await knob.focus();
      await page.keyboard.press(pick(TURNING_KEYS));
    } },
    type: { share: 6, act: async () => {
      await closePanel();
      await page.evaluate(([path, text]) => {
        const all = [...document.querySelectorAll(`#main [data-path^="${path}"]`)];
        const input = all.find((one) => one instanceof HTMLInputElement && one.type === "text");
        if (!input) return;
        input.focus();
        input.value = text;
        input.dispatchEvent(new InputEvent("input", { bubbles: true }));
        if (text.length % 2) input.dispatchEvent(new Event("change", { bubbles: true }));
      }, [pick(fields).key, text()]);
    } },
    choose: { share: 2, act: async () => {
      await closePanel();
      await page.evaluate(([share, part]) => {
        const all = [...document.querySelectorAll("#main select, #main input[type=radio], #main input[type=checkbox], .head input[type=radio]")];
        const one = all[Math.floor(share * all.length)];
        if (one instanceof HTMLSelectElement) {
          one.selectedIndex = Math.floor(part * one.options.length);
          one.dispatchEvent(new Event("change", { bubbles: true }));
        } else one.click();
      }, [random(), random()]);
    } },
    undo: { share: 2, act: async () => { await closePanel(); await click("#undo:enabled"); } },
    redo: { share: 1, act: async () => { await closePanel(); await click("#redo:enabled"); } },
    link: { share: 1, act: async () => openLink(new URL(writer.links(drawn.next(0.2), "http://site/").link).hash) },
    "damaged link": { share: 0.7, act: async () => openLink(damaged(new URL(writer.links(drawn.next(0.1), "http://site/").link).hash)) },
    file: { share: 0.4, act: async () => paste(fileOf(drawn.next(0.1))) },
    "damaged file": { share: 0.4, act: async () => paste(damaged(fileOf(drawn.next(0.1)))) },
    "start again": { share: 0.2, act: async () => { await closePanel(); await click("#start-again"); } },
    "on the page": { share: 3, act: async () => {
      await closePanel();
      await touch(pick(SECTIONS));
    } },
    build: { share: 4, act: async () => {
      await openBuildPage(page, pick(BUILD_PAGES));
      for (let left = below(3); left >= 0; left -= 1) await touch("#panel[open] .panel-body");
    } },
    "in the panel": { share: 4, act: () => touch("#panel[open] .panel-body") },
    key: { share: 3, act: () => page.keyboard.press(pick(KEYS)) },
    rotate: { share: 2, keeps: true, act: () => page.setViewportSize(pick([PHONE, SIDEWAYS, DESK])) },
    ...(LACKS.keptFiles ? {} : { network: { share: 1, keeps: true, act: async () => { host.isDown = !host.isDown; } } }),
    reload: { share: 0.6, keeps: true, act: async () => {
      const before = await stateOf(page);
      const kept = await page.evaluate(keptRecords);
      await page.reload();
      await untilAnswered(page);
      const now = await stateOf(page);
      assertKept(now, before, "after loading again");
      assert.equal(now.unit, before.unit);
      assert.deepEqual(now.others, before.others);
      assert.equal(await page.evaluate(keptRecords), kept, "what is kept by name outlives a reload");
    } },
    view: { share: 2, keeps: true, act: async () => {
      await closePanel();
      await click(`#view-switch input[value=${pick(["side", "section"])}]`);
    } },
    panel: { share: 2, keeps: true, act: () => openPanel(page, pick(PANELS)) },
    print: { share: 0.5, keeps: true, act: async () => {
      const sheets = await page.evaluate(() => ["beforeprint", "afterprint"].map((type) => {
        dispatchEvent(new Event(type));
        return document.querySelectorAll(".sheet").length;
      }));
      assert.deepEqual(sheets, [2, 0], "sheets while printing and afterwards");
    } },
    unit: { share: 1, keeps: true, act: async () => {
      await closePanel();
      await click(`#unit-switch input[value=${pick(["mm", "in"])}]`);
    } },
    unfold: { share: 1, keeps: true, act: async () => {
      await closePanel();
      await page.evaluate((share) => {
        const all = [...document.querySelectorAll("#main details")];
        const fold = all[Math.floor(share * all.length)];
        fold.open = !fold.open;
      }, random());
    } },
    zoom: { share: 1, keeps: true, act: async () => {
      await closePanel();
      await page.evaluate(([across, up, turn]) => {
        const pictures = [...document.querySelectorAll(".picture:not([hidden])")];
        const picture = pictures[Math.floor(across * pictures.length)];
        const box = picture.getBoundingClientRect();
        // The engines' own wheels know nothing of the keys, or zoom the page with them.
        picture.dispatchEvent(new WheelEvent("wheel", {
          bubbles: true, cancelable: true, ctrlKey: true, clientX: box.x + box.width * across, clientY: box.y + box.height * up, deltaY: 400 * turn - 200,
        }));
      }, [random(), random(), random()]);
    } },
  };
}

/** One of them, as often as its share says. */
export function chosen(actions, random) {
  const entries = Object.entries(actions);
  let left = random() * entries.reduce((sum, [, { share }]) => sum + share, 0);
  return entries.find(([, { share }]) => (left -= share) < 0) ?? entries[0];
}

/** Inside the page: all that is kept by name, as text. */
async function keptRecords() {
  const opened = indexedDB.open("tabwright");
  const database = await new Promise((resolve, reject) => Object.assign(opened, { onsuccess: () => resolve(opened.result), onerror: reject }));
  const stores = [...database.objectStoreNames];
  if (stores.length === 0) {
    // The page would find a database without its stores.
    database.close();
    indexedDB.deleteDatabase("tabwright");
    return "[]";
  }
  const transaction = database.transaction(stores);
  const all = await Promise.all(stores.map((name) => new Promise((resolve, reject) => {
    const asked = transaction.objectStore(name).getAll();
    Object.assign(asked, { onsuccess: () => resolve(asked.result), onerror: reject });
  })));
  database.close();
  return JSON.stringify(all);
}
