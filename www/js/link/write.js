/** A setup as a link: what differs from the defaults, in words and numbers that can be read. */
import { valueAt } from "../path.js";
import { packed } from "./packed.js";
import { valueText } from "./values.js";
import { VERSION, defaultsOf, fieldsOf } from "./versions.js";

/**
 * @typedef {import("../types.js").Core} Core
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").Setup} Setup
 */

/** Longer addresses are cut by some messengers, mail programs and code scanners: common practice, no source. */
export const MOST_CHARS = 1999;
/** Not needed for the browser, and easier to read. */
const READABLE = /%(2C|3B|2F|3A)/g;
const LONE_SURROGATE = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** @param {string} text */
function escaped(text) {
  // Half a character is none, and the core reads it as this too.
  return encodeURIComponent(text.replace(LONE_SURROGATE, "\ufffd")).replace(READABLE, decodeURIComponent);
}

/**
 * Writes links for setups that the core accepts.
 * @param {Pick<Core, "fields"|"defaultSetup">} core
 */
export function createWriter(core) {
  const defaults = defaultsOf(VERSION, core.defaultSetup());
  const fields = core.fields().flatMap((group) => group.fields);
  const packing = fieldsOf(VERSION, fields);
  const usual = new Map(fields.map((field) => [field, valueText(valueAt(defaults, field.key), field)]));

  return {
    /**
     * The link to send, and the shortest one that opens the same, for a code.
     * @param {Setup} setup @param {string} base  The page's address.
     */
    links(setup, base) {
      const texts = new Map(fields.map((field) => [field, valueText(valueAt(setup, field.key), field)]));
      const differs = (/** @type {Field} */ field) => texts.get(field) !== usual.get(field);
      const items = fields.filter(differs).map((field) => `${field.key}=${escaped(texts.get(field) ?? "")}`);
      const readable = `${base}#${[`v=${VERSION}`, ...items, "end=1"].join("&")}`;
      const short = `${base}#v=${VERSION}&packed=${packed(setup, VERSION, packing, differs)}`;
      return {
        link: readable.length <= MOST_CHARS ? readable : short,
        shortest: readable.length <= short.length ? readable : short,
      };
    },
  };
}
