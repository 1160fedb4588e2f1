import { element } from "../dom.js";
import { valueAt } from "../path.js";
import { lengthText } from "../units.js";
import { figure, signed } from "./figures.js";
import { createReading } from "./reading.js";

/**
 * All lengths that can be read on the part in one state, in the order of the work.
 * @typedef {import("../../../wasm/src/build.js").TackCheck} TackCheck
 * @typedef {import("../../../wasm/src/build.js").Tacked} Tacked
 * @typedef {import("../../../wasm/src/build.js").Reading} Reading
 * @typedef {"before"|"after"} State
 */

/** Off by less than this shows as nought, mm. */
const NOTHING_MM = 0.005;

/** @param {import("../types.js").Field[]} fields @param {State} state */
export function createEntries(fields, state) {
  const prefix = `tack.${state}.`;
  const rows = fields.filter(({ key }) => key.startsWith(prefix)).map((field, index) => createReading(field, () => rows[index + 1]?.focus()));
  const root = element("div", { className: "readings" }, ...rows.map((row) => row.element));

  return {
    element: root,
    /** @param {import("../types.js").Model} model */
    update({ setup, problems }) {
      for (const row of rows) row.show(valueAt(setup, row.field.key), problems);
    },
    /** @param {TackCheck} check @param {Tacked|null} tacked */
    answer(check, tacked) {
      for (const row of rows) {
        const key = row.field.key.slice(prefix.length);
        const asked = check.readings.find((reading) => reading.key === key);
        const found = tacked?.readings.find((reading) => reading.key === key);
        const isContrary = tacked?.contradiction?.readings.some((reading) => reading === key) ?? false;
        row.answer({
          designed: asked ? `drawn ${lengthText(asked.designed, 2)}` : "",
          help: asked?.help ?? row.field.help,
          said: found ? saidOf(found, isContrary) : "",
          tone: isContrary || found?.suspect ? "hits" : "",
        });
      }
    },
    /** @param {Reading} key */
    focus(key) {
      rows.find((row) => row.field.key === prefix + key)?.focus();
    },
  };
}

/** @param {Tacked["readings"][number]} reading @param {boolean} isContrary */
function saidOf({ given, mean, spread, designed, residual, suspect }, isContrary) {
  const parts = [];
  if (given.length > 1) parts.push(`mean ${figure(mean)}, spread ${figure(spread)}`);
  parts.push(Math.abs(mean - designed) < NOTHING_MM ? "as drawn" : `${signed(mean - designed)} from the drawing`);
  if (residual !== null && Math.abs(residual) >= NOTHING_MM) parts.push(`${signed(residual)} from what the others say`);
  if (suspect) parts.push("does not fit the others");
  else if (isContrary) parts.push("cannot be together with the others marked so");
  return `${parts.join("; ")}.`;
}
