// Figures as lines of text.

const NAME_WIDTH = 40;

/** @param {number[]} values @param {number} share */
export function quantile(values, share) {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort((one, other) => one - other);
  return sorted.length === 0 ? NaN : sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))];
}

export function printHead() {
  printLine("milliseconds", ["median", "95 %", "worst"]);
}

/** @param {string} name @param {number[]} values */
export function printFigures(name, values) {
  printLine(name, [0.5, 0.95, 1].map((share) => quantile(values, share).toFixed(2)));
}

/** @param {string} name @param {string[]} cells */
function printLine(name, cells) {
  console.log(name.padEnd(NAME_WIDTH) + cells.map((cell) => cell.padStart(9)).join(""));
}
