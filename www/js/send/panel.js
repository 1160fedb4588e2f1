import { element, setText } from "../dom.js";
import { createWriter } from "../link/write.js";
import { createCode } from "./code.js";
import { createMessage } from "./message.js";
import { sharingButtons } from "./sharing.js";

export const title = "Send";

const STALE = "What is typed now has no answer. This is the last setup that had one.";
const CAUTION = "A brake tab to try out: geometry and estimated loads only, never an approval.";
const OWN_MACHINE = "This address is that of your own machine: the link opens on it alone.";
const OWN_HOSTS = ["localhost", "127.0.0.1", "[::1]"];

/** @param {import("../types.js").Context} context @returns {import("../types.js").Panel} */
export function createPanel(context) {
  const writer = createWriter(context.core);
  const base = location.origin + location.pathname;
  const stale = element("p", { className: "send-stale", textContent: STALE });
  const field = element("textarea", { id: "link", className: "text-input link-field", readOnly: true, rows: 4, spellcheck: false });
  field.setAttribute("aria-describedby", "link-length");
  field.addEventListener("focus", () => field.select());
  const length = element("p", { className: "remark", id: "link-length" });
  const ownMachine = element("p", { className: "remark", textContent: OWN_MACHINE, hidden: !OWN_HOSTS.includes(location.hostname) });
  const sharing = sharingButtons(field, { text: () => field.value, share: () => ({ title: "Tabwright", text: CAUTION, url: field.value }) });
  const code = createCode();
  const message = createMessage(context, () => field.value);
  /** @type {import("../types.js").Setup|undefined} */
  let shown;

  return {
    element: element(
      "div",
      { className: "send" },
      stale,
      section("Link", element("label", { htmlFor: "link" }, "Opens this setup on any phone or computer"), field, sharing.element, length, ownMachine),
      section("Code to scan", code.element),
      section("Message", message.element),
    ),
    update({ problems }) {
      stale.hidden = problems.length === 0;
      const setup = context.goodSetup();
      if (setup === shown) return;
      shown = setup;
      const { link, shortest } = writer.links(setup, base);
      field.value = link;
      setText(length, `${link.length} characters. It holds the whole setup, and nothing is kept elsewhere: who has the link has the numbers.`);
      sharing.forget();
      code.show(shortest);
      message.show(setup);
    },
    closed() { code.close(); },
  };
}

/** @param {string} heading @param {...Node} children */
function section(heading, ...children) {
  return element("section", {}, element("h3", {}, heading), ...children);
}
