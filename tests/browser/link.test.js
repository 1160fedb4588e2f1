// Links hold any setup exactly, stay short, mean the same for ever, and never fall over; against the real core, without a page.
import assert from "node:assert/strict";
import { readdirSync } from "node:fs";
import { test } from "node:test";
import { VERSION, defaultsOf, fieldsOf } from "../../www/js/link/versions.js";
import { createReader } from "../../www/js/link/read.js";
import { MOST_CHARS } from "../../www/js/link/write.js";
import { valueAt, withValueAt } from "../../www/js/path.js";
import { ASKED, BASE, chance, core, fields, fixture, fixturesFolder, fragmentOf, read, readFreely, setups, writer } from "./codec.js";
import { THOROUGH } from "./harness.js";

const ROUND_TRIPS = Number(process.env.TABWRIGHT_LINK_SETUPS ?? (THOROUGH ? 10_000 : 4_000));
const CHANGED_DEFAULT = `The defaults, or the fields, are no longer those of fixtures/links/defaults-${VERSION}.json, and links sent before would
mean something else. In www/js/link/versions.js raise VERSION to ${VERSION + 1} and add to OLDER[${VERSION}] the old defaults and the new
fields; then write the new defaults to fixtures/links/defaults-${VERSION + 1}.json. Leave the files of older versions as they are.`;

const json = (path) => JSON.parse(fixture(path));
const withChanges = (setup, changes) => Object.entries(changes).reduce((made, [path, value]) => withValueAt(made, path, value), setup);
/** A setup as the core gives it: what may be left out is nothing. */
const whole = (setup) => withValueAt(setup, "caliper.bolt_direction", setup.caliper.bolt_direction ?? null);
/** A setup as it was given in the time of a version, with the fields that came later at their defaults. */
const withLater = (setup, version) => {
  const known = fieldsOf(version, fields);
  const later = fields.filter((field) => !known.includes(field));
  return withChanges(whole(setup), Object.fromEntries(later.map(({ key }) => [key, valueAt(core.defaultSetup(), key)])));
};
const changed = (changes) => withChanges(core.defaultSetup(), changes);

test("the defaults of each version are frozen", () => {
  assert.deepEqual(core.defaultSetup(), whole(json(`links/defaults-${VERSION}.json`)), CHANGED_DEFAULT);
  for (let version = 1; version <= VERSION; version += 1) {
    assert.deepEqual(defaultsOf(version, core.defaultSetup()), withLater(json(`links/defaults-${version}.json`), version), `version ${version}`);
  }
});

for (const name of readdirSync(`${fixturesFolder}links`).filter((name) => name.endsWith(".txt"))) {
  test(`the old link ${name} means what it meant`, () => {
    const [, link, changes] = fixture(`links/${name}`).match(/^(.*)\n([^]*)$/);
    const version = Number(name.split("-")[0]);
    const defaults = withLater(json(`links/defaults-${version}.json`), version);
    const { setup, remarks } = read(link);
    assert.deepEqual(remarks, []);
    assert.deepEqual(setup, withChanges(defaults, JSON.parse(changes)));
  });
}

test("a link made before a default was changed, or a field added, means what it meant", () => {
  const before = fragmentOf(writer.links(changed({ "wheel.rotor_diameter": 180 }), BASE).link);
  const later = { ...core, defaultSetup: () => changed({ "wheel.hub_width": 135, "tab.clock": 40 }) };
  const older = { 1: { defaults: { "wheel.hub_width": 120 }, absent: [] }, 2: { defaults: { "wheel.hub_width": 100, "tab.clock": 28 }, absent: ["load.weld.leg"] } };
  const opened = (version) => createReader(later, older)(before.replace(`v=${VERSION}`, `v=${version}`)).setup;
  assert.deepEqual(opened(2), changed({ "wheel.rotor_diameter": 180 }));
  assert.deepEqual(opened(1), changed({ "wheel.rotor_diameter": 180, "wheel.hub_width": 120 }));
  assert.deepEqual(opened(3), changed({ "wheel.rotor_diameter": 180, "wheel.hub_width": 135, "tab.clock": 40 }));
});

