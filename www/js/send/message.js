import { element, setText } from "../dom.js";
import { exact } from "../numbers.js";
import { withValueAt } from "../path.js";
import { sharingButtons } from "./sharing.js";

/**
 * @typedef {import("../types.js").Context} Context
 * @typedef {import("../types.js").Setup} Setup
 */

const ROTOR = "wheel.rotor_diameter";
/** The two sizes that builders ask about most: common practice, no source. */
const USUAL = [180, 203];
const NONE = "";

/**
 * The setup explained in a few sentences, with what another rotor would change.
 * @param {Context} context @param {() => string} link
 */
export function createMessage({ core, client }, link) {
  const text = element("p", { className: "message", id: "message", "aria-live": "polite" });
  const remark = element("p", { className: "remark", role: "status" });
  const select = element("select", { className: "select-input", id: "message-rotor" });
  const label = element("label", { htmlFor: "message-rotor" }, "Compared with");
  const message = () => text.textContent ?? "";
  const sharing = sharingButtons(text, { text: message, share: () => ({ text: message(), url: link() }) });
  const sizes = core.fields().flatMap((group) => group.fields).find(({ key }) => key === ROTOR)?.stops ?? [];
  const owner = {};
  /** @type {Setup} */
  let setup;
  let isChosen = false;

  /** @param {number} size */
  function withRotor(size) {
    return withValueAt(setup, ROTOR, size);
  }

  /** Another usual size; else the nearest that fares otherwise; else the nearest. @param {number[]} others */
  function telling(others) {
    const own = setup.wheel.rotor_diameter;
    const counterpart = USUAL.includes(own) ? USUAL.find((size) => size !== own) : undefined;
    if (counterpart !== undefined) return counterpart;
    const nearest = others.toSorted((one, other) => Math.abs(one - own) - Math.abs(other - own));
    const verdict = (/** @type {Setup} */ asked) => {
      const answer = core.report(asked);
      return answer.ok ? answer.report.verdict : "";
    };
    const ownVerdict = verdict(setup);
    return nearest.find((size) => ![ownVerdict, ""].includes(verdict(withRotor(size)))) ?? nearest[0];
  }

  function offer() {
    const others = sizes.filter((size) => size !== setup.wheel.rotor_diameter);
    const before = isChosen ? select.value : String(telling(others));
    const options = others.map((size) => element("option", { value: String(size) }, `Rotor ${exact(size)} mm`));
    select.replaceChildren(element("option", { value: NONE }, "Nothing"), ...options);
    select.value = before;
    if (select.selectedIndex === -1) select.value = String(telling(others));
  }

  function ask() {
    const others = select.value === NONE ? [] : [withRotor(Number(select.value))];
    sharing.forget();
    client.run(owner, [["explain", setup, ...others]], {
      answer(reply) {
        setText(remark, reply.ok ? "" : reply.errors.map((/** @type {{message: string}} */ problem) => problem.message).join(" "));
        setText(text, reply.ok ? reply.answer.message : "");
      },
      done() {},
      failed(words) { setText(remark, words); },
    });
  }

  select.addEventListener("change", () => {
    isChosen = true;
    ask();
  });

  return {
    element: element("div", {}, element("div", { className: "message-choice" }, label, select), text, remark, sharing.element),
    /** @param {Setup} good */
    show(good) {
      setup = good;
      offer();
      ask();
    },
  };
}
