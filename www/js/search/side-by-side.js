import { byId, element } from "../dom.js";
import { exact } from "../numbers.js";
import { withValueAt } from "../path.js";
import { picturePair, sentenceList } from "./pair.js";
import { errorText } from "./table.js";

const USUAL = [180, 203];

/**
 * Two rotors of the list: both side views at one scale, and the difference in words.
 * @param {{rotors: number[]}} options @param {() => void} changed
 */
export function sideBySideSearch(options, changed) {
  const selects = ["first-rotor", "second-rotor"].map((id) => /** @type {HTMLSelectElement} */ (byId(id)));
  for (const select of selects) select.addEventListener("change", changed);
  /** @type {number[]} */
  let offered = [];

  /** The two sizes chosen; the lists follow the list of rotors. */
  function sizes() {
    if (offered !== options.rotors) {
      const before = selects.map((select, index) => Number(select.value) || USUAL[index]);
      offered = options.rotors;
      selects.forEach((select, index) => {
        select.replaceChildren(...offered.map((size) => element("option", { value: String(size) }, `${exact(size)} mm`)));
        const fallback = offered.at(index === 0 ? 0 : -1);
        select.value = String(offered.includes(before[index]) ? before[index] : fallback);
      });
    }
    return selects.map((select) => Number(select.value));
  }

  return {
    get options() { return sizes(); },
    /** @type {import("./section.js").Search} */
    search: {
      calls(setup) {
        const [one, other] = sizes().map((size) => withValueAt(setup, "wheel.rotor_diameter", size));
        return [["drawing", one, "side"], ["drawing", other, "side"], ["compare", one, other]];
      },
      show(answers) {
        const wrong = answers.find((reply) => reply && !reply.ok);
        if (wrong) return [errorText(wrong.errors)];
        const [one, other, comparison] = answers;
        if (!comparison) return [];
        const captions = sizes().map((size) => `Rotor ${exact(size)}`);
        return [picturePair([one.svg, other.svg], captions, "pair"), sentenceList(comparison.answer.sentences)];
      },
    },
  };
}
