/** Plain data from outside, cut down to what a setup could be, so that nothing deep or long reaches the core. */

/** A setup goes six deep: setup, caliper, bodies, body, outline, corner. */
const MOST_DEEP = 8;
const MOST_MEMBERS = 100;
const MOST_CHARS = 300;

/**
 * A copy of its own, whatever it is made from: what is no plain data, or lies too deep, is `null`.
 * @param {any} data @param {number} [depth]
 * @returns {any}
 */
export function plainCopy(data, depth = MOST_DEEP) {
  switch (typeof data) {
    case "string": return data.slice(0, MOST_CHARS);
    case "number": return Number.isFinite(data) ? data : null;
    case "boolean": return data;
    case "object": break;
    default: return null;
  }
  if (data === null || depth === 0) return null;
  if (Array.isArray(data)) return data.slice(0, MOST_MEMBERS).map((item) => plainCopy(item, depth - 1));
  if (!isRecord(data)) return null;
  const members = Object.entries(data).slice(0, MOST_MEMBERS);
  // Members of their own, even one called "__proto__".
  return Object.fromEntries(members.map(([name, value]) => [name.slice(0, MOST_CHARS), plainCopy(value, depth - 1)]));
}

/** @param {any} data @returns {data is Record<string, any>} */
export function isRecord(data) {
  return typeof data === "object" && data !== null && Object.prototype.toString.call(data) === "[object Object]";
}

/** A member of its own, nothing inherited. @param {any} data @param {string} name */
export function own(data, name) {
  return isRecord(data) && Object.hasOwn(data, name) ? data[name] : undefined;
}
