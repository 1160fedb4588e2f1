/** Reading and changing one value in nested plain data by its dotted path, such as "wheel.hub_width" or "caliper.holes.0.1". */

/** @param {any} data @param {string} path */
export function valueAt(data, path) {
  return path.split(".").reduce((node, key) => node?.[key], data);
}

/**
 * A copy of `data` with one value replaced; `undefined` takes the value out. Untouched branches are shared.
 * @param {any} data @param {string} path @param {any} value
 */
export function withValueAt(data, path, value) {
  const [key, ...rest] = path.split(".");
  const copy = Array.isArray(data) ? [...data] : { ...data };
  if (rest.length > 0) copy[key] = withValueAt(copy[key], rest.join("."), value);
  else if (value === undefined) delete copy[key];
  else copy[key] = value;
  return copy;
}

/**
 * A path written with brackets, such as "holes[0][1]", in dots.
 * @param {string} path
 */
export function dotted(path) {
  return path.replace(/\[(\d+)\]/g, ".$1");
}

/**
 * Whether `path` is `outer` or lies inside it.
 * @param {string} path @param {string} outer
 */
export function liesIn(path, outer) {
  return path === outer || path.startsWith(`${outer}.`);
}
