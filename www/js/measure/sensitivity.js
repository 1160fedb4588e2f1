import { readable } from "../numbers.js";
import { lengthText } from "../units.js";

/**
 * What a wrong measurement would do, in words.
 * @typedef {import("../types.js").Sensitivity} Sensitivity
 * @typedef {import("../types.js").Footing} Footing
 */

/** Differences below this show as nought, mm. */
const NOTHING_MM = 0.05;
/** @type {Record<string, string>} */
const THEN = { clears: "it clears", tight: "it is tight", hits: "it hits", cannot_build: "it cannot be built" };

/** @param {Sensitivity} answer @param {string} unit  Of the number. @returns {string[]} */
export function sensitivityWords({ now, more, less }, unit) {
  const one = unit === "mm" ? lengthText(1, 0) : `${readable(1, 0)}${unit}`;
  return [sentence(one, "more", now, more), sentence(one, "less", now, less)].filter((words) => words !== "");
}

/** @param {string} one @param {string} way @param {Footing} now @param {Footing|null} then */
function sentence(one, way, now, then) {
  if (!then) return "";
  const pieces = [
    `${change(then.margin - now.margin, "to spare")} (${then.between})`,
    ...(Math.abs(then.sideways - now.sideways) < NOTHING_MM ? [] : [change(then.sideways - now.sideways, "sideways adjustment")]),
    ...(then.verdict === now.verdict ? [] : [`then ${THEN[then.verdict]}`]),
  ];
  return `Really ${one} ${way}: ${pieces.join(", ")}.`;
}

/** @param {number} difference @param {string} of */
function change(difference, of) {
  if (Math.abs(difference) < NOTHING_MM) return `no change ${of}`;
  return `${lengthText(Math.abs(difference))} ${difference > 0 ? "more" : "less"} ${of}`;
}
