import { element, emit, setText } from "../dom.js";
import { withSign } from "../form/inputs.js";
import { isSigned } from "../form/simple.js";
import { dotted, liesIn } from "../path.js";
import { lengthAsTyped, readLength, unitName } from "../units.js";

/**
 * One length as it is read at the bench: an input for each time it was read, in millimetres or inches as the gauge in the
 * hand has them.
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").Problem} Problem
 * @typedef {import("../units.js").LengthUnit} LengthUnit
 */

/** The core takes no more of one length. */
const MOST = 5;

/** @param {Field} field  Of the kind "readings". @param {() => void} next  Goes on to the next length. */
export function createReading(field, next) {
  const path = field.key;
  const base = `tack-page-${path.replaceAll(".", "-")}`;
  /** What a number without a unit is in. @type {LengthUnit} */
  let unit = unitName();
  /** @type {HTMLInputElement[]} */
  let inputs = [];

  const name = element("h4", { className: "field-label", id: `${base}-name` }, field.label);
  const help = element("p", { className: "field-help", id: `${base}-help`, hidden: true }, field.help);
  const ask = element("button", { type: "button", className: "help", "aria-label": `About: ${field.label}`, "aria-expanded": "false", "aria-controls": help.id }, "?");
  const designed = element("span", { className: "reading-designed" });
  const again = element("button", { type: "button", className: "step", "aria-label": `Read once more: ${field.label}` }, "+");
  const unitButton = element("button", { type: "button", className: "step reading-unit" });
  const note = element("p", { className: "field-note", id: `${base}-note`, hidden: true });
  const said = element("p", { className: "reading-said", id: `${base}-said`, hidden: true });
  const line = element("div", { className: "reading-inputs" }, again, unitButton, said);
  const root = element(
    "div",
    { className: "reading field", role: "group", "aria-labelledby": name.id, "data-reading": path.slice(path.lastIndexOf(".") + 1) },
    element("div", { className: "field-head" }, name, ask, designed),
    line,
    help,
    note,
  );

  ask.addEventListener("click", () => {
    help.hidden = !help.hidden;
    ask.setAttribute("aria-expanded", String(!help.hidden));
  });
  again.addEventListener("click", () => {
    const empty = inputs.find((input) => input.value.trim() === "");
    if (!empty) set([...inputs, makeInput("")]);
    (empty ?? inputs[inputs.length - 1]).focus();
  });
  unitButton.addEventListener("click", () => use(unit === "mm" ? "in" : "mm"));
  document.addEventListener("unit", () => use(unitName()));

  /** @param {string} text */
  function makeInput(text) {
    const input = element("input", {
      type: "text", className: "number-input", autocomplete: "off", spellcheck: false, enterKeyHint: "next",
      "data-path": path, ...(isSigned(field) && { "data-signed": "" }), value: text,
    });
    input.addEventListener("input", () => {
      emit(input, "edit", { path, value: read() });
      mark();
    });
    input.addEventListener("keydown", (event) => {
      if (event.key !== "Enter") return;
      event.preventDefault();
      next();
    });
    return input;
  }

  /** @param {Element} child */
  function isOfInput(child) {
    return child !== again && child !== unitButton && child !== said;
  }

  function filled() {
    return inputs.filter((input) => input.value.trim() !== "");
  }

  /** What the inputs say: millimetres, or the text where it is no length. */
  function read() {
    return filled().map((input) => readLength(input.value, unit));
  }

  /** @param {HTMLInputElement[]} wanted */
  function set(wanted) {
    inputs = wanted;
    inputs.forEach((input, index) => {
      input.setAttribute("aria-label", inputs.length === 1 ? field.label : `${field.label}, reading ${index + 1}`);
      input.inputMode = unit === "in" ? "text" : "decimal";
    });
    // An input that stays keeps its place in the page, and with it the focus.
    for (const child of [...line.children]) {
      if (isOfInput(child) && !inputs.some((input) => child.contains(input))) child.remove();
    }
    for (const input of inputs) if (!line.contains(input)) line.insertBefore(withSign(input), again);
    mark();
  }

  function mark() {
    again.disabled = inputs.length >= MOST;
  }

  /** The same lengths in another unit. @param {LengthUnit} wanted */
  function use(wanted) {
    const now = read();
    unit = wanted;
    showUnit();
    show(now, true);
  }

  function showUnit() {
    setText(unitButton, unit);
    unitButton.setAttribute("aria-label", `${unit}: ${field.label}; change to ${unit === "mm" ? "inches" : "millimetres"}`);
  }

  /** @param {(number|string)[]} value @param {boolean} [isAnew]  Though the inputs say the same. */
  function show(value, isAnew = false) {
    if (!isAnew && JSON.stringify(read()) === JSON.stringify(value)) return;
    const texts = value.length > 0 ? value.map((one) => lengthAsTyped(one, unit)) : [""];
    set(texts.map((text, index) => {
      const input = inputs[index] ?? makeInput(text);
      if (input.value !== text) input.value = text;
      return input;
    }));
  }

  showUnit();
  set([makeInput("")]);

  return {
    element: root,
    field,
    /** @param {any} value  As typed: a list, or nothing. @param {Problem[]} problems  Of the whole setup. */
    show(value, problems) {
      show(Array.isArray(value) ? value : []);
      const own = problems.filter((problem) => liesIn(dotted(problem.field), path));
      setText(note, own.map(({ message }) => message).join(" "));
      note.hidden = own.length === 0;
      root.classList.toggle("refused", own.length > 0);
      const given = filled();
      // Told of the length as a whole, it is about what is no length, where there is such.
      const wrong = given.filter((input) => typeof readLength(input.value, unit) === "string");
      for (const input of inputs) {
        const place = `${path}.${given.indexOf(input)}`;
        const isOfWhole = own.length > 0 && (wrong.length > 0 ? wrong : given).includes(input);
        const isRefused = own.some(({ field: at }) => (dotted(at) === path ? isOfWhole : dotted(at) === place));
        if (isRefused) input.setAttribute("aria-invalid", "true");
        else input.removeAttribute("aria-invalid");
        if (note.hidden && said.hidden) input.removeAttribute("aria-describedby");
        else input.setAttribute("aria-describedby", note.hidden ? said.id : note.id);
      }
    },
    /** What the part should read, and what the readings came to. @param {{designed: string, help: string, said: string, tone: string}} words */
    answer(words) {
      setText(designed, words.designed);
      setText(help, words.help);
      setText(said, words.said);
      said.hidden = words.said === "";
      said.dataset.tone = words.tone;
      root.classList.toggle("contrary", words.tone !== "");
    },
    focus() {
      const empty = inputs.find((input) => input.value.trim() === "") ?? inputs[0];
      empty.focus({ preventScroll: true });
      root.scrollIntoView({ block: "center" });
    },
  };
}
