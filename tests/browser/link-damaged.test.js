// Whatever becomes of a link on its way, it is read without a fault; against the real core, without a page.
import assert from "node:assert/strict";
import { test } from "node:test";
import { hasForm } from "../../www/js/adopt.js";
import { valueAt } from "../../www/js/path.js";
import { ASKED, BASE, chance, core, fields, fragmentOf, read, readFreely, setups, writer } from "./codec.js";
import { THOROUGH } from "./harness.js";

const MUTATIONS = Number(process.env.TABWRIGHT_LINK_MUTATIONS ?? (THOROUGH ? 250_000 : 60_000));
const LETTERS = [..."&=#%;,/.-_+0123456789eEvxyz \u2212\ud83d\ude00\u0000<>\"'ABab"];

/** A text with one to four accidents. */
function mutated(text, other, random) {
  let made = text;
  for (let count = 1 + Math.floor(random() * 4); count > 0; count -= 1) {
    const [from, to] = [random(), random()].map((share) => Math.floor(share * (made.length + 1))).sort((one, two) => one - two);
    const letter = LETTERS[Math.floor(random() * LETTERS.length)];
    switch (Math.floor(random() * 7)) {
      case 0: made = made.slice(0, from) + String.fromCharCode(made.charCodeAt(from) ^ (1 << Math.floor(random() * 7))) + made.slice(from + 1); break;
      case 1: made = made.slice(0, from) + made.slice(to); break;
      case 2: made = made.slice(0, from) + letter + made.slice(from); break;
      case 3: made = made.slice(to) + made.slice(from, to) + made.slice(0, from); break;
      case 4: made = made.slice(0, to) + made.slice(from); break;
      case 5: made = made.slice(0, from) + other.slice(from); break;
      case 6: made = made.slice(0, from); break;
    }
  }
  return made;
}

test(`${MUTATIONS} damaged links are read without a fault, into a setup that the page can hold`, () => {
  const random = chance(99);
  const source = setups(random);
  const links = [
    ...Array.from({ length: 60 }, () => fragmentOf(writer.links(source.next(0.05), BASE).link)),
    ...Array.from({ length: 4 }, () => fragmentOf(writer.links(source.next(1), BASE).link)),
  ];
  const pick = () => links[Math.floor(random() * links.length)];
  let silent = 0;
  for (let index = 0; index < MUTATIONS; index += 1) {
    const fragment = mutated(pick(), pick(), random);
    const isAsked = index % ASKED === 0;
    const { setup, remarks } = (isAsked ? read : readFreely)(fragment);
    if (setup === null) continue;
    assert.ok(remarks.every((remark) => typeof remark === "string" && remark.length < 500), fragment);
    const misshapen = fields.find((field) => !hasForm(valueAt(setup, field.key), field));
    assert.equal(misshapen, undefined, `${misshapen?.key} of ${fragment}`);
    if (isAsked) assert.ok(core.report(setup).ok, fragment);
    silent += Number(remarks.length === 0);
  }
  console.log(`${silent} of ${MUTATIONS} without a remark: the damage made another whole link`);
});
