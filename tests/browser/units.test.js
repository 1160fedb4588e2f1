// Reading and printing of lengths against exact rationals, and the page in inches.
import assert from "node:assert/strict";
import { afterEach, after, before, describe, test } from "node:test";
import { exactLength, lengthAsTyped, lengthDigits, lengthText, readLength, useUnit } from "../../www/js/units.js";
import { SCREENS, inputOf, launch, named, openSearch, openSite, sentence, typeInto, untilPainted } from "./harness.js";

/** An inch is 25.4 mm by definition (international yard and pound agreement, 1959). */
const INCH = [254n, 10n];

/** Exact value of a double. @returns {[bigint, bigint]} */
function rational(double) {
  let bottom = 1n;
  while (!Number.isSafeInteger(double)) [double, bottom] = [double * 2, bottom * 2n];
  return [BigInt(double), bottom];
}

/** |one - other| as a fraction. */
function difference([a, b], [c, d]) {
  const top = a * d - c * b;
  return [top < 0n ? -top : top, b * d];
}

function isLess([a, b], [c, d]) {
  return a * d < c * b;
}

/** The doubles next to one. */
function neighbours(double) {
  const bits = new BigInt64Array(new Float64Array([double]).buffer);
  return [-1n, 1n].map((step) => new Float64Array(new BigInt64Array([bits[0] + step]).buffer)[0]);
}

/**
 * Whether no other double is nearer to the exact length, rounded to a millionth of a millimetre, halves either way.
 * @param {[bigint, bigint]} inches
 */
function assertNearest(read, inches, text) {
  assert.equal(typeof read, "number", text);
  const [top, bottom] = [inches[0] * INCH[0] * 10n ** 6n, inches[1] * INCH[1]];
  const isHalf = (2n * top) % bottom === 0n && top % bottom !== 0n;
  if (isHalf) return;
  const wanted = [(2n * top + bottom) / (2n * bottom), 10n ** 6n];
  const off = difference(rational(read), wanted);
  for (const other of neighbours(read)) {
    assert.ok(!isLess(difference(rational(other), wanted), off), `${text} is read as ${read}, but ${other} is nearer`);
  }
}

afterEach(() => useUnit("mm"));

describe("reading", () => {
  test("whole, mixed and bare fractions of an inch are read to the nearest double", () => {
    for (let whole = 0; whole < 40; whole += 1) {
      for (const bottom of [2, 3, 4, 8, 10, 16, 32, 64, 128]) {
        for (let top = 1; top < bottom; top += 1) {
          const value = [BigInt(whole * bottom + top), BigInt(bottom)];
          for (const text of [`${whole} ${top}/${bottom}"`, `${whole}-${top}/${bottom} in`]) assertNearest(readLength(text), value, text);
        }
      }
      if (whole > 0) assertNearest(readLength(`${whole} in`), [BigInt(whole), 1n], `${whole} in`);
    }
    assertNearest(readLength('3/8"'), [3n, 8n], "3/8");
  });

  test("decimal inches are read to the nearest double", () => {
    for (let thousandths = 1; thousandths < 12_000; thousandths += 7) {
      const text = `${Math.floor(thousandths / 1000)}.${String(thousandths % 1000).padStart(3, "0")}in`;
      assertNearest(readLength(text), [BigInt(thousandths), 1000n], text);
    }
  });

  test("the marks that people type all mean the same", () => {
    const same = ['1 1/4"', "1-1/4 in", "1 1/4 inches", "1 1/4''", "1\u00bc\u2033", "1 \u00bc in.", "1.25in", "1.25 inch", "1,25\u201d", "31.75", "31,75 mm", "31.75mm", " 31.75  "];
    assert.deepEqual(same.map(readLength), same.map(() => 31.75));
    useUnit("in");
    for (const text of ["1.25", "1 1/4", "1\u00bc", "5/4", "31.75 mm", '1 1/4"']) assert.equal(readLength(text), 31.75, text);
    assert.equal(readLength("\u22121/2"), -12.7);
    assert.equal(readLength("-1 1/2"), -38.1);
  });

  test("what is no length stays as typed", () => {
    for (const unit of ["mm", "in"]) {
      useUnit(unit);
      for (const text of ["", "abc", "1/0\"", "1 1/4 1/4\"", "in", "mm", '"', "1e999 in", "NaN", "Infinity", "1 2", "--1", "1//2\"", "0x10", "__proto__"]) {
        assert.equal(readLength(text), text, unit);
      }
    }
    useUnit("mm");
    assert.equal(readLength("1 1/4"), "1 1/4", "a bare fraction is no millimetres");
  });
});

