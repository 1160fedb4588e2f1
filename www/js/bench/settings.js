import { element, setText } from "../dom.js";
import { unitName } from "../units.js";

const STORAGE_KEY = "tabwright-bench";
const DECIMALS = [1, 2];

/**
 * What the bench remembers in this browser: whether the screen stays on, and how finely numbers are told.
 * @param {{awake: (wanted: boolean) => void, changed: () => void}} listener
 */
export function createSettings({ awake, changed }) {
  const kept = read();
  const awakeInput = element("input", { type: "checkbox", className: "flag-input", checked: kept.staysOn });
  const awakeWords = element("span", { className: "remark", role: "status" });
  const radios = DECIMALS.map((value) => element("input", { type: "radio", name: "bench-decimals", value: String(value), checked: value === kept.decimals }));
  const labels = radios.map((radio, index) => element("label", {}, radio, element("span", {}, (10 ** -DECIMALS[index]).toFixed(DECIMALS[index]))));
  const legend = element("legend", { className: "hidden-text" }, "Finest step");
  const finest = element("fieldset", { className: "switch" }, legend, ...labels);

  awakeInput.addEventListener("change", () => {
    kept.staysOn = awakeInput.checked;
    write(kept);
    awake(kept.staysOn);
  });
  finest.addEventListener("change", () => {
    kept.decimals = Number(radios.find((radio) => radio.checked)?.value);
    write(kept);
    changed();
  });

  return {
    element: element("div", { className: "bench-settings" },
      element("label", { className: "bench-awake" }, awakeInput, "Keep the screen on"), finest, awakeWords),
    get decimals() {
      return kept.decimals;
    },
    opened() {
      // In inches the units decide how finely.
      finest.hidden = unitName() !== "mm";
      awake(kept.staysOn);
    },
    /** @param {string} words @param {boolean} isOn */
    tellAwake(words, isOn) {
      setText(awakeWords, words);
      awakeWords.classList.toggle("refused", kept.staysOn && !isOn);
    },
  };
}

function read() {
  try {
    const { staysOn, decimals } = JSON.parse(localStorage.getItem(STORAGE_KEY) ?? "{}");
    return { staysOn: staysOn === true, decimals: DECIMALS.includes(decimals) ? decimals : DECIMALS[0] };
  } catch {
    return { staysOn: false, decimals: DECIMALS[0] };
  }
}

/** @param {{staysOn: boolean, decimals: number}} kept */
function write(kept) {
  try {
    localStorage.setItem(STORAGE_KEY, JSON.stringify(kept));
  } catch {
    // Then it is for this time only.
  }
}
