/** @type {Record<import("./types.js").Verdict, string>} */
export const VERDICT_WORDS = {
  clears: "Clears",
  tight: "Tight",
  hits: "Hits",
  cannot_build: "Cannot be built",
};
