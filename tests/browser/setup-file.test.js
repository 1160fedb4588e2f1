// Reading and writing a setup's file, without a browser but with the page's own core: nothing makes the reader fall over.
import assert from "node:assert/strict";
import { readFile, readdir } from "node:fs/promises";
import { before, test } from "node:test";
import { valueAt, withValueAt } from "../../www/js/path.js";
import { fileName, fileText } from "../../www/js/setups/file.js";
import { inspected, rawText } from "../../www/js/setups/kept.js";
import { MOST_CHARS, readData, readText } from "../../www/js/setups/read.js";
import { coreInNode, randomNumbers } from "./core.js";

const FIXTURES = new URL("../../fixtures/", import.meta.url);
const SEED = 20_261_125;
/** `TABWRIGHT_FUZZ=10` makes ten times as many. */
const TIMES = Number(process.env.TABWRIGHT_FUZZ ?? 1);
const TEXTS = 20_000 * TIMES;
const TREES = 1_000 * TIMES;
/** What may stand anywhere in a tree that somebody made up. */
const ODDITIES = [
  null, true, false, 0, -1, 1e308, 5e-324, -0, 90, 203, 1e21, "", "203", "left", "post", "\u0000", "x".repeat(400), [], {}, [[[]]],
  [1, 2, 3], [[1, 2], [3, 4]], { wheel: {} }, { length: 3 }, { "": 1 },
];
let core;
let fixture;
let defaultText;

before(async () => {
  core = await coreInNode();
  fixture = (path) => readFile(new URL(path, FIXTURES), "utf8");
  defaultText = await fixture("setups/default.json");
});

/** A reading with a setup that the core takes. */
function opened(text) {
  const reading = readText(text, core);
  assert.ok(reading.ok, reading.message);
  assert.ok(core.report(reading.setup).ok);
  return reading;
}

test("what is saved opens as the same setup, and the strict reader takes it as it is", () => {
  const setup = withValueAt(withValueAt(core.defaultSetup(), "name", "Cargo trike"), "fork.tube_gap", 140.25);
  const text = fileText(setup);
  assert.ok(core.report(JSON.parse(text)).ok);
  assert.deepEqual(opened(text), { ok: true, setup, remarks: [], parts: [] });
  assert.match(text, /\n {6}\[-25\.5, 26\],\n/, "a point stands in one line");
});

test("with parts the setup and they stand side by side, and both come back", () => {
  const parts = [{ id: "a", name: "Hub", changed: 1, data: { width: 100 } }];
  const reading = opened(fileText(core.defaultSetup(), parts));
  assert.deepEqual(reading.parts, parts);
  assert.deepEqual(reading.remarks, []);
  const alone = readText(JSON.stringify({ parts }), core);
  assert.deepEqual(alone, { ok: true, setup: null, remarks: [], parts });
});

test("file names keep to letters, figures and dashes", () => {
  const named = (name, rotor = 203) => fileName(withValueAt(withValueAt(core.defaultSetup(), "name", name), "wheel.rotor_diameter", rotor));
  assert.equal(named("Cargo trike"), "tabwright-cargo-trike-203-100.json");
  assert.equal(named("  "), "tabwright-203-100.json");
  assert.equal(named("Überlader №2, vorn"), "tabwright-uberlader-no2-vorn-203-100.json");
  assert.equal(named("../../etc/passwd\0", 203.5), "tabwright-etc-passwd-203.5-100.json");
  assert.equal(named("三輪車"), "tabwright-203-100.json");
  assert.match(named("x".repeat(80)), /^tabwright-x{40}-203-100\.json$/);
});

test("every published setup opens without a remark", async () => {
  for (const file of await readdir(new URL("setups/", FIXTURES))) {
    assert.deepEqual(opened(await fixture(`setups/${file}`)).remarks, [], file);
  }
});

test("of a broken file all that can be read is taken over, and the rest is told with field, value and range", async () => {
  const { setup, remarks } = opened((await fixture("broken/out-of-range.json")).replace('"hub_width": 100', '"hub_width": 115'));
  assert.equal(setup.wheel.hub_width, 115);
  assert.equal(setup.wheel.rotor_diameter, core.defaultSetup().wheel.rotor_diameter);
  const rotor = remarks.find(({ field }) => field === "wheel.rotor_diameter");
  assert.match(rotor.message, /^Rotor size is 2030, above what can be worked out\. Give 90 to 320 mm\./);
  assert.equal(rotor.value, "2030");
  assert.deepEqual(remarks.map(({ field }) => field).sort(), ["fork.tube_gap", "wheel.rotor_diameter"]);

  const typed = opened(await fixture("broken/text-for-number.json"));
  assert.deepEqual(typed.remarks.map(({ field }) => field), ["wheel.rotor_diameter"]);
  const extra = opened(await fixture("broken/unknown-field.json"));
  assert.deepEqual(extra.remarks.map(({ field }) => field), ["wheel.rotor_colour"]);
});

