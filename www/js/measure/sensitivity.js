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

/**
 * @param {Sensitivity} answer @param {string} unit  Of the number. @param {import("../types.js").Pair[]} pairs  With their names in words.
 * @returns {string[]}
 */
export function sensitivityWords({ now, more, less }, unit, pairs) {
  const one = unit === "mm" ? lengthText(1, 0) : `${readable(1, 0)}${unit}`;
  return [sentence(`${one} more`, now, more, pairs), sentence(`${one} less`, now, less, pairs)].filter((words) => words !== "");
}

/** @param {string} step @param {Footing} now @param {Footing|null} then @param {import("../types.js").Pair[]} pairs */
function sentence(step, now, then, pairs) {
  if (!then) return "";
  const between = pairs.find(({ name }) => name === then.binding)?.label ?? then.binding;
  const pieces = [
    `${change(then.margin - now.margin, "to spare")} (${between})`,
    ...(Math.abs(then.sideways - now.sideways) < NOTHING_MM ? [] : [change(then.sideways - now.sideways, "sideways adjustment")]),
    ...(then.verdict === now.verdict ? [] : [`then ${THEN[then.verdict]}`]),
  ];
  return `If it is really ${step}: ${pieces.join(", ")}.`;
}

/** @param {number} difference @param {string} of */
function change(difference, of) {
  if (Math.abs(difference) < NOTHING_MM) return `as much ${of}`;
  return `${lengthText(Math.abs(difference))} ${difference > 0 ? "more" : "less"} ${of}`;
}
