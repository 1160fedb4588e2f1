import { element, emit, setText } from "../dom.js";
import { storeTrouble, whenKeptElsewhere } from "../store.js";
import { dropPart, keepParts, listParts, partOf, tidyName } from "./parts.js";

/**
 * The parts kept in this browser: keep the one at hand, use, rename or delete one.
 * @typedef {import("../types.js").Field} Field
 * @typedef {import("./parts.js").KeptPart} KeptPart
 */

/** @param {import("../types.js").Context} context @param {typeof import("./steps.js").PARTS[number]} part @param {Field[]} fields */
export function createKept({ goodSetup }, part, fields) {
  const id = `keep-${part.kind}`;
  const name = element("input", { type: "text", id, className: "text-input", autocomplete: "off", maxLength: 80 });
  const save = element("button", { className: "button" }, `Keep this ${part.noun}`);
  const form = element("form", { className: "kept-form" }, element("label", { className: "field-label", htmlFor: id }, "Name"), name, save);
  const list = element("ul", { className: "kept-list" });
  const said = element("p", { role: "status", className: "kept-said" });
  const undo = element("button", { type: "button", className: "button", hidden: true }, "Undo delete");
  const root = element(
    "section",
    { className: "kept", "aria-labelledby": `${id}-title` },
    element("h3", { id: `${id}-title` }, `Kept: ${part.noun}`),
    list,
    form,
    said,
    undo,
  );
  /** @type {KeptPart|null} */
  let dropped = null;

  /**
   * Does something with the store and shows the list anew; says what came of it.
   * @param {() => Promise<unknown>} work @param {string} words
   */
  async function change(work, words) {
    try {
      await work();
      await show();
      setText(said, words);
      return true;
    } catch (error) {
      setText(said, storeTrouble(error));
      return false;
    } finally {
      undo.hidden = dropped === null;
    }
  }

  async function show() {
    const parts = (await listParts(fields)).filter(({ kind }) => kind === part.kind);
    list.replaceChildren(...parts.map(row));
  }

  /** @param {KeptPart} kept */
  function row(kept) {
    const use = element("button", { type: "button", className: "button kept-use" }, kept.name);
    use.setAttribute("aria-label", `Use ${kept.name}`);
    const rename = element("button", { type: "button", className: "button", "aria-label": `Rename ${kept.name}` }, "Rename");
    const remove = element("button", { type: "button", className: "button", "aria-label": `Delete ${kept.name}` }, "Delete");
    const item = element("li", {}, use, rename, remove);
    use.addEventListener("click", () => {
      const words = `${kept.name} is now the setup's ${part.noun}.`;
      emit(root, "changes", { changes: [{ path: part.kind, value: kept.data }], words });
      setText(said, words);
    });
    rename.addEventListener("click", () => item.replaceWith(renaming(kept)));
    remove.addEventListener("click", async () => {
      dropped = kept;
      if (await change(() => dropPart(kept.id), `${kept.name} is deleted.`)) undo.focus();
      else dropped = null;
    });
    return item;
  }

  /** @param {KeptPart} kept */
  function renaming(kept) {
    const input = element("input", { type: "text", className: "text-input", value: kept.name, maxLength: 80, "aria-label": `New name for ${kept.name}` });
    const done = element("button", { className: "button" }, "Rename");
    const form = element("form", { className: "kept-form" }, input, done);
    const item = element("li", {}, form);
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const wanted = tidyName(input.value);
      if (!wanted) setText(said, "A part needs a name.");
      else change(() => keepParts([{ ...kept, name: wanted, changed: Date.now() }], fields), `${kept.name} is now called ${wanted}.`);
    });
    queueMicrotask(() => input.select());
    return item;
  }

  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const wanted = tidyName(name.value);
    const record = wanted && partOf(goodSetup(), part.kind, wanted, fields);
    if (!record) {
      setText(said, "Give the part a name first, such as where it came from.");
      name.focus();
      return;
    }
    dropped = null;
    if (await change(() => keepParts([record], fields), `${wanted} is kept in this browser.`)) name.value = "";
  });
  undo.addEventListener("click", async () => {
    const part = dropped;
    if (!part) return;
    dropped = null;
    if (!(await change(() => keepParts([part], fields), `${part.name} is back.`))) dropped = part;
  });
  change(async () => {}, "");
  whenKeptElsewhere("parts", () => show().catch(storeTrouble));

  return { element: root };
}