test("text that is no JSON is refused with its line and what stands there, the same in every browser", async () => {
  const refusal = async (path) => {
    const reading = readText(await fixture(path), core);
    assert.equal(reading.ok, false);
    return reading.message;
  };
  assert.match(await refusal("broken/not-a-number.json"), /line 6 cannot be read: "hub_width": NaN,/);
  assert.match(await refusal("broken/truncated.json"), /ends too early, in line 57\./);
});

test("a fault in the text is found on its line", () => {
  // Lines by hand, after RFC 8259: the first character at which no JSON text can go on.
  const cases = [
    ['{\n"a": 1,\n}', 3], ['{\n"a": 1\n"b": 2}', 3], ['[1,\n2,\n,3]', 3], ['{"a":\n01}', 2], ['{\n\'a\': 1}', 2], ['{"a": "x\ny"}', 1],
    ['[1]\n[2]', 2], ['{"a":\n tru}', 2], ['["\\x"\n]', 1], ['[\n1.]', 2], ['[\n+1]', 2], ['{"a"\n1}', 2], ["[1}\n", 1], ['{"a": 1,\n "b"}', 2],
  ];
  for (const [text, line] of cases) {
    assert.throws(() => JSON.parse(text), SyntaxError);
    assert.match(readText(text, core).message, new RegExp(`line ${line} cannot be read`), text);
  }
  for (const text of ["{", '{"a"', '["x', "[1,", '{"a": {\n'] ) assert.match(readText(text, core).message, /ends too early/, text);
});

test("what cannot be a setup is refused in words and changes nothing", () => {
  const cases = [
    ["", /nothing in it/], ["  \n", /nothing in it/], ["null", /no setup in it/], ["[]", /no setup in it/], ["7", /no setup in it/],
    ["{}", /none of its fields/], ['{"a": {"b": 1}}', /none of its fields/], ['{"version": 2, "name": "x"}', /version 2.*version 1/],
    ['{"setup": 7}', /no setup in it/], ['{"parts": []}', /neither a setup nor a part/], ["x".repeat(MOST_CHARS + 1), /limit is 1000 kB/],
  ];
  for (const [text, words] of cases) {
    const reading = readText(text, core);
    assert.equal(reading.ok, false, text.slice(0, 40));
    assert.match(reading.message, words);
  }
});

test("fields that do not go together give way one by one, never the whole", () => {
  const json = JSON.parse(defaultText);
  json.wheel.hub_width = 40;
  json.wheel.axle_diameter = 10;
  const { setup, remarks } = opened(JSON.stringify(json));
  assert.equal(setup.wheel.axle_diameter, 10);
  assert.ok(remarks.some(({ field, message }) => field === "wheel.flange_inset" && /half the hub width/.test(message)), JSON.stringify(remarks));
  assert.ok(remarks.some(({ field }) => field === "wheel.hub_width"));
});

test("deep, long, inherited and polluting members do no harm", () => {
  const deep = `${"[".repeat(100_000)}${"]".repeat(100_000)}`;
  const long = "y".repeat(900_000);
  const member = (path, text) => defaultText.replace(`"${path}": `, `"${path}": ${text}, "was": `);
  for (const text of [
    deep, `{"wheel": ${deep}}`, `{"name": "${long}"}`, member("name", `"${long}"`), member("wheel", deep), member("rotor_diameter", `{"a": ${deep}}`),
    '{"__proto__": {"polluted": 1}, "name": "x"}', '{"constructor": {"prototype": {"polluted": 1}}, "name": "x"}',
    '{"wheel": {"__proto__": {"polluted": 1, "hub_width": 55}}, "name": "x"}', '{"setup": {"__proto__": {"name": "x"}}}',
    '{"wheel": {"hub_width": 1e999}, "name": "x"}', `{"${long}": 1, "name": "x"}`, `[${"1,".repeat(300_000)}1]`,
  ]) {
    const reading = readText(text, core);
    if (reading.ok) assert.ok(core.report(reading.setup).ok, text.slice(0, 60));
    assert.ok(JSON.stringify(reading).length < 40_000, "words stay short");
  }
  assert.equal({}.polluted, undefined);
  const inherited = readText('{"wheel": {"__proto__": {"hub_width": 55}}, "name": "x"}', core);
  assert.equal(inherited.setup.wheel.hub_width, core.defaultSetup().wheel.hub_width);
});

