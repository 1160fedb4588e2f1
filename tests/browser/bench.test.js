// At the bench: one number at a time, said in words, as large as the window lets it, with the screen kept on.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { fingersOn, middleOf, withoutFingers } from "./fingers.js";
import { DESK, PHONE, launch, named, openSite, some, typeInto, untilPainted, untilVerdict } from "./harness.js";

const SMALL = { width: 360, height: 640 };
const LYING = { width: 844, height: 390 };
let browser;

before(async () => { browser = await launch(); });
after(() => browser.close());

async function openBench(t, options, prepare = async () => {}) {
  const opened = await openSite(t, browser, options);
  const { page } = opened;
  await prepare(page);
  await page.getByRole("button", { name: "Bench", exact: true }).click();
  const bench = page.getByRole("dialog", { name: "At the bench" });
  await bench.locator(".bench-digits:not(:empty)").waitFor();
  return {
    ...opened,
    bench,
    shown: async () => {
      await untilPainted(page);
      const [name, number, way] = await Promise.all([".bench-name", ".bench-number", ".bench-way"].map((part) => bench.locator(part).innerText()));
      return { name, number: number.replace(/\s+/g, " ").trim(), way };
    },
    count: () => bench.locator(".bench-count").innerText(),
    next: bench.getByRole("button", { name: /Next/ }),
    back: bench.getByRole("button", { name: /Previous/ }),
    choose: (text) => bench.getByRole("combobox", { name: "Number to show" }).selectOption({ label: text }),
  };
}

/** Every number in turn, by the button. */
async function allShown({ shown, count, next }) {
  const all = [];
  const total = Number((await count()).split(" ").at(-1));
  for (let index = 0; index < total; index++) {
    all.push(await shown());
    if (index < total - 1) await next.click();
  }
  return all;
}

for (const screen of some([SMALL, LYING, PHONE, DESK], 1)) {
  test(`at ${named(screen)} every number fits the window, is large, and has the verdict over it`, async (t) => {
    const open = await openBench(t, { screen }, (page) => typeInto(page, "wheel.hub_width", "115"));
    const total = Number((await open.count()).split(" ").at(-1));
    assert.ok(total >= 17, `${total} numbers`);
    await open.bench.getByRole("radio", { name: "0.01" }).check();
    for (let index = 0; index < total; index++) {
      const [digits, unit, verdict, page] = await Promise.all([
        open.bench.locator(".bench-digits").boundingBox(),
        open.bench.locator(".bench-unit").boundingBox(),
        open.bench.locator(".bench-verdict").boundingBox(),
        open.bench.locator(".bench-pages").boundingBox(),
      ]);
      const { name, number } = await open.shown();
      assert.ok(digits.height >= 60, `${name} is ${digits.height} px high`);
      assert.ok(digits.x >= 0 && unit.x + unit.width <= screen.width, `${name}, ${number}, spans ${digits.x} to ${unit.x + unit.width}`);
      assert.ok(verdict.y + verdict.height <= digits.y + 8, `${name} is clear of the verdict`);
      assert.ok(digits.y + digits.height <= (screen === LYING ? screen.height : page.y), `${name} is clear of the buttons`);
      assert.equal((await open.bench.locator(".bench-verdict").innerText()).trim(), "Tight");
      if (index < total - 1) await open.next.click();
    }
    for (const button of [open.next, open.back]) {
      const { width, height } = await button.boundingBox();
      assert.ok(width >= 100 && height >= 60, `a button of ${width} by ${height}`);
    }
  });
}

