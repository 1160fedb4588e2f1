import { element, setText } from "../dom.js";
import { createRow } from "../form/row.js";
import { numberControl } from "../form/simple.js";
import { download, share, shareable } from "../setups/save.js";
import { lengthText } from "../units.js";
import { rename } from "./choices.js";

/**
 * @typedef {import("../types.js").Problem} Problem
 * @typedef {import("./shapes.js").CutFile} CutFile
 */

/** Kinds of the core, in the order of how often they are asked for. */
const KINDS = {
  dxf_r2000: ["DXF, release 2000", "For laser, water jet and plasma: closed outlines with true arcs, in millimetres."],
  dxf_r12: ["DXF, release 12", "For old controllers. It cannot say its unit: tell the shop that it is millimetres."],
  svg: ["SVG for cutting", "The same in millimetres, for programs that take no DXF."],
  template_svg: ["SVG of the template", "1:1 on one sheet of any size, with check bars, for a large printer."],
};
export const FILE_KINDS = Object.keys(KINDS);
const NOT_SHARED = "It could not be shared from here. Save it instead.";
const KERF = {
  key: "options.kerf",
  label: "Width of the cut (kerf)",
  help: "Leave 0 where the shop allows for its own cut, as most do: ask. Otherwise outlines move out by half of it and holes shrink by half, in DXF and cutting SVG.",
  unit: "mm",
  kind: /** @type {const} */ ("number"),
  default: 0,
  optional: true,
  hard: /** @type {[number, number]} */ ([0, 5]),
  plausible: null,
  step: 0.1,
  stops: [],
  decimals: 3,
  choices: [],
  axes: [],
};

/**
 * The files, made beforehand so that a tap saves at once.
 * @param {(kerf: number|string) => void} kerfChanged
 */
export function createFiles(kerfChanged) {
  const kerf = createRow(KERF, numberControl(KERF));
  kerf.show(0);
  rename(kerf.element);
  kerf.element.addEventListener("edit", (event) => {
    event.stopPropagation();
    kerfChanged(/** @type {CustomEvent} */ (event).detail.value);
  });
  const remark = element("p", { className: "remark" });
  const status = element("p", { className: "remark", role: "status" });
  const entries = Object.entries(KINDS).map(([kind, [name, words]]) => createEntry(kind, name, words, (text) => setText(status, text)));

  return {
    element: element("div", { className: "cut-files" }, kerf.element, remark, element("ul", {}, ...entries.map((entry) => entry.element)), status),
    /** @param {string} kind @param {CutFile|null} file  None where it may not be had. */
    show(kind, file) {
      entries.find((entry) => entry.kind === kind)?.show(file);
    },
    clear() {
      for (const entry of entries) entry.show(null);
      setText(status, "");
    },
    /** @param {number|string} width @param {Problem[]} problems */
    tell(width, problems) {
      kerf.show(width);
      kerf.remark(problems, []);
      rename(kerf.element);
      setText(remark, problems.length > 0 ? "" : typeof width === "number" && width > 0
        ? `DXF and cutting SVG are larger by ${lengthText(width / 2, 2)} all round and their holes smaller: tell the shop, or it is allowed for twice.`
        : "Drawn at the finished size: the shop allows for the width of its cut.");
    },
    inputFor: (/** @type {string} */ path) => (path === KERF.key ? kerf.element.querySelector("input") : null),
  };
}

/** @param {string} kind @param {string} name @param {string} words @param {(text: string) => void} tell */
function createEntry(kind, name, words, tell) {
  /** @type {CutFile|null} */
  let file = null;
  /** @type {File|undefined} */
  let passed;
  const fileName = element("span", { className: "cut-file-name" }, "\u00a0");
  const save = element("button", { type: "button", className: "button", disabled: true }, "Save", element("span", { className: "hidden-text" }, ` ${name}`));
  const send = element("button", { type: "button", className: "button", hidden: true }, "Share\u2026", element("span", { className: "hidden-text" }, ` ${name}`));
  save.addEventListener("click", () => {
    if (!file) return;
    download(file.text, file.name, file.mime);
    tell(`${file.name} is in this device\u2019s downloads.`);
  });
  send.addEventListener("click", async () => {
    if (!passed) return;
    try {
      await share(passed);
    } catch {
      tell(NOT_SHARED);
    }
  });
  return {
    kind,
    element: element("li", {}, element("div", {}, element("strong", {}, name), element("p", { className: "remark" }, words), fileName), element("div", { className: "cut-file-buttons" }, save, send)),
    /** @param {CutFile|null} made */
    show(made) {
      file = made;
      passed = made ? shareable(made.text, made.name, made.mime) : undefined;
      save.disabled = made === null;
      send.hidden = passed === undefined;
      if (made) setText(fileName, made.name);
    },
  };
}
