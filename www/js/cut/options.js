/** How files and paper are wanted, which is no part of a setup: kept in this browser. */

const STORAGE_KEY = "tabwright-cut";
/** ISO 216 paper is used everywhere else. From memory. */
const LETTER_REGIONS = ["US", "CA", "MX", "PH", "CL", "CO", "CR", "GT", "PA", "SV", "VE", "DO", "PR"];

/** @typedef {{paper: "a4"|"letter", kerf: number|string, other_side: boolean}} Options */

/** @returns {Options} */
export function keptOptions() {
  /** @type {Options} */
  const options = { paper: usualPaper(), kerf: 0, other_side: true };
  try {
    const kept = JSON.parse(localStorage.getItem(STORAGE_KEY) ?? "{}") ?? {};
    if (kept.paper === "a4" || kept.paper === "letter") options.paper = kept.paper;
    if (typeof kept.other_side === "boolean") options.other_side = kept.other_side;
  } catch {
    // As it comes.
  }
  return options;
}

/** The width of the cut is not kept: compensated once too often, holes come out too small. @param {Options} options */
export function keepOptions({ paper, other_side }) {
  try {
    localStorage.setItem(STORAGE_KEY, JSON.stringify({ paper, other_side }));
  } catch {
    // Chosen again next time.
  }
}

function usualPaper() {
  try {
    return LETTER_REGIONS.includes(new Intl.Locale(navigator.language).region ?? "") ? "letter" : "a4";
  } catch {
    return "a4";
  }
}