test("the numbers are those of the tables, with their signs in words", async (t) => {
  const open = await openBench(t, { screen: DESK }, async (page) => {
    await typeInto(page, "tab.clock", "-59");
    await typeInto(page, "tab.offset", "-1.5");
  });
  const report = await open.page.evaluate(async () => {
    const core = await import(new URL("./pkg/tabwright_wasm.js", location.href).href);
    await core.default();
    const setup = core.default_setup();
    setup.tab.clock = -59;
    setup.tab.offset = -1.5;
    return core.report(setup).report;
  });
  const all = await allShown(open);
  const numberOf = (name) => all.find((value) => value.name === name)?.number;
  const mm = (value) => `${Math.abs(value).toFixed(1)} mm`;
  const [first, second] = report.holes;
  assert.equal(numberOf(`Hole 1, ${first.back < 0 ? "ahead" : "back"}`), mm(first.back));
  assert.ok(second.back < 0, "ahead of the axle");
  assert.equal(numberOf("Hole 2, ahead"), mm(second.back));
  assert.equal(numberOf(`Hole 2, ${second.up < 0 ? "down" : "up"}`), mm(second.up));
  assert.equal(numberOf("Hole 1, from the axle"), mm(first.distance));
  assert.equal(numberOf("Hole to hole"), mm(report.hole_spacing));
  assert.equal(numberOf("Clock angle"), "59.0 °");
  assert.match(all.find(({ name }) => name === "Clock angle").way, /turning forwards/);
  assert.match(all.find(({ name }) => name === "Tab offset sideways").way, /inboard/);
  const worst = report.pairs.find(({ name }) => name === report.binding);
  assert.equal(all[0].number, mm(worst.gap));
  assert.match(all[0].way, new RegExp(`${worst.label}: ${worst.verdict}`));
  assert.ok(all.every(({ number }) => !/[-\u2212]/.test(number)), "no minus to overlook");
  assert.ok(all.every(({ way }) => /^[A-Z].*\.$/.test(way)));
});

test("arrow keys, Home and End turn the pages, and a reader is told the number once", async (t) => {
  const open = await openBench(t, { screen: DESK });
  await open.page.evaluate(() => {
    window.told = [];
    const live = document.querySelector(".bench [aria-live]");
    new MutationObserver(() => window.told.push(live.textContent)).observe(live, { childList: true, characterData: true, subtree: true });
  });
  await open.page.keyboard.press("ArrowRight");
  assert.equal((await open.shown()).name, "Clock angle");
  assert.deepEqual(await open.page.evaluate(() => window.told.length), 1);
  assert.match(await open.page.evaluate(() => window.told[0]), /^Clock angle: 28\.0 °\. .*middle of the pads\.$/);
  await open.page.keyboard.press("ArrowLeft");
  assert.equal(await open.count(), "1 of 19");
  await open.page.keyboard.press("ArrowLeft");
  assert.equal(await open.count(), "1 of 19");
  await open.page.keyboard.press("End");
  assert.equal(await open.count(), "19 of 19");
  await open.choose("Hole to hole");
  assert.equal((await open.shown()).number, "51.0 mm");
  await open.page.keyboard.press("Escape");
  await open.bench.waitFor({ state: "hidden" });
  await open.page.keyboard.press("Home");
  await open.page.getByRole("button", { name: "Bench", exact: true }).click();
  assert.equal((await open.shown()).name, "Hole to hole", "the place is kept, and keys elsewhere do not turn it");
});

test("a swipe to the left goes on, to the right goes back, and a way down does neither", async (t) => {
  if (withoutFingers(browser)) return t.skip(withoutFingers(browser));
  const open = await openBench(t, { screen: PHONE, hasTouch: true });
  const fingers = await fingersOn(open.page);
  const { x, y } = await middleOf(open.bench.locator(".bench-value"));
  const swipe = async (across, down) => {
    await fingers.drag([{ x, y }, { x: x + across, y: y + down }]);
    await fingers.lift();
    return open.count();
  };
  assert.equal(await swipe(-120, 10), "2 of 19");
  assert.equal(await swipe(-120, -20), "3 of 19");
  assert.equal(await swipe(120, 10), "2 of 19");
  assert.equal(await swipe(30, 150), "2 of 19");
});

