// The published JSON Schema, put before a validator that knows nothing of this project, judges as the core does.
import assert from "node:assert/strict";
import { readFile, readdir } from "node:fs/promises";
import { before, test } from "node:test";
import Ajv from "ajv/dist/2020.js";
import { withValueAt } from "../../www/js/path.js";
import { fileText } from "../../www/js/setups/file.js";
import { coreInNode, randomNumbers } from "./core.js";

const FIXTURES = new URL("../../fixtures/", import.meta.url);
const SEED = 20_261_126;
const DRAWS = 300;
/** Such problems come from one field by itself, which is what a schema can know of. */
const OF_ONE_FIELD = /what can be worked out|must be|is missing|is not a field|is not part of a body|is too long|control character|has no "/;
let core;
let judge;
let fields;
let defaults;

before(async () => {
  core = await coreInNode();
  fields = core.fields().flatMap((group) => group.fields);
  defaults = JSON.parse(await readFile(new URL("setups/default.json", FIXTURES), "utf8"));
  const schema = JSON.parse(await readFile(new URL("../../www/setup.schema.json", import.meta.url), "utf8"));
  const ajv = new Ajv({ allErrors: true, strict: true, allowUnionTypes: false });
  assert.ok(ajv.validateSchema(schema), "the schema is one itself");
  judge = ajv.compile(schema);
});

/** Dotted paths of the fields that the validator refuses; what lies inside a list is its list's. */
function refusedBySchema(setup) {
  judge(setup);
  const paths = (judge.errors ?? []).map(({ instancePath, params }) => [
    ...instancePath.split("/").slice(1),
    ...[params.missingProperty ?? params.additionalProperty ?? []].flat(),
  ].join("."));
  return asFields(paths);
}

function refusedByCore(setup) {
  const answer = core.report(setup);
  return asFields(answer.ok ? [] : answer.errors.filter(({ message }) => OF_ONE_FIELD.test(message)).map(({ field }) => field));
}

function asFields(paths) {
  const whole = (path) => fields.find(({ key }) => path.startsWith(`${key}.`))?.key ?? path;
  return [...new Set(paths.map(whole))].sort();
}

test("it takes every published setup, and what the page saves", async () => {
  for (const file of await readdir(new URL("setups/", FIXTURES))) {
    const setup = JSON.parse(await readFile(new URL(`setups/${file}`, FIXTURES), "utf8"));
    assert.ok(judge(setup), `${file}: ${JSON.stringify(judge.errors)}`);
  }
  assert.ok(judge(JSON.parse(fileText(core.defaultSetup()))));
});

test("it refuses every broken setup that is JSON, at the same fields as the core", async () => {
  let seen = 0;
  for (const file of await readdir(new URL("broken/", FIXTURES))) {
    const text = await readFile(new URL(`broken/${file}`, FIXTURES), "utf8");
    let setup;
    try {
      setup = JSON.parse(text);
    } catch {
      continue;
    }
    seen++;
    assert.equal(judge(setup), false, file);
    assert.deepEqual(refusedBySchema(setup), refusedByCore(setup), file);
  }
  assert.ok(seen >= 3);
});

test("at and just outside of each limit schema and core judge the same", () => {
  const random = randomNumbers(SEED);
  let limits = 0;
  for (const { key, hard, decimals } of fields.filter((field) => field.kind === "number")) {
    const [low, high] = hard;
    // What is rounded away is refused by neither.
    const hair = decimals === null ? 1e-9 : 10 ** -decimals;
    const inside = low + (high - low) * random();
    for (const value of [low, high, inside, low - hair, high + hair, low - 1, high * 2 + 1, String(low), null, [low]]) {
      const setup = withValueAt(defaults, key, value);
      assert.deepEqual(refusedBySchema(setup), refusedByCore(setup), `${key} is ${value}`);
      limits++;
    }
    for (const value of [low - hair, high + hair]) assert.deepEqual(refusedBySchema(withValueAt(defaults, key, value)), [key], `${key} is ${value}`);
  }
  assert.ok(limits > 500);
});

test("setups with many values drawn at random are judged the same, field by field", () => {
  const random = randomNumbers(SEED + 1);
  const drawn = (/** @type {any} */ field) => {
    const share = random() * 1.2 - 0.1;
    switch (field.kind) {
      case "number": return field.hard[0] + (field.hard[1] - field.hard[0]) * share;
      case "choice": return random() < 0.8 ? field.choices[Math.floor(random() * field.choices.length)].value : "other";
      case "flag": return random() < 0.8 ? random() < 0.5 : "yes";
      case "text": return "n".repeat(Math.floor(random() * 100)) + (random() < 0.1 ? "\u0007" : "");
      case "vector": return Array.from({ length: random() < 0.9 ? 3 : 2 }, () => (random() - 0.5) * 620);
      case "readings": return Array.from({ length: Math.floor(random() * 6.3) }, () => field.hard[0] + (field.hard[1] - field.hard[0]) * share);
      case "points": return Array.from({ length: random() < 0.9 ? 2 : 3 }, () => [(random() - 0.5) * 620, 0]);
      default: return field.default;
    }
  };
  let agreed = 0;
  for (let draw = 0; draw < DRAWS; draw++) {
    const setup = fields.reduce((before, field) => random() < 0.3 ? withValueAt(before, field.key, drawn(field)) : before, defaults);
    assert.deepEqual(refusedBySchema(setup), refusedByCore(setup), JSON.stringify(setup));
    agreed += refusedByCore(setup).length;
  }
  assert.ok(agreed > DRAWS, `${agreed} refusals agreed`);
});

test("the caliper's bodies are judged the same, member by member", () => {
  const body = defaults.caliper.bodies[0];
  const many = (count, item) => Array.from({ length: count }, () => item);
  const cases = [
    [], many(12, body), many(13, body), [{ ...body, colour: "red" }], [{ ...body, name: "n".repeat(80) }], [{ ...body, name: "n".repeat(81) }],
    [{ ...body, name: 5 }], [{ ...body, inboard: 300 }], [{ ...body, inboard: 300.001 }], [{ ...body, outboard: -300.001, inboard: 300 }],
    [{ ...body, bolted: 1 }], [{ ...body, outline: [[0, 0], [1, 0]] }], [{ ...body, outline: [[0, 0], [1, 0], [0, 301]] }],
    [{ ...body, outline: [[0, 0], [1, 0], [0, 1, 2]] }], [{ name: "x" }], "none", null, [null],
    [{ ...body, name: "\u{1F6B2}".repeat(25) }], [{ ...body, name: "\u{1F6B2}".repeat(81) }],
  ];
  for (const bodies of cases) {
    const setup = withValueAt(defaults, "caliper.bodies", bodies);
    assert.deepEqual(refusedBySchema(setup), refusedByCore(setup), JSON.stringify(bodies).slice(0, 200));
  }
});

test("what is missing, or there too much, is named by both", () => {
  for (const { key, optional } of fields) {
    const setup = withValueAt(defaults, key, undefined);
    const wanted = optional ? [] : [key];
    assert.deepEqual(refusedBySchema(setup), wanted, key);
    assert.deepEqual(refusedByCore(setup), wanted, key);
  }
  for (const [key, value] of [["extra", 1], ["wheel.extra", 1], ["caliper.pad.extra", null], ["version", 2], ["version", 1.5]]) {
    const setup = withValueAt(defaults, key, value);
    assert.deepEqual(refusedBySchema(setup), [key]);
    assert.deepEqual(refusedByCore(setup), [key]);
  }
});