test("a link names in plain what differs, and nothing else", () => {
  const { link } = writer.links(changed({ "tab.clock": 45.5, "caliper.holes": [[-37, 12], [37, 12]], name: "A & B" }), BASE);
  assert.equal(link, `${BASE}#v=${VERSION}&name=A%20%26%20B&caliper.holes=-37,12;37,12&tab.clock=45.5&end=1`);
  assert.equal(writer.links(core.defaultSetup(), BASE).link, `${BASE}#v=${VERSION}&end=1`);
});

test("what messengers and mail programs do to a link is forgiven", () => {
  const meant = changed({ "tab.clock": 45.5, "caliper.holes": [[-37, 12], [37, 12]], "wheel.rotor_diameter": 180, name: "50% a+b, c" });
  const link = "#v=1&name=50%25%20a%2Bb,%20c&wheel.rotor_diameter=180&caliper.holes=-37,12;37,12&tab.clock=45.5&end=1";
  const done = {
    nothing: link,
    "other order": "#end=1&tab.clock=45.5&caliper.holes=-37,12;37,12&name=50%25%20a%2Bb,%20c&wheel.rotor_diameter=180&v=1",
    "commas and semicolons in letters": link.replaceAll(",", "%2C").replaceAll(";", "%3b"),
    "the values' escapes escaped": link.replace("-37,12;37,12", "%2D37%252C12%253B37%252C12"),
    "all in letters": `#${encodeURIComponent(link.slice(1))}`,
    "all in letters twice": `#${encodeURIComponent(encodeURIComponent(link.slice(1)))}`,
    "in markup": link.replaceAll("&", "&amp;"),
    "in markup by number": link.replaceAll("&", "&#38;"),
    "at the end of a sentence": `${link}.`,
    "in brackets and quotes": `${link}")`,
    "with a line after it": `${link}%0A%20`,
    "with spaces": ` ${link.replaceAll("&", " &").replaceAll("=", "= ")} `.replace("name= ", "name="),
    "doubled ampersands": link.replaceAll("&", "&&"),
    "a true minus and a decimal comma": link.replace("=-37", "=\u221237").replace("45.5", "45,5"),
  };
  for (const [what, fragment] of Object.entries(done)) {
    // With spaces before an ampersand the name, which is free text, keeps its own.
    const expected = what === "with spaces" ? { ...meant, name: "50% a+b, c " } : meant;
    assert.deepEqual(read(fragment), { setup: expected, remarks: [] }, what);
  }
});