describe("printing", () => {
  /** `1 1/4` as a rational. */
  function value(text) {
    const parts = text.match(/^(?:(\d+) )?(\d+)(?:\/(\d+))?$/);
    assert.ok(parts, text);
    const [, whole = "0", top, bottom = "1"] = parts;
    return [BigInt(whole) * BigInt(bottom) + BigInt(top), BigInt(bottom)];
  }

  test("fractions are the nearest 64th, in lowest terms", () => {
    useUnit("in");
    const half = [1n, 128n];
    for (let microns = 12_700; microns < 400_000; microns += 97) {
      const mm = microns / 1000;
      const text = lengthDigits(mm);
      const [top, bottom] = value(text);
      const [m, d] = rational(mm);
      const off = difference([top, bottom], [m * INCH[1], d * INCH[0]]);
      // Ties may go either way, by what a double can hold.
      assert.ok(isLess(off, [half[0] * 10n ** 12n + 128n, half[1] * 10n ** 12n]), `${mm} mm is ${text}`);
      assert.ok(bottom === 1n || (top % 2n === 1n && 64n % bottom === 0n), text);
    }
  });

  test("every 64th comes back the same through an input", () => {
    useUnit("in");
    for (let parts = 1; parts <= 64 * 14; parts += 1) {
      const mm = (parts * 127) / (64 * 5);
      assert.equal(readLength(lengthAsTyped(mm)), mm);
      assert.match(lengthAsTyped(mm), /^\d+( \d+\/\d+)?$|^\d+\/\d+$/);
    }
  });

  test("a value between the 64ths is off by less than 3 microns", () => {
    useUnit("in");
    for (let tenths = 1; tenths < 4000; tenths += 1) {
      const mm = tenths / 10;
      assert.ok(Math.abs(Number(readLength(lengthAsTyped(mm))) - mm) < 0.003, lengthAsTyped(mm));
    }
  });

  test("each place has as many digits as a builder reads", () => {
    assert.equal(lengthText(31.75), "31.8 mm");
    assert.equal(lengthDigits(-2.149, 2), "\u22122.15");
    assert.equal(exactLength(31.75), "31.75");
    useUnit("in");
    assert.equal(lengthText(31.75), '1 1/4"');
    assert.equal(lengthText(-31.75), '\u22121 1/4"');
    assert.equal(lengthText(2.1), '0.083"');
    assert.equal(lengthDigits(37.03, 2), "1.458");
    assert.equal(exactLength(203), "7.9921");
    assert.equal(lengthAsTyped("1 1/"), "1 1/");
  });
});

