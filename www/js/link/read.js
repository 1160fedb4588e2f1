/** A setup out of a link, and in words whatever could not be read. */
import { liesIn, valueAt, withValueAt } from "../path.js";
import { unpacked } from "./packed.js";
import { Unreadable, valueOf, valueText } from "./values.js";
import { OLDER, defaultsOf, fieldsOf, newest } from "./versions.js";

/**
 * @typedef {import("../types.js").Core} Core
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").Setup} Setup
 * @typedef {import("../types.js").Problem} Problem
 * @typedef {{setup: Setup|null, remarks: string[]}} Reading  No setup where nothing could be read at all.
 */

/** A link of this page has less than 2000; escaped again by a messenger it may be three times that. */
const MOST_CHARS = 8000;
const MOST_SHOWN = 40;
const MOST_ROUNDS = 3;
/** What is often caught up with a link at the end of a sentence, or in quotes. */
const TRAILING = /[\s.,;:!?)\]}>"'*~\u201d\u2019]+$/;

/** @param {string} text */
function shown(text) {
  return text.length > MOST_SHOWN ? `${text.slice(0, MOST_SHOWN)}\u2026` : text;
}

/** @param {string} text */
function unescaped(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    throw new Unreadable("has a broken % in it");
  }
}

/** Text with the escapes and the wrapping taken off that messengers and mail programs put on a whole link. @param {string} fragment */
function unwrapped(fragment) {
  let text = fragment.replace(/^\s*#/, "");
  for (let round = 0; round < MOST_ROUNDS && !text.includes("=") && text.includes("%"); round += 1) {
    try {
      text = decodeURIComponent(text);
    } catch {
      return text;
    }
  }
  return text.replace(/&(amp|#38|#x26);/gi, "&");
}

/** A value that is no free text can have been escaped more than once. @param {string} text @param {Field} field */
function plain(text, { kind }) {
  let plain = unescaped(text);
  const isFree = kind === "text" || kind === "bodies";
  for (let round = 1; round < MOST_ROUNDS && !isFree && plain.includes("%"); round += 1) plain = unescaped(plain);
  return plain;
}

/** The items of a link, the keys plain. @param {string} text */
function itemsOf(text) {
  return text.split("&").filter((item) => item !== "").map((item) => {
    const [, key, value] = /** @type {string[]} */ (item.match(/^([^=]*)=?([^]*)$/));
    try {
      return { key: unescaped(key).trim(), value };
    } catch {
      return { key, value };
    }
  });
}

/**
 * Reads links; `older` is for the test of links made before a change of the defaults.
 * @param {Pick<Core, "fields"|"defaultSetup"|"report">} core
 * @param {typeof OLDER} [older]
 * @returns {(fragment: string) => Reading}
 */
export function createReader(core, older = OLDER) {
  const today = core.defaultSetup();
  const fields = core.fields().flatMap((group) => group.fields);
  const byKey = new Map(fields.map((field) => [field.key, field]));
  const ownVersion = newest(older);

  /** @param {string} text @param {string[]} remarks */
  function versionOf(text, remarks) {
    const version = /^\d{1,6}$/.test(text) ? Number(text) : 0;
    if (version >= 1 && version <= ownVersion) return version;
    if (text === "") remarks.push(`The link does not say of which version it is; it was read as version ${ownVersion}.`);
    else remarks.push(version > ownVersion
      ? `The link was made by a newer version of this page (link version ${version}, this one reads ${ownVersion}). What it knows was read; load the page again for the rest.`
      : `The link's version, "${shown(text)}", is none; it was read as version ${ownVersion}.`);
    return ownVersion;
  }

  /** What stands where a value was left out. @param {Field} field @param {Setup} defaults */
  function instead(field, defaults) {
    const text = valueText(valueAt(defaults, field.key), field);
    const words = text === "" ? "it stays empty" : text.length > MOST_SHOWN ? "the example stands instead" : `the example value, ${text}, stands instead`;
    return `${words}.`;
  }

  /** Leaves out what the core refuses, until it accepts. @param {Setup} full @param {string[]} keys @param {Setup} defaults @param {string[]} remarks */
  function accepted(full, keys, defaults, remarks) {
    let setup = full;
    let given = keys;
    for (;;) {
      const answer = core.report(setup);
      if (answer.ok || given.length === 0) return setup;
      const { errors } = answer;
      const refused = refusedOf(setup, given, errors, defaults);
      for (const key of refused) {
        const problem = errors.find(({ field }) => liesIn(field, key)) ?? errors[0];
        const field = /** @type {Field} */ (byKey.get(key));
        remarks.push(`In the link: ${problem.message} So the link's ${field.label} is left out; ${instead(field, defaults)}`);
        setup = withValueAt(setup, key, valueAt(defaults, key));
      }
      given = given.filter((key) => !refused.includes(key));
    }
  }

  /**
   * The keys to leave out: those the problems name; else one that the problem would go away without; else all.
   * @param {Setup} setup @param {string[]} given @param {Problem[]} errors @param {Setup} defaults
   */
  function refusedOf(setup, given, errors, defaults) {
    const named = given.filter((key) => errors.some(({ field }) => liesIn(field, key)));
    if (named.length > 0) return named;
    const cause = given.findLast((key) => {
      const without = core.report(withValueAt(setup, key, valueAt(defaults, key)));
      return without.ok || !without.errors.some(({ field }) => field === errors[0].field);
    });
    return cause === undefined ? given : [cause];
  }

  return function read(fragment) {
    if (fragment.length > MOST_CHARS) {
      const remark = `The link has ${fragment.length} characters, more than any link of this page. Nothing of it was read; ask for it again.`;
      return { setup: null, remarks: [remark] };
    }
    /** @type {string[]} */
    const remarks = [];
    const items = itemsOf(unwrapped(fragment));
    const last = items.at(-1);
    if (last) last.value = last.value.replace(/(%20|%0[ad])+$/gi, "").replace(TRAILING, "");
    /** @type {Map<string, string>} */
    const values = new Map();
    for (const { key, value } of items) {
      if (!values.has(key)) values.set(key, value);
      else remarks.push(`The link gives "${shown(key)}" more than once; the first stands.`);
    }
    const version = versionOf(values.get("v")?.trim() ?? "", remarks);
    const defaults = defaultsOf(version, today, older);
    let setup = defaults;
    /** @type {string[]} */
    let given = [];

    const letters = values.get("packed")?.trim();
    if (letters !== undefined) {
      try {
        if (Number(values.get("v")) > ownVersion) throw new Unreadable("is of that newer version");
        ({ setup, given } = unpacked(letters, version, defaults, fieldsOf(version, fields, older)));
      } catch (error) {
        if (!(error instanceof Unreadable)) throw error;
        remarks.push(`The link's packed part ${error.message}, so nothing in it could be read; the example values stand instead. Ask for the link again.`);
      }
    }
    const isWhole = letters !== undefined || values.get("end")?.trim() === "1";
    if (!isWhole) remarks.push("The link has no end mark, so it may have been cut off on the way. Compare with the sender what it opens.");

    for (const [key, text] of values) {
      if (["v", "packed", "end"].includes(key)) continue;
      const field = byKey.get(key);
      if (!field) {
        remarks.push(`The link has "${shown(key)}", which is no value of a setup; it was left out.`);
        continue;
      }
      try {
        if (!isWhole && key === last?.key) throw new Unreadable("is the last before the end that is missing, and may be cut off");
        const value = valueOf(plain(text, field), field);
        setup = withValueAt(setup, key, value);
        if (!given.includes(key)) given.push(key);
      } catch (error) {
        if (!(error instanceof Unreadable)) throw error;
        remarks.push(`In the link: ${field.label}, "${shown(text)}" (${key}), ${error.message}; ${instead(field, setup)}`);
      }
    }
    return { setup: accepted(setup, given, defaults, remarks), remarks };
  };
}
