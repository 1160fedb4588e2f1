import { lengthDigits, unitName } from "../units.js";
import { readable } from "../numbers.js";
import { VERDICT_WORDS } from "../verdicts.js";

/**
 * @typedef {import("../types.js").Report} Report
 * @typedef {import("../types.js").Setup} Setup
 * @typedef {import("../types.js").Hole} Hole
 *
 * @typedef {Object} Value  One number to set or scribe.
 * @property {string} key
 * @property {string} name  What it is.
 * @property {string} way  From where to where.
 * @property {string} digits
 * @property {string} unit
 *
 * @typedef {{report: Report, setup: Setup, decimals: number}} Source  `setup` is the one the report belongs to.
 */

/**
 * Everything a builder sets or scribes, in the order of the work. The sign of a place is said in words: at the bench a
 * minus is easily overlooked.
 * @param {Source} source
 * @returns {Value[]}
 */
export function valuesOf(source) {
  const { report, setup } = source;
  const isPost = report.post !== null;
  const spot = isPost ? "bolt point on the post's face" : "centre";
  const hole = (/** @type {number} */ index) => `${isPost ? "Bolt" : "Hole"} ${index + 1}`;
  const places = report.holes.flatMap((place, index) => placesOf(hole(index), spot, place, source));
  const [clock, tube] = [setup.tab.clock, setup.fork.tube_end];
  return [
    gapOf(source),
    angle("clock", "Clock angle", clockWay(clock), Math.abs(clock)),
    length("tube-end", "Tube end", "From the axle's centre up the leg to the lower end of the tube", tube, source),
    recessOf(source),
    ...places,
    length("spacing", isPost ? "Bolt to bolt" : "Hole to hole", "Centre to centre, straight across", report.hole_spacing, source),
    ...postsOf(source),
    length("rotor", "Rotor size", "Across the rotor's outer edge", setup.wheel.rotor_diameter, source),
    length("hub", "Hub width", "Over the locknuts: inner face of one dropout to the other", setup.wheel.hub_width, source),
    length("offset", "Tab offset sideways", sideways(setup.tab.offset), Math.abs(setup.tab.offset), source),
    length("reach", "Tab offset outward", outward(setup.tab.reach), Math.abs(setup.tab.reach), source),
  ];
}

/** @param {string} key @param {string} name @param {string} way @param {number} mm @param {Source} source @returns {Value} */
function length(key, name, way, mm, { decimals }) {
  return { key, name, way, digits: lengthDigits(mm, decimals), unit: unitName() };
}

/** @param {string} key @param {string} name @param {string} way @param {number} degrees @returns {Value} */
function angle(key, name, way, degrees) {
  return { key, name, way, digits: readable(degrees), unit: "°" };
}

/** @param {string} name @param {string} spot @param {Hole} place @param {Source} source */
function placesOf(name, spot, { back, up, distance, from_lower_edge, from_neck_edge }, source) {
  const key = name.toLowerCase().replace(" ", "-");
  const to = `to the ${spot} of ${name.toLowerCase()}`;
  const neck = from_neck_edge < 0 ? "it lies inside the neck" : "it lies outside the neck";
  return [
    length(`${key}-back`, `${name}, ${back < 0 ? "ahead" : "back"}`,
      `From the axle's centre, square to the leg, ${back < 0 ? "forwards" : "backwards"} ${to}`, Math.abs(back), source),
    length(`${key}-up`, `${name}, ${up < 0 ? "down" : "up"}`,
      `From the axle's centre, along the leg, ${up < 0 ? "downwards" : "upwards"} ${to}`, Math.abs(up), source),
    length(`${key}-axle`, `${name}, from the axle`, `From the axle's centre straight ${to}: set the dividers to this`, distance, source),
    length(`${key}-end`, `${name}, from the plate's end`,
      `From the plate's lower end, along the leg, ${from_lower_edge < 0 ? "downwards" : "upwards"} ${to}`, Math.abs(from_lower_edge), source),
    length(`${key}-neck`, `${name}, from the neck`,
      `From the neck's edge on the hole's side, square to the leg, ${to}: ${neck}`, Math.abs(from_neck_edge), source),
  ];
}

/** @param {Source} source @returns {Value[]} */
function postsOf(source) {
  const { post } = source.report;
  if (!post) return [];
  return [
    length("post-face", "Post face", "From the axle's centre, square to the posts' face", post.face_distance, source),
    ...post.along.map((along, index) => length(`post-${index + 1}`, `Bolt ${index + 1}, along the face`,
      `Along the posts' face, from its point nearest the axle ${along < 0 ? "away from" : "towards"} bolt 2`, Math.abs(along), source)),
  ];
}

/** The gap that decides. @param {Source} source @returns {Value} */
function gapOf(source) {
  const { report } = source;
  const pair = report.pairs.find(({ name }) => name === report.binding);
  if (!pair) return { key: "gap", name: "Tightest gap", way: "", digits: "\u2013", unit: "" };
  const wanted = `${lengthDigits(pair.required, source.decimals)} ${unitName()} wanted`;
  const way = `${pair.label}: ${VERDICT_WORDS[pair.verdict].toLowerCase()}, ${wanted}`;
  return length("gap", pair.gap < 0 ? "Overlap" : "Tightest gap", `From ${way}`, Math.abs(pair.gap), source);
}

/** @param {Source} source @returns {Value} */
function recessOf(source) {
  const { value, kind } = source.report.recess;
  const ways = {
    short: ["Short of the tube", "From the plate's outer face out to the tube's inner side: the plate does not reach it"],
    lap: ["Lap at the tube", "The plate's outer face lies flat on the tube's inner side"],
    let_in: ["Recess", "From the tube's inner side into the tube to the plate's outer face"],
    beyond: ["Past the tube", "From the tube's inner side to the plate's outer face: it cannot be built"],
  };
  const [name, way] = ways[kind];
  return length("recess", name, way, Math.abs(value), source);
}

/** @param {number} clock */
function clockWay(clock) {
  if (clock === 0) return "Of the pads about the axle: straight up the leg";
  return `About the axle, from straight up the leg turning ${clock < 0 ? "forwards" : "backwards"} to the middle of the pads`;
}

/** @param {number} offset */
function sideways(offset) {
  if (offset === 0) return "Tab and dropout lie in one plane";
  return `From the dropout's plane ${offset < 0 ? "inboard, towards the spokes," : "outboard"} to the tab's`;
}

/** @param {number} reach */
function outward(reach) {
  if (reach === 0) return "The pads sit on the rotor as the caliper is meant to";
  return `Caliper moved ${reach < 0 ? "towards" : "away from"} the axle from where its pads are meant to sit`;
}