test("a hit and a refused value are said with the number", async (t) => {
  const open = await openBench(t, { screen: PHONE }, (page) => typeInto(page, "wheel.rotor_diameter", "180"));
  assert.equal((await open.bench.locator(".bench-verdict").innerText()).trim(), "Hits");
  assert.equal((await open.shown()).name, "Overlap");
  await open.page.keyboard.press("Escape");
  await typeInto(open.page, "wheel.hub_width", "abc");
  await untilVerdict(open.page, "Not checked");
  await open.page.getByRole("button", { name: "Bench", exact: true }).click();
  assert.equal((await open.bench.locator(".bench-verdict").innerText()).trim(), "Not checked");
  assert.ok(await open.bench.getByText(/last good values/).isVisible());
  assert.equal((await open.shown()).name, "Overlap");
});

/** A stand-in for the screen, in the page: counts what was asked for and let go. */
function fakeScreen() {
  window.asked = 0;
  window.held = [];
  const request = async () => {
    window.asked += 1;
    if (window.refuses) throw new DOMException("no", "NotAllowedError");
    const lock = new EventTarget();
    lock.release = async () => {
      window.held = window.held.filter((other) => other !== lock);
      lock.dispatchEvent(new Event("release"));
    };
    window.held.push(lock);
    return lock;
  };
  Object.defineProperty(navigator, "wakeLock", { value: { request }, configurable: true });
  window.hide = (isHidden) => {
    Object.defineProperty(document, "visibilityState", { value: isHidden ? "hidden" : "visible", configurable: true });
    if (isHidden) for (const lock of window.held) lock.release();
    document.dispatchEvent(new Event("visibilitychange"));
  };
}

test("the screen is kept on when asked, again after the page was out of sight, and let go when the panel closes", async (t) => {
  const open = await openBench(t, { screen: PHONE }, (page) => page.evaluate(fakeScreen));
  const { page, bench } = open;
  const held = () => page.evaluate(() => window.held.length);
  assert.equal(await page.evaluate(() => window.asked), 0, "not before it is asked for");
  const box = bench.getByRole("checkbox", { name: "Keep the screen on" });
  await box.check();
  await bench.getByText("The screen stays on while this is open.").waitFor();
  assert.equal(await held(), 1);
  await page.evaluate(() => window.hide(true));
  assert.equal(await held(), 0);
  await page.evaluate(() => window.hide(false));
  await bench.getByText("The screen stays on while this is open.").waitFor();
  assert.equal(await held(), 1);
  await page.keyboard.press("Escape");
  await bench.waitFor({ state: "hidden" });
  await untilPainted(page);
  assert.equal(await held(), 0);
  await page.getByRole("button", { name: "Bench", exact: true }).click();
  assert.ok(await box.isChecked(), "it is remembered");
  await bench.getByText("The screen stays on while this is open.").waitFor();
  await box.uncheck();
  await untilPainted(page);
  assert.equal(await held(), 0);
});

test("where the browser refuses or cannot keep the screen on, it says so", async (t) => {
  const open = await openBench(t, { screen: PHONE }, async (page) => {
    await page.evaluate(fakeScreen);
    await page.evaluate(() => { window.refuses = true; });
  });
  const box = open.bench.getByRole("checkbox", { name: "Keep the screen on" });
  await box.check();
  await open.bench.getByText(/does not keep the screen on just now/).waitFor();
  await box.uncheck();
  await open.page.evaluate(() => {
    delete navigator.wakeLock;
    delete Navigator.prototype.wakeLock;
  });
  await box.check();
  await open.bench.getByText(/This browser cannot keep the screen on/).waitFor();
  assert.deepEqual(open.complaints, []);
});

test("the finest step is remembered", async (t) => {
  const open = await openBench(t, { screen: PHONE });
  await open.choose("Hole to hole");
  await open.bench.getByRole("radio", { name: "0.01" }).check();
  assert.equal((await open.shown()).number, "51.00 mm");
  await open.page.reload();
  await open.page.getByRole("button", { name: "Bench", exact: true }).click();
  await open.choose("Hole to hole");
  assert.equal((await open.shown()).number, "51.00 mm");
});
