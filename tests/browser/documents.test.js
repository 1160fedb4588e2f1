// README.md and DEVELOPERS.md say what is so: what they name exists, what they tell to run runs, what they claim is shown.
import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { accessSync, constants, existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { readLength } from "../../www/js/units.js";
import { FIGURES, NO_CLAIMS } from "./documents/figures.js";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const FILES = execFileSync("git", ["ls-files"], { cwd: ROOT, encoding: "utf8" }).trim().split("\n");
const read = (path) => readFileSync(join(ROOT, path), "utf8");
const DOCUMENTS = ["README.md", "DEVELOPERS.md"];
/** All that is written by hand besides prose. */
const SOURCES = FILES.filter((path) => /(^|\/)[^.]+$|\.(rs|js|mjs|sh|py|toml|html|css|d\.ts|json|txt)$/.test(path) && !/package-lock|^fixtures|documents/.test(path));
const sources = SOURCES.map(read).join("\n");
/** What stands for something else. */
const STANDS_FOR = /\b(FILE\.json|NAME|WHAT|SEED|COUNT|LIST|N)\b/;
/** Scripts that say what they do; the others are looked at only. */
const HELPFUL = ["www/serve", "tests/run", "tests/perf/run", "tests/perf/first-load", "tests/perf/lighthouse"];

const texts = Object.fromEntries(DOCUMENTS.map((name) => [name, read(name)]));
const isCode = (line) => /^ {4}\S/.test(line);
const withoutCode = (text) => text.split("\n").filter((line) => !isCode(line)).join("\n");
/** All spans of code with the line they begin in, and indented lines of code. @param {string} text */
const codeOf = (text) => [
  ...[...withoutCode(text).matchAll(/`([^`]+)`/g)].map(([, code]) => code.replace(/\s+/g, " ")),
  ...text.split("\n").filter(isCode).map((line) => line.replace(/\s{2,}#.*/, "").trim()),
];

/** Commands as they are typed: what is set, the program, the rest. */
const COMMAND = /^((?:[A-Z_]+=\S+ )*)((?:cargo|node|rustup|wasm-pack)(?= )|\.\/\S+|tests\/(?:perf|reference)\/[\w-]+(?!\.)\b|--example\b)(?: (.*))?$/;

/** @param {string} code */
function isCommand(code) {
  const [, , program] = COMMAND.exec(code) ?? [];
  return program !== undefined && !FILES.includes(`${code}`.replace(/^\.\//, "") + "/");
}

/** Whether a file or folder of the project goes by this path, as seen from anywhere in it. @param {string} path */
function isPath(path) {
  const pattern = path.replace(/^(\.\.?\/)+/, "").replace(/\/$/, "").replace(/[.+?^${}()|[\]\\]/g, "\\$&").replace("*", "[^/]+").replace(STANDS_FOR, "[\\w]+");
  const inside = new RegExp(`(^|/)${pattern}(/|$)`);
  return FILES.some((file) => inside.test(file));
}

/** @param {string} name */
function isDefined(name) {
  return new RegExp(`\\b(fn|function|const|def) ${name}\\b|\\b${name}\\(\\w*\\) \\{|\\b${name}:|\\b${name}\\b,`).test(sources);
}

/** Why nothing in the project goes by this code, or nothing. @param {string} code */
function missing(code) {
  if (code.startsWith("~/")) return sources.includes(code.slice(2)) || sources.includes(code.split("/").at(-1)) ? "" : "no script uses this folder";
  if (code.startsWith("target/") || /^(tabwright_wasm|tabwright-fit)\.d\.ts$/.test(code)) {
    const built = code.startsWith("target/") ? [code] : [`target/site/component/${code}`, `target/pkg/tabwright_wasm/${code}`];
    // The page in one file is built on demand.
    return built.some((path) => existsSync(join(ROOT, path))) || sources.includes(code) ? "" : "the build makes no such file";
  }
  if (/^[\w./*-]+\/$|^[\w./*-]+\.(rs|js|mjs|json|toml|lock|html|css|py|txt|sh|md)$|^[\w-]+\/[\w./-]+$/.test(code)) return isPath(code) ? "" : "no such file";
  const [, called] = /^(\w+)\(.*\)$/.exec(code) ?? [];
  if (called) return isDefined(called) ? "" : "no such function";
  const words = code.match(/(--)?[A-Za-z_][\w-]*/g) ?? [];
  const absent = words.filter((word) => !STANDS_FOR.test(word) && !new RegExp(`(?<![\\w-])${word}(?![\\w-])`).test(sources));
  if (absent.length > 0) return `${absent.join(", ")} stands nowhere in the project`;
  return "";
}

for (const name of DOCUMENTS) {
  test(`every file, option, function and word in code in ${name} exists`, () => {
    const wrong = codeOf(texts[name]).filter((code) => !isCommand(code)).map((code) => [code, missing(code)]).filter(([, why]) => why);
    assert.deepEqual(wrong, []);
  });

  test(`every link in ${name} leads somewhere`, () => {
    const targets = [...texts[name].matchAll(/\]\(([^)\s]+)\)/g)].map(([, target]) => target);
    for (const target of targets.filter((target) => !/^https?:/.test(target))) {
      assert.ok(existsSync(join(ROOT, dirname(name), target.split("#")[0])), target);
    }
  });

  for (const command of new Set(codeOf(texts[name]).filter(isCommand))) {
    test(`${name}: ${command}`, () => check(command));
  }
}

/** @param {string} command */
function check(command) {
  const [, set, program, rest = ""] = COMMAND.exec(command);
  for (const [name] of set.matchAll(/[A-Z_]+(?==)/g)) assert.ok(sources.includes(name), `nothing reads ${name}`);
  const [line] = rest.split(" > ");
  const words = line.split(" ").filter(Boolean);
  if (program === "cargo") return checkCargo(words);
  if (program === "--example") return checkCargo(["run", "-p", "tabwright-core", "--example", ...words]);
  if (program === "node") {
    const file = words.find((word) => /\.m?js$/.test(word));
    assert.ok(isPath(file), file);
    if (!STANDS_FOR.test(file)) execFileSync(process.execPath, ["--check", join(ROOT, file)]);
    return undefined;
  }
  if (program === "rustup" || program === "wasm-pack") {
    for (const word of words.filter((word) => !/^--?(no-opt|target|profile)$/.test(word))) assert.ok(sources.includes(word), word);
    const [, profile] = /--profile (\w+)/.exec(line) ?? [];
    if (profile) assert.match(read("Cargo.toml"), new RegExp(`^\\[profile\\.${profile}\\]`, "m"));
    return undefined;
  }
  return checkScript(program.replace(/^\.\//, ""), words);
}

/** @param {string} script @param {string[]} words */
function checkScript(script, words) {
  assert.ok(FILES.includes(script), `no script ${script}`);
  accessSync(join(ROOT, script), constants.X_OK);
  execFileSync("bash", ["-n", join(ROOT, script)]);
  if (!HELPFUL.includes(script)) return;
  const help = execFileSync(join(ROOT, script), ["--help"], { encoding: "utf8" });
  assert.match(help, /^Usage: /);
  for (const option of words.filter((word) => word.startsWith("--"))) assert.ok(help.includes(option), `${option} is not in its help`);
}

const tail = (list, word) => list[list.indexOf(word) + 1];

/** @param {string[]} words  Behind "cargo". */
function checkCargo(words) {
  const given = words.indexOf("--") < 0 ? [] : words.slice(words.indexOf("--") + 1);
  const [what] = words;
  const name = tail(words, "-p");
  const folder = name.replace("tabwright-", "");
  assert.match(read(`${folder}/Cargo.toml`), new RegExp(`^name = "${name}"$`, "m"));
  if (what === "bench") return assert.match(read(`${folder}/Cargo.toml`), /^\[\[bench\]\]$/m);
  if (what === "test") return assert.ok(FILES.includes(`${folder}/${tail(words, "--test")}.rs`));
  assert.equal(what, "run");
  const example = tail(words, "--example");
  assert.ok(FILES.includes(`${folder}/examples/${example}.rs`), example);
  const filled = given.map((word) => (word === "FILE.json" ? "fixtures/setups/default.json" : word));
  for (const argument of filled.includes("WHAT") ? SEARCHES : [""]) {
    const out = run(example, filled.map((word) => (word === "WHAT" ? argument : word)), name);
    if (given.length > 0 || example === "schema") assert.doesNotThrow(() => JSON.parse(out), `${example} ${argument}`);
    if (example === "schema") assert.equal(out, read("www/setup.schema.json"));
  }
  return undefined;
}

/** As `cargo run`, in the profile of the tests. @param {string} example @param {string[]} words @param {string} [crate] */
function started(example, words, crate = "tabwright-core") {
  const cargo = ["run", "--quiet", "--locked", "--profile", "checks", "-p", crate, "--example", example, "--", ...words];
  return spawnSync("cargo", cargo, { cwd: ROOT, encoding: "utf8" });
}

/** What that prints. @param {string} example @param {string[]} words @param {string} [crate] */
function run(example, words, crate) {
  const { status, stdout, stderr } = started(example, words, crate);
  // Without a file, an example says how it is used.
  assert.ok(status === 0 || (words.length === 0 && /^usage: /.test(stderr)), stderr);
  return stdout;
}

/** The searches that README.md names behind `--example search`. */
const SEARCHES = (() => {
  const [, first, others] = /`--example search -- FILE\.json ([\w-]+)` \(or ([^)]*)\)/.exec(texts["README.md"].replace(/\s+/g, " "));
  return [first, ...[...others.matchAll(/`([\w-]+)`/g)].map(([, name]) => name)];
})();

test("both documents and the example itself name the same searches", () => {
  const row = texts["DEVELOPERS.md"].split("\n").find((line) => line.includes("--example search"));
  assert.deepEqual([...row.matchAll(/`([a-z-]+)`/g)].map(([, name]) => name).filter((name) => name !== "search"), SEARCHES);
  const inExample = [...read("core/examples/search.rs").matchAll(/^ {8}"([a-z-]+)" =>/gm)].map(([, name]) => name);
  assert.deepEqual([...SEARCHES].sort(), inExample.sort());
});

test("the keys of a report that README.md lists are all there are", () => {
  const list = /prints the full report as JSON: ([^]*?)\.\s/.exec(texts["README.md"])[1].replace(/\s+/g, " ");
  const ofPair = /\(([^)]*)\)/.exec(list)[1];
  const keys = (text) => [...text.matchAll(/`(\w+)(?:\[\])?`/g)].map(([, key]) => key).sort();
  const report = JSON.parse(run("report", ["fixtures/setups/default.json"]));
  assert.deepEqual(keys(list.replace(/\([^)]*\)/, "")), Object.keys(report).sort());
  assert.deepEqual(keys(ofPair), Object.keys(report.pairs[0]).filter((key) => !["label", "parts"].includes(key)).sort());
});

test("several files give one line each; a bad one has its problems on standard error, and the exit code 2", () => {
  const [good, bad] = ["fixtures/setups/default.json", "fixtures/broken/truncated.json"];
  const two = started("report", [good, good]);
  assert.deepEqual([two.status, two.stdout.trim().split("\n").length], [0, 2]);
  const one = started("report", [bad, good]);
  assert.equal(one.status, 2);
  assert.match(one.stderr, /truncated\.json: .*ends too early/);
  assert.doesNotThrow(() => JSON.parse(one.stdout));
});

test("every function of the geometry that README.md names is exported, and takes as many arguments", () => {
  const types = read("target/pkg/tabwright_wasm/tabwright_wasm.d.ts");
  const part = texts["README.md"].slice(texts["README.md"].indexOf("`wasm` wraps"), texts["README.md"].indexOf("[`setup.schema.json`]"));
  const calls = [...part.matchAll(/`(\w+)\(([^`]*)\)`/g)];
  assert.ok(calls.length >= 14);
  for (const [, name, given] of calls) {
    const found = new RegExp(`^export function ${name}\\(([^)]*)\\)`, "m").exec(types);
    assert.ok(found, name);
    const taken = found[1].split(",").filter((one) => one.trim());
    if (given !== "…") assert.equal(given.split(",").filter(Boolean).length, taken.length, name);
  }
});

test("the lengths that README.md offers to type are read", () => {
  const typed = [.../type (.*?) anywhere/s.exec(texts["README.md"])[1].matchAll(/`([^`]+)`/g)].map(([, text]) => text);
  assert.deepEqual(typed.map(readLength), [31.8, 31.75, 31.75]);
});

test("the page for another page's builder has what README.md tells to copy and to write", () => {
  const [script] = codeOf(texts["README.md"]).filter((code) => code.startsWith("<script"));
  const [, source] = /src="([^"]+)"/.exec(script);
  assert.ok(existsSync(join(ROOT, "target/site", source)));
  assert.match(read("www/js/component/tabwright-fit.js"), /customElements\.define\("tabwright-fit"/);
});

test("every figure in README.md has a check that shows it", () => {
  const prose = withoutCode(texts["README.md"]).replace(/`[^`]+`/g, "").replace(/\]\([^)]*\)/g, "]").replace(/\s+/g, " ");
  const known = [...FIGURES.map(({ words }) => words), ...NO_CLAIMS];
  for (const words of known) assert.ok(prose.includes(words), `README.md no longer says "${words}": drop it from documents/figures.js`);
  const rest = known.reduce((text, words) => text.replaceAll(words, ""), prose);
  const unproved = [...rest.matchAll(/.{0,30}\d.{0,30}/g)].map(([text]) => text);
  assert.deepEqual(unproved, [], "a figure without a check: add it to documents/figures.js");
  for (const { words, by, shown } of FIGURES) assert.match(read(by), shown, `${by} no longer shows "${words}"`);
});
