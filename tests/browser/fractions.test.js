// Lengths as they are typed, whatever that is: read as what they say or refused, never something else, in either unit.
import assert from "node:assert/strict";
import { test } from "node:test";
import { exactLength, lengthAsTyped, lengthText, readLength, useUnit } from "../../www/js/units.js";
import { randomNumbers } from "./core.js";

const SEED = 20_261_127;
/** `TABWRIGHT_FUZZ=10` makes ten times as many. */
const TEXTS = 40_000 * Number(process.env.TABWRIGHT_FUZZ ?? 1);
const MM_PER_INCH = 25.4;
/** Inches are written in four decimals where they are no 64ths; in mm, and a little for rounding. */
const HALF_A_TENTH_OF_A_THOU = 0.5e-4 * MM_PER_INCH * 1.001;
/** What a length is put together from, and what comes between. */
const PIECES = [
  "0", "1", "2", "7", "12", "31.8", "1/4", "3/16", "63/64", "1/0", "0/0", "/", "//", ".", ",", "1.", ".5", "-", "\u2212", "+", "e5", "1e999", "1e-400",
  "in", "inch", "inches", '"', "''", "\u2033", "mm", "cm", "m", "ft", " ", "\u00a0", "\u2009", "\t", "\n", "\u00bd", "\u00bc", "\u00be", "\u2044",
  "NaN", "Infinity", "0x10", "1_000", "1 000", "\u0664", "\u202e", "\ud800", "\u0000", "__proto__", "9".repeat(400),
];

test("whatever is typed is a finite length or none, and is read again as it is written", () => {
  const random = randomNumbers(SEED);
  const upTo = (limit) => Math.floor(random() * limit);
  let readable = 0;
  for (let round = 0; round < TEXTS; round++) {
    const text = Array.from({ length: 1 + upTo(6) }, () => PIECES[upTo(PIECES.length)]).join(random() < 0.3 ? " " : "");
    const isInches = random() < 0.5;
    useUnit(isInches ? "in" : "mm");
    const read = readLength(text);
    if (typeof read !== "number") continue;
    readable++;
    assert.ok(Number.isFinite(read), `${JSON.stringify(text)} is read as ${read}`);
    assert.match(text, /\d|[\u00bc-\u00be]/u, "a length has a figure in it");
    for (const write of [exactLength, lengthAsTyped]) {
      const again = readLength(write(read));
      const most = isInches ? HALF_A_TENTH_OF_A_THOU : 1e-6;
      if (Math.abs(read) < 1e6) assert.ok(Math.abs(again - read) <= most, `${text}: ${read}, written ${write(read)}, read ${again}`);
    }
    assert.equal(typeof lengthText(read), "string");
  }
  useUnit("mm");
  assert.ok(readable > TEXTS / 50, `${readable} were readable`);
});

test("every length of whole, fraction and unit that a tape or a drawing shows is read as what it is", () => {
  // By hand: the whole inches and the fraction of one, times 25.4 mm (the international inch, 1959).
  for (const unit of ["mm", "in"]) {
    useUnit(unit);
    for (const [parts, count] of [[2, 2], [4, 4], [8, 8], [16, 16], [32, 32], [64, 64]]) {
      for (let over = 1; over < count; over++) {
        for (const whole of [0, 1, 12]) {
          const expected = (whole + over / parts) * MM_PER_INCH;
          for (const mark of ['"', "in", " in"]) {
            const text = `${whole ? `${whole} ` : ""}${over}/${parts}${mark}`;
            assert.ok(Math.abs(readLength(text) - expected) < 1e-9, `${text} is ${readLength(text)}, not ${expected}`);
          }
        }
      }
    }
    for (const bad of ["1/0\"", "0/0 in", "1//4\"", "1/4/2\"", "in", "\"", "mm", "", " ", "1 1/4 1/4\"", "NaN", "Infinity", "0x10", "1e999"]) {
      const read = readLength(bad);
      assert.ok(read === null || read === undefined || Number.isNaN(read) || typeof read === "string", `${JSON.stringify(bad)} is read as ${read}`);
    }
  }
  useUnit("mm");
});
