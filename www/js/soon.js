/** What the page wants soon after its first answer, as one file to fetch. */
export { startSeatingArc } from "./load/seating-arc.js";
export { startSheet } from "./print/sheet.js";