test("what cannot be read is told with key, value, reason and what stands instead, and the rest is kept", () => {
  const cases = [
    ["wheel.rotor_diameter=abc", /Rotor size, "abc" \(wheel\.rotor_diameter\), is not a number; the example value, 203, stands instead/],
    ["wheel.rotor_diameter=1e999", /is not a number/],
    ["wheel.rotor_diameter=", /is not a number/],
    ["wheel.rotor_diameter", /is not a number/],
    ["wheel.rotor_diameter=0x90", /is not a number/],
    ["wheel.rotor_diameter=20", /Rotor size is 20, below what can be worked out\. Give 90 to 320 mm\. So .* left out; the example value, 203, stands instead/],
    ["wheel.rotor_diameter=%zz", /"%zz".* has a broken % in it/],
    ["wheel.rotor_diameter=%ff", /has a broken % in it/],
    ["wheel.rotor_colour=red", /"wheel\.rotor_colour", which is no value of a setup; it was left out/],
    ["__proto__=1", /"__proto__", which is no value/],
    ["constructor.x=1", /"constructor\.x", which is no value/],
    ["wheel=1", /"wheel", which is no value/],
    ["version=1", /"version", which is no value/],
    ["side=up", /Brake side, "up" \(side\), is none of left, right; the example value, left, stands/],
    ["dropout.closed=true", /is neither yes nor no; the example value, no, stands/],
    ["caliper.holes=1,2", /needs two points/],
    ["caliper.holes=1,2;3", /needs 2 numbers with commas/],
    ["caliper.line.exit=1,2", /needs 3 numbers/],
    ["caliper.line.exit=none", /needs 3 numbers/],
    ["caliper.line.direction=0,0,0", /points nowhere/],
    ["caliper.bodies=a,1", /needs name, inboard, outboard/],
    ["caliper.bodies=a,1,2,welded;0,0;4,0;4,3", /needs name, inboard/],
    ["caliper.bodies=a,1,2;0,0;4,0;4,3;2,x", /is not a number/],
    ["caliper.bodies=a,1,2;0,0;4,0", /must be 3 to 24 corners/],
    [`name=${"x".repeat(81)}`, /Name is too long\. Keep it to 80 characters\. .*it stays empty/],
    ["name=%00", /control character/],
    // By themselves both are in range; together they are not, and the one that stands in the link is to blame.
    ["fork.tube_diameter=8&fork.tube_wall=5", /Tube wall is 5\.0 mm, but must stay below half/],
    ["wheel.hub_width=40&wheel.flange_inset=30", /Flange inset is 30\.0 mm, but must stay below/],
    ["caliper.mount=post", /Bolt direction is missing.*So the link's Mount is left out; the example value, side_lug/],
  ];
  for (const [item, reason] of cases) {
    const { setup, remarks } = read(`#v=1&tab.clock=45.5&${item}&tab.reach=1&end=1`);
    assert.match(remarks.join("\n"), reason, item);
    assert.ok(remarks.length >= 1 && remarks.length <= 2, `${item}: ${remarks.join("\n")}`);
    assert.equal(setup.tab.clock, 45.5, item);
    assert.equal(setup.tab.reach, 1, item);
    assert.ok(core.report(setup).ok, item);
  }
  assert.match(read("#v=1&tab.clock=1&tab.clock=2&end=1").remarks[0], /"tab\.clock" more than once; the first stands/);
  assert.equal(read("#v=1&tab.clock=1&tab.clock=2&end=1").setup.tab.clock, 1);
});

test("a version that is newer, none or missing is told and the rest is read", () => {
  const opened = (start) => read(`#${start}tab.clock=45.5&end=1`);
  const newer = `v=${VERSION + 1}`;
  assert.match(opened(`${newer}&`).remarks[0], new RegExp(`newer version of this page \\(link version ${VERSION + 1}, this one reads ${VERSION}\\)`));
  assert.match(opened("v=0&").remarks[0], /version, "0", is none/);
  assert.match(opened("v=x&").remarks[0], /version, "x", is none/);
  assert.match(opened("").remarks[0], /does not say of which version/);
  for (const start of [`${newer}&`, "v=0&", "v=x&", ""]) assert.equal(opened(start).setup.tab.clock, 45.5);
  const [link] = fixture("links/1-packed.txt").split("\n");
  assert.match(read(link.replace("v=1", newer)).remarks[1], /packed part is of that newer version/);
});

test("a link of far too many letters is refused at once", () => {
  const { setup, remarks } = read(`#v=1&name=${"x".repeat(8000)}&end=1`);
  assert.equal(setup, null);
  assert.match(remarks[0], /8016 characters, more than any link/);
});

test("a link cut short or with a letter changed in its packed part never passes for whole", () => {
  const readable = fixture("links/1-trike.txt").split("\n")[0];
  const packed = fixture("links/1-packed.txt").split("\n")[0];
  for (const link of [readable, packed]) {
    for (let length = 1; length < link.length; length += 1) {
      assert.notDeepEqual(readFreely(link.slice(0, length)).remarks, [], link.slice(0, length));
    }
  }
  for (let index = "#v=1&packed=".length; index < packed.length; index += 1) {
    for (const letter of "Aa0_-Zz") {
      if (letter === packed[index]) continue;
      assert.notDeepEqual(readFreely(packed.slice(0, index) + letter + packed.slice(index + 1)).remarks, [], `${letter} at ${index}`);
    }
  }
  // The last value before a cut may itself be cut: 180 must not become 18.
  assert.equal(readFreely("#v=1&tab.clock=45.5&tab.reach=1").setup.tab.reach, 0);
});

test("numbers come back to the last bit", () => {
  const numbers = [0.1 + 0.2, 1 / 3, 5e-324, 2.2250738585072014e-308, -0, 1e-7, 33.333333333333336, 2 ** -30, 39.99999999999999, -39.99, 0.005, 1.005];
  for (const number of numbers) {
    const setup = changed({ "tab.offset": number, "caliper.holes": [[number, 1], [60, number]], name: "x".repeat(80) });
    const { link, shortest } = writer.links(setup, BASE);
    for (const address of [link, shortest]) assert.ok(Object.is(read(fragmentOf(address)).setup.tab.offset, number), `${number}: ${address}`);
    for (const address of [link, shortest]) assert.deepEqual(read(fragmentOf(address)), { setup, remarks: [] });
  }
});

test("the longest setup that the core accepts still fits", () => {
  const random = chance(7);
  const long = (low, high) => low + (high - low) * (0.1 + 0.8 * random());
  const awkward = "\u{10ffff}";
  let setup = core.defaultSetup();
  for (const field of fields) {
    if (field.kind === "number") {
      const number = long(...field.plausible);
      setup = withValueAt(setup, field.key, field.decimals === null ? number : Number(number.toFixed(field.decimals)));
    }
    if (field.kind === "choice") setup = withValueAt(setup, field.key, field.choices.at(-1).value);
    if (field.kind === "readings") setup = withValueAt(setup, field.key, Array.from({ length: 3 }, () => Number(long(...field.hard).toFixed(3))));
    if (field.kind === "points") setup = withValueAt(setup, field.key, [0, 1].map(() => [0, 1].map(() => Number(long(-300, 300).toFixed(field.decimals ?? 15)))));
    if (field.kind === "vector") setup = withValueAt(setup, field.key, [0, 1, 2].map(() => long(-300, 300)));
  }
  const corners = [0, 1, 2, 3, 4, 5].map((index) => [index, index + 0.5].map((turn) => Number((299.99 * Math.cos(turn)).toFixed(6))));
  const outline = [[10.123457, 0.234561], [200.123456, 1.654321], [299.123457, 90.123456], [280.123456, 270.123456], [150.123456, 299.999999], [-5.123456, 200.123456]];
  assert.equal(corners.length, outline.length);
  setup = withChanges(setup, {
    name: awkward.repeat(30),
    "dropout.closed": true,
    "caliper.holes": [[-33.333333333333336, 17.123456789012345], [36.66666666666667, 18.987654321098765]],
    "caliper.bodies": Array.from({ length: 8 }, (_, index) => ({ name: awkward.repeat(index < 6 ? 3 : 2), outline, inboard: 299.999999, outboard: 299.999998, bolted: true })),
  });
  assert.deepEqual(core.report(setup).errors ?? [], []);
  const { link } = writer.links(setup, BASE);
  console.log(`the longest link: ${link.length} characters, ${link.length - BASE.length} of them after the address`);
  assert.ok(link.length <= MOST_CHARS, `${link.length}`);
  assert.deepEqual(read(fragmentOf(link)), { setup, remarks: [] });
});

test(`${ROUND_TRIPS} setups over the whole ranges come back exactly from links that stay short`, () => {
  const random = chance(20_240_817);
  const source = setups(random);
  const shares = [0.02, 0.1, 0.3, 1];
  const lengths = shares.map(() => []);
  for (let index = 0; index < ROUND_TRIPS; index += 1) {
    const setup = source.next(shares[index % shares.length]);
    if (index % ASKED === 0) assert.deepEqual(core.report(setup).errors ?? [], []);
    const { link, shortest } = writer.links(setup, BASE);
    assert.ok(shortest.length <= link.length && link.length <= MOST_CHARS, link);
    lengths[index % shares.length].push(link.length);
    for (const address of link === shortest ? [link] : [link, shortest]) {
      const opened = (index % ASKED === 0 ? read : readFreely)(fragmentOf(address));
      assert.deepEqual(opened.remarks, [], address);
      assert.deepEqual(opened.setup, setup, address);
    }
  }
  shares.forEach((share, index) => {
    const sorted = lengths[index].sort((one, other) => one - other);
    const at = (part) => sorted[Math.floor(part * (sorted.length - 1))];
    console.log(`${share * 100} % of the fields changed: link of ${at(0)} to ${at(1)} characters, median ${at(0.5)}, p99 ${at(0.99)}`);
  });
});
