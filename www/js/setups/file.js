/** The text and the name of a setup's file. */

/** @typedef {import("../types.js").Setup} Setup */

export const FILE_KIND = "application/json";
const INDENT = "  ";
const MOST_NAME_CHARS = 40;

/**
 * The setup as the core reads it; with parts, both in one object.
 * @param {Setup} setup @param {any[]} [parts]
 */
export function fileText(setup, parts = []) {
  return `${written(parts.length > 0 ? { setup, parts } : setup, "")}\n`;
}

/** Indented, with a point, or a list of numbers, in one line. @param {any} data @param {string} margin @returns {string} */
function written(data, margin) {
  if (typeof data !== "object" || data === null) return JSON.stringify(data) ?? "null";
  const isList = Array.isArray(data);
  const [open, close] = isList ? "[]" : "{}";
  const inner = margin + INDENT;
  const members = Object.entries(data).filter(([, value]) => value !== undefined);
  const items = isList
    ? data.map((item) => written(item, inner))
    : members.map(([name, value]) => `${JSON.stringify(name)}: ${written(value, inner)}`);
  if (items.length === 0) return open + close;
  const isFlat = isList && data.every((item) => typeof item !== "object" || item === null);
  return isFlat ? `${open}${items.join(", ")}${close}` : `${open}\n${inner}${items.join(`,\n${inner}`)}\n${margin}${close}`;
}

/**
 * Such as "tabwright-cargo-trike-203-100.json": the setup's name, rotor and hub, in characters that every system takes.
 * @param {Setup} setup
 */
export function fileName(setup) {
  const { rotor_diameter: rotor, hub_width: hub } = setup.wheel;
  return `${["tabwright", safe(String(setup.name)), rotor, hub].filter(Boolean).join("-")}.json`;
}

/** @param {string} text */
function safe(text) {
  const letters = text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  return letters.replace(/[^a-z0-9]+/g, "-").slice(0, MOST_NAME_CHARS).replace(/^-|-$/g, "");
}
