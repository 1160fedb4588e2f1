const NAMESPACE = "http://www.w3.org/2000/svg";
const RAD_PER_DEGREE = Math.PI / 180;
/** An arc of a whole turn would begin where it ends and vanish, degrees. */
const NEARLY_WHOLE = 359.9;

/** @param {string} tag @param {Record<string, string|number>} [attributes] @param {...(Node|string)} children */
export function svgElement(tag, attributes = {}, ...children) {
  const made = document.createElementNS(NAMESPACE, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, String(value));
  made.append(...children);
  return made;
}

/** @param {...number} numbers */
export function coordinates(...numbers) {
  return numbers.map((number) => Number(number.toFixed(2))).join(" ");
}

/**
 * A point at a clock angle on the page, where up the leg is up and back to the right on a left brake.
 * @param {number} radius @param {number} clock @param {1|-1} across  -1 where back is to the left.
 * @returns {[number, number]}
 */
export function atClock(radius, clock, across) {
  const turn = clock * RAD_PER_DEGREE;
  return [across * radius * Math.sin(turn), -radius * Math.cos(turn)];
}

/** The path of an arc of clock angles, a short bar across either end. @param {import("../types.js").Arc} arc @param {number} radius @param {1|-1} across @param {number} bar  Half of it. */
export function arcPath({ from, width }, radius, across, bar) {
  const to = from + Math.min(width, NEARLY_WHOLE);
  const large = width > 180 ? 1 : 0;
  const arc = `M${coordinates(...atClock(radius, from, across))}A${coordinates(radius, radius, 0, large, across > 0 ? 1 : 0, ...atClock(radius, to, across))}`;
  if (width > NEARLY_WHOLE) return arc;
  const bars = [from, to].map((clock) => `M${coordinates(...atClock(radius - bar, clock, across))}L${coordinates(...atClock(radius + bar, clock, across))}`);
  return arc + bars.join("");
}
