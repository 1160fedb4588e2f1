import { element, emit, setText } from "../dom.js";
import { goToField } from "../focus.js";
import { dotted, liesIn, valueAt } from "../path.js";
import { storeTrouble } from "../store.js";
import { nameOf } from "./kept.js";
import { takeParts } from "./parts.js";
import { MOST_CHARS, readData, readText, tooLong } from "./read.js";

/**
 * @typedef {import("../types.js").Context} Context
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("../types.js").Problem} Problem
 * @typedef {import("../types.js").Setup} Setup
 */

/** A character takes up to four bytes. */
const MOST_BYTES = 4 * MOST_CHARS;
const MOST_SHOWN = 30;

/**
 * Opening a setup from a file, from text, or from what is kept; and what became of it, where that needs words.
 * @param {Context} context @param {{begun: () => void, partsKept: () => void}} told
 */
export function createOpening({ core, tell }, told) {
  const input = element("input", { type: "file", accept: ".json,.txt,application/json,text/plain", hidden: true });
  const button = element("button", { type: "button", className: "button", textContent: "Open a file" });
  const pasted = element("textarea", {
    id: "setups-text", className: "text-input", rows: 4, spellcheck: false, autocomplete: "off",
  });
  const use = element("button", { type: "button", className: "button", textContent: "Open this text" });
  const fold = element(
    "details",
    { className: "setups-paste" },
    element("summary", {}, "Or paste its text"),
    element("label", { className: "field-label", htmlFor: pasted.id }, "Text of a setup\u2019s file"),
    pasted,
    use,
  );
  const title = element("h3");
  const message = element("p");
  const list = element("ul", { className: "setups-remarks" });
  const outcome = element("div", { className: "setups-outcome", role: "status", hidden: true }, title, message, list);

  button.addEventListener("click", () => input.click());
  input.addEventListener("change", async () => {
    const file = input.files?.[0];
    if (file) await take(file);
    // The same file, mended, may be chosen again.
    input.value = "";
  });
  use.addEventListener("click", async () => {
    if (await take(pasted.value)) pasted.value = "";
  });

  /** Whether nothing is left to say. @param {File|string} source */
  async function take(source) {
    if (typeof source === "string") return open(readText(source, core), "the text");
    const name = `\u201c${source.name}\u201d`;
    if (source.size > MOST_BYTES) return open({ ok: false, message: tooLong(source.size) }, name);
    let text;
    try {
      text = await source.text();
    } catch (error) {
      console.warn(error);
      return open({ ok: false, message: "This browser could not read it. Choose it again." }, name);
    }
    return open(readText(text, core), name);
  }

  /** @param {import("./read.js").Refusal|import("./read.js").Reading} reading @param {string} source  In words. */
  async function open(reading, source) {
    told.begun();
    if (!reading.ok) {
      show(`Not opened: ${source}`, `${reading.message} Nothing was changed.`);
      return false;
    }
    const { setup, remarks, parts } = reading;
    const done = [];
    if (setup) done.push(`Opened \u201c${nameOf(setup)}\u201d from ${source}.`);
    if (setup) emit(document.body, "setup", { setup, words: done[0] });
    const partWords = parts.length > 0 ? await keepParts(parts) : { words: "", isGood: true };
    if (partWords.words) {
      done.push(partWords.words);
      told.partsKept();
    }
    const isClean = remarks.length === 0 && partWords.isGood;
    if (isClean && setup) {
      show("");
      closeDialog();
      if (partWords.words) tell(partWords.words);
      return true;
    }
    const rest = remarks.length > 0 ? " What could be read was taken over; this was not:" : "";
    show(done.shift() ?? "", `${done.join(" ")}${rest}`.trim(), remarks, setup);
    return false;
  }

  /** @param {string} heading @param {string} [text] @param {Problem[]} [remarks] @param {Setup|null} [setup] */
  function show(heading, text = "", remarks = [], setup = null) {
    outcome.hidden = heading === "";
    setText(title, heading);
    setText(message, text);
    const more = remarks.length - MOST_SHOWN;
    list.replaceChildren(
      ...remarks.slice(0, MOST_SHOWN).map((remark) => remarkItem(remark, setup)),
      ...(more > 0 ? [element("li", {}, `And ${more} more.`)] : []),
    );
    if (heading) outcome.scrollIntoView?.({ block: "nearest" });
  }

  const fields = core.fields().flatMap((group) => group.fields);
  const defaults = core.defaultSetup();

  /** @param {Problem} remark @param {Setup|null} setup */
  function remarkItem({ field: path, value, message: reason }, setup) {
    const own = fields.find(({ key }) => liesIn(dotted(path), key));
    const found = value === "" ? "" : ` It reads ${value}.`;
    const isGroup = fields.some(({ key }) => liesIn(key, path));
    const isExample = setup && (own ? isSame(valueAt(setup, own.key), valueAt(defaults, own.key)) : isGroup);
    const instead = isExample ? ` The example ${own ? "value stands" : "values stand"} in its place.` : "";
    const item = element(
      "li",
      {},
      path && element("code", {}, path),
      element("span", {}, `${reason}${found}${instead}`),
    );
    if (own && setup) {
      const go = element("button", { type: "button", className: "link", textContent: `Go to ${own.label}` });
      go.addEventListener("click", () => {
        closeDialog();
        goToField(own.key);
      });
      item.append(go);
    }
    return item;
  }

  return {
    button,
    elements: [input, fold, outcome],
    take,
    /** @param {any} data @param {string} source  In words. */
    takeData: (data, source) => open(readData(data, core), source),
    clear: () => show(""),
  };
}

/** @param {any[]} parts */
async function keepParts(parts) {
  try {
    const { added, known, refused } = await takeParts(parts);
    const words = [
      added > 0 && `${counted(added)} kept with yours.`,
      known > 0 && `${counted(known)} you had already.`,
      refused > 0 && `${counted(refused)} could not be read and ${refused === 1 ? "was" : "were"} left out.`,
    ];
    return { words: words.filter(Boolean).join(" "), isGood: refused === 0 };
  } catch (error) {
    return { words: `The parts in it were not kept. ${storeTrouble(error)}`, isGood: false };
  }
}

/** @param {any} one @param {any} other  Plain data both. */
function isSame(one, other) {
  return JSON.stringify(one) === JSON.stringify(other);
}

/** @param {number} many */
function counted(many) {
  return many === 1 ? "1 part" : `${many} parts`;
}

/** So that the page, with the new setup and its way back, is in sight. */
function closeDialog() {
  /** @type {HTMLDialogElement|null} */ (document.querySelector("dialog[open]"))?.close();
}