describe("the page in inches", () => {
  let browser;
  before(async () => { browser = await launch(); });
  after(() => browser.close());

  async function switchTo(page, unit) {
    await page.locator(`#unit-switch input[value=${unit}]`).check({ force: true });
    await untilPainted(page);
  }

  for (const screen of SCREENS) {
    test(`everything that is a length changes, and nothing else, ${named(screen)}`, async (t) => {
      const { page, complaints } = await openSite(t, browser, { screen });
      const kept = await (await inputOf(page, "fork.tube_diameter")).inputValue();
      assert.equal(kept, "31.75");
      await switchTo(page, "in");
      assert.equal(await (await inputOf(page, "fork.tube_diameter")).inputValue(), "1 1/4");
      assert.equal(await (await inputOf(page, "tab.clock")).inputValue(), "28");
      assert.match(await page.locator("#verdict-summary").innerText(), /0\.098" for 0\.079" wanted/);
      assert.match(await page.locator("#gap-rows td").first().innerText(), /^0\.098$/);
      assert.match(await sentence(page, "Sideways"), /0\.079" of adjustment/);
      assert.match(await page.locator(".picture[data-view=side] svg").innerHTML(), /0\.098"/);
      // What is read out follows a moment later.
      await page.locator("#verdict-live", { hasText: "0.098" }).waitFor({ state: "attached" });
      const text = await page.locator("main").innerText();
      assert.doesNotMatch(text.replace(/Rotors, mm|Hubs, mm|\d+ mm\n/g, "").replace(/^mm$/gm, ""), /\d mm/);
      await openSearch(page, "shortest");
      await page.locator("#shortest", { hasText: 'Tube end' }).waitFor();
      assert.match(await page.locator("#shortest").innerText(), /Tube end 19\/32"|Tube end \d*\s?\d+\/\d+"/);
      await switchTo(page, "mm");
      assert.equal(await (await inputOf(page, "fork.tube_diameter")).inputValue(), "31.75");
      assert.match(await page.locator("#verdict-summary").innerText(), /2\.5 mm for 2\.0 mm wanted/);
      assert.deepEqual(complaints, []);
    });
  }

  test("a fraction can be typed whatever the page's unit, and the choice of unit stays", async (t) => {
    const { page, complaints } = await openSite(t, browser);
    await typeInto(page, "fork.tube_diameter", '1 1/2"');
    assert.equal(await page.evaluate(() => new Promise((done) => {
      setTimeout(() => done(JSON.parse(localStorage.getItem("tabwright-setup")).setup.fork.tube_diameter), 500);
    })), 38.1);
    await switchTo(page, "in");
    await typeInto(page, "fork.tube_diameter", "1 1/8");
    await page.waitForFunction(() => JSON.parse(localStorage.getItem("tabwright-setup")).setup.fork.tube_diameter === 28.575);
    await page.reload();
    await page.locator("#verdict-word:not(:empty)").waitFor();
    assert.equal(await (await inputOf(page, "fork.tube_diameter")).inputValue(), "1 1/8");
    await typeInto(page, "fork.tube_diameter", "1 1/");
    assert.match(await page.locator("#verdict-summary").innerText(), /Tube diameter must be a number from 0\.315 to 3\.543 in, such as 1\.25/);
    assert.equal(await (await inputOf(page, "fork.tube_diameter")).inputValue(), "1 1/");
    assert.deepEqual(complaints, []);
  });

  test("a button's step is a 64th, and a range in the help is in inches", async (t) => {
    const { page } = await openSite(t, browser);
    await switchTo(page, "in");
    await page.getByRole("button", { name: "Hub width: more" }).click();
    await untilPainted(page);
    // 100 mm and a 64th.
    assert.equal(await (await inputOf(page, "wheel.hub_width")).inputValue(), ((100 + 25.4 / 64) / 25.4).toFixed(4));
    await page.getByRole("button", { name: "About: Hub width" }).click();
    assert.match(await page.locator("#wheel-hub_width-help").innerText(), /Allowed: 1\.5748 to 9\.8425 in/);
  });

  test("what was out of sight while the unit was changed says the new one when it is back", async (t) => {
    const { page } = await openSite(t, browser);
    const show = async (panel, ...radios) => {
      await page.locator(`button[data-panel=${panel}]`).click();
      for (const [name, value] of radios) await page.locator(`[name=${name}][value="${value}"]`).check({ force: true });
      await untilPainted(page);
    };
    const hide = () => page.locator("#panel .panel-head button").click();
    const places = [
      ["build", ["build-page", "cut"]], ["build", ["build-page", "load"]], ["build", ["build-page", "tack"], ["tack-part", 0]],
      ["build", ["build-page", "tack"], ["tack-part", 1]], ["build", ["build-page", "tack"], ["tack-part", 2]], ["measure", ["measure-part", "fork"]], ["measure", ["measure-part", "wheel"]],
    ];
    for (const place of places) {
      await show(...place);
      await hide();
    }
    await switchTo(page, "in");
    for (const place of places) {
      await show(...place);
      const marks = await page.locator("#panel [data-length-unit]").allTextContents();
      assert.ok(marks.length > 0 && marks.every((mark) => mark === "in"), `${place.join(" ")}: ${marks.join(" ")}`);
      const keypads = await page.locator("#panel input[data-unit=mm]").evaluateAll((inputs) => inputs.map(({ inputMode }) => inputMode));
      assert.ok(keypads.every((keypad) => keypad === "text"), `${place.join(" ")}: ${keypads.join(" ")}`);
      await hide();
    }
  });

  test("an answer that comes after the unit was changed brings its inputs in the new one", async (t) => {
    const { page } = await openSite(t, browser);
    await page.evaluate(() => {
      const post = Worker.prototype.postMessage;
      const held = [];
      Worker.prototype.postMessage = function (...message) { held.push([this, message]); };
      document.addEventListener("release", () => {
        Worker.prototype.postMessage = post;
        for (const [worker, message] of held) worker.postMessage(...message);
      });
    });
    await page.locator("button[data-panel=build]").click();
    await page.locator("[name=build-page][value=load]").check({ force: true });
    await page.locator(".load-message", { hasText: "Working it out" }).waitFor();
    await page.locator("#panel .panel-head button").click();
    await switchTo(page, "in");
    await page.evaluate(() => document.dispatchEvent(new Event("release")));
    await page.locator("button[data-panel=build]").click();
    await page.locator(".load-group").first().waitFor();
    const marks = await page.locator(".load-group [data-length-unit]").allTextContents();
    assert.ok(marks.length > 0 && marks.every((mark) => mark === "in"), marks.join(" "));
  });
});
