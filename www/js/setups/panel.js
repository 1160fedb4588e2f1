import { element, emit, setText } from "../dom.js";
import { showText } from "../form/inputs.js";
import { drop, keep, listKept, storeTrouble, whenKeptElsewhere } from "../store.js";
import { lengthText } from "../units.js";
import { createComparison } from "./compare.js";
import { fileName, fileText } from "./file.js";
import { inspected, rawText, recordOf } from "./kept.js";
import { createList } from "./list.js";
import { createOpening } from "./open.js";
import { partsKept } from "./parts.js";
import { download, share, shareable } from "./save.js";
import { createStatus } from "./status.js";

/**
 * @typedef {import("../types.js").Context} Context
 * @typedef {import("../types.js").Setup} Setup
 * @typedef {import("./kept.js").Sound} Sound
 * @typedef {import("./kept.js").Damaged} Damaged
 */

export const title = "Setups";

/** @param {Context} context @returns {import("../types.js").Panel} */
export function createPanel(context) {
  const { core, goodSetup } = context;
  const status = createStatus();
  const opening = createOpening(context, { begun: () => status.say(""), partsKept: () => isOpen && refresh() });
  const comparison = createComparison(context);
  const list = createList({
    open: (item) => opening.takeData(item.record.data, `\u201c${item.name}\u201d, kept here`),
    rename: (item, name) => {
      const record = { ...item.record, name, data: { ...item.setup, name } };
      rewrite(item, record, `Renamed to \u201c${name}\u201d.`);
    },
    replace: (item) => {
      const setup = { ...goodSetup(), name: item.name };
      rewrite(item, recordOf(setup, item.record), `\u201c${item.name}\u201d is now the setup at hand.`);
    },
    save: (item) => "fault" in item
      ? download(rawText(item.record), "tabwright-damaged.json")
      : saveFile(item.setup, []),
    remove,
  });

  const name = element("input", {
    type: "text", id: "setups-own-name", className: "text-input", maxLength: 80, autocomplete: "off", enterKeyHint: "done",
  });
  const about = element("p", { className: "remark" });
  const keepButton = button("Keep here");
  const saveButton = button("Save as a file");
  const shareButton = button("Share");
  shareButton.hidden = true;
  const withParts = element("input", { type: "checkbox", className: "flag-input", id: "setups-with-parts" });
  const partsWords = element("span");
  const partsLine = element("label", { className: "setups-tick", hidden: true }, withParts, partsWords);
  const none = element("p", { className: "remark" });
  const root = element(
    "div",
    { className: "setups" },
    element(
      "section",
      {},
      element("label", { className: "field-label", htmlFor: name.id }, "Name of the setup at hand"),
      name,
      about,
      element("div", { className: "setups-buttons" }, keepButton, saveButton, shareButton, opening.button),
      partsLine,
      ...opening.elements,
    ),
    element("section", {}, element("h3", {}, "Kept in this browser"), none, list.element),
    comparison.element,
    element("p", { className: "remark" }, "Kept setups stay on this device, in this browser. Clearing the browser\u2019s data "
      + "deletes them: save as a file what must not be lost."),
    status.element,
  );

  /** @type {(Sound|Damaged)[]} */
  let items = [];
  /** @type {import("../store.js").Kept[]} */
  let parts = [];
  let isOpen = false;

  name.addEventListener("input", () => emit(name, "edit", { path: "name", value: name.value }));
  keepButton.addEventListener("click", keepThis);
  saveButton.addEventListener("click", () => saveFile(goodSetup(), partsWanted()));
  shareButton.addEventListener("click", async () => {
    const file = shareable(...fileOf(goodSetup(), partsWanted()));
    try {
      if (file && await share(file)) status.say(`Passed on: ${file.name}.`);
    } catch (error) {
      console.warn(error);
      status.say("This browser did not pass the file on. Save it instead.");
    }
  });
  withParts.addEventListener("change", offerShare);
  whenKeptElsewhere("setups", () => isOpen && refresh());
  whenKeptElsewhere("parts", () => isOpen && refresh());

  function partsWanted() {
    return withParts.checked ? parts : [];
  }

  /** @param {Setup} setup @param {any[]} wanted  @returns {[text: string, name: string]} */
  function fileOf(setup, wanted) {
    return [fileText(setup, wanted), fileName(setup)];
  }

  /** @param {Setup} setup @param {any[]} wanted */
  function saveFile(setup, wanted) {
    const [text, file] = fileOf(setup, wanted);
    download(text, file);
    status.say(`Saved: ${file}. Look among the browser\u2019s downloads.`);
  }

  function offerShare() {
    shareButton.hidden = !shareable(...fileOf(goodSetup(), partsWanted()));
  }

  async function keepThis() {
    const setup = goodSetup();
    // Asked for while the builder looks; a browser that says no keeps them all the same, as long as it has room.
    navigator.storage?.persist?.().catch(() => {});
    const record = recordOf(setup);
    const before = items.filter((item) => !("fault" in item) && item.name === record.name);
    await attempt(() => keep("setups", record), () => {
      const also = before.length > 0 ? " There is another of this name." : "";
      status.say(`Kept: \u201c${record.name}\u201d.${also}`, () => takeBack(() => drop("setups", record.id)));
    });
  }

  /** @param {Sound} item @param {import("../store.js").Kept} record @param {string} words */
  async function rewrite(item, record, words) {
    const before = item.record;
    await attempt(() => keep("setups", record), () => status.say(words, () => takeBack(() => keep("setups", before))));
  }

  /** @param {Sound|Damaged} item */
  async function remove({ record, name: called }) {
    await attempt(() => drop("setups", record.id), () => {
      status.say(`Deleted: \u201c${called}\u201d.`, () => takeBack(() => keep("setups", record)));
      status.focus();
    });
  }

  /** @param {() => Promise<void>} act */
  function takeBack(act) {
    return attempt(act, () => keepButton.focus());
  }

  /** @param {() => Promise<void>} act @param {() => void} done */
  async function attempt(act, done) {
    try {
      await act();
    } catch (error) {
      status.say(storeTrouble(error));
      return;
    }
    await refresh();
    done();
  }

  async function refresh() {
    try {
      const [records, partList] = await Promise.all([listKept("setups"), partsKept()]);
      items = records.map((record) => inspected(record, core));
      parts = partList;
      setText(none, items.length === 0 ? "None yet." : "");
    } catch (error) {
      items = [];
      parts = [];
      setText(none, storeTrouble(error));
    }
    none.hidden = none.textContent === "";
    list.show(items);
    comparison.offer(/** @type {Sound[]} */ (items.filter((item) => !("fault" in item))));
    partsLine.hidden = parts.length === 0;
    setText(partsWords, `With my parts (${parts.length})`);
    if (parts.length === 0) withParts.checked = false;
    offerShare();
  }

  return {
    element: root,
    update({ setup, problems }) {
      if (!isOpen) {
        isOpen = true;
        refresh().then(comparison.ask);
      }
      showText(name, String(setup.name));
      const good = goodSetup();
      const size = `Rotor ${lengthText(good.wheel.rotor_diameter)} on hub ${lengthText(good.wheel.hub_width)}.`;
      setText(about, problems.length === 0
        ? size
        : `${size} These are the last good values: what is typed now has something to correct, so it is neither kept nor saved.`);
    },
    closed() {
      isOpen = false;
      comparison.stop();
      opening.clear();
      status.say("");
    },
    take: opening.take,
  };
}

/** @param {string} words */
function button(words) {
  return element("button", { type: "button", className: "button", textContent: words });
}