test("whatever becomes of the text, it is refused in words or gives a usable setup", () => {
  const random = randomNumbers(SEED);
  const upTo = (limit) => Math.floor(random() * limit);
  const bits = ["{", "}", "[", "]", ",", ":", '"', "\\", "-", "1e999", "null", "NaN", "\n", "\u0000", "\ud800", "__proto__", "9".repeat(40)];
  let usable = 0;
  for (let round = 0; round < TEXTS; round++) {
    let text = defaultText;
    for (let changes = 1 + upTo(3); changes > 0; changes--) {
      const at = upTo(text.length);
      const cut = random() < 0.5 ? upTo(4) : 0;
      // Figures and letters for each other keep it JSON; anything else mostly does not.
      const put = random() < 0.2 ? String(upTo(10)) : bits[upTo(bits.length)];
      text = text.slice(0, at) + put + text.slice(at + cut);
    }
    const reading = readText(text, core);
    if (reading.ok) {
      usable++;
      assert.ok(core.report(reading.setup).ok, text);
    } else assert.ok(reading.message.length > 20 && reading.message.length < 400, reading.message);
  }
  assert.ok(usable > TEXTS / 200, `${usable} were usable`);
});

/** One value anywhere in the tree taken out, replaced, doubled or moved. */
function changed(data, random) {
  if (typeof data !== "object" || data === null || random() < 0.15) return structuredClone(ODDITIES[Math.floor(random() * ODDITIES.length)]);
  const keys = Object.keys(data);
  const key = keys[Math.floor(random() * keys.length)];
  const copy = structuredClone(data);
  const kind = random();
  if (key === undefined || kind < 0.05) {
    const name = ["__proto__", "constructor", "toString", "x"][Math.floor(random() * 4)];
    if (!Array.isArray(copy)) Object.defineProperty(copy, name, { value: ODDITIES[Math.floor(random() * ODDITIES.length)], enumerable: true, configurable: true });
  } else if (kind < 0.15) {
    if (Array.isArray(copy)) copy.splice(Number(key), 1);
    else delete copy[key];
  } else if (kind < 0.2 && Array.isArray(copy)) copy.push(...copy);
  else if (typeof copy[key] === "number" && kind < 0.9) copy[key] = copy[key] * (random() * 6 - 1);
  else copy[key] = changed(copy[key], random);
  return copy;
}

test("whatever stands in the tree, it is refused in words or gives a usable setup, told in full", () => {
  const random = randomNumbers(SEED + 1);
  const whole = JSON.parse(defaultText);
  const fields = core.fields().flatMap((group) => group.fields);
  let usable = 0;
  for (let round = 0; round < TREES; round++) {
    let data = whole;
    for (let changes = 1 + Math.floor(random() * 4); changes > 0; changes--) data = changed(data, random);
    const told = JSON.stringify(data);
    const reading = readData(data, core);
    assert.equal(JSON.stringify(data), told, "what was given stays as it is");
    if (!reading.ok) continue;
    usable++;
    assert.ok(reading.setup === null || core.report(reading.setup).ok, told);
    if (reading.remarks.length > 0 || reading.setup === null) continue;
    for (const { key, optional, default: usual } of fields) {
      const given = valueAt(data, key);
      assert.deepEqual(valueAt(reading.setup, key) ?? null, (given === undefined && optional ? usual : given) ?? null, `${key} of ${told}`);
    }
  }
  assert.ok(usable > TREES / 4, `${usable} were usable`);
});

test("a record that is damaged in any way is shown as such, and its text can be had", () => {
  const sound = { id: "a", name: "One", changed: 1, data: core.defaultSetup() };
  assert.equal(inspected(sound, core).fault, undefined);
  const knot = { id: "a", name: "Knot", changed: 1 };
  knot.data = knot;
  for (const record of [
    null, 7, "text", [], {}, { id: 3 }, { ...sound, name: 5 }, { ...sound, name: "" }, { ...sound, changed: "now" }, { ...sound, changed: 1e300 },
    { ...sound, data: null }, { ...sound, data: new Map() }, { ...sound, data: 5n }, { ...sound, data: { ...sound.data, wheel: [] } }, knot,
    { ...sound, data: new Date() }, { ...sound, changed: NaN },
  ]) {
    const item = inspected(record, core);
    assert.equal(typeof item.fault, "string");
    assert.ok(item.name.length > 0 && item.name.length <= 100);
    assert.equal(typeof rawText(record), "string");
  }
});
