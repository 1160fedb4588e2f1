import { element, setText } from "../dom.js";
import { goToField } from "../focus.js";
import { dotted } from "../path.js";
import { createGroups } from "./groups.js";
import { createInputs } from "./inputs.js";
import { createPicture } from "./picture.js";
import { showSeatingFirst } from "./seating-arc.js";
import { createTyre } from "./tyre.js";
import { createHead, createWeakest } from "./weakest.js";

/** @typedef {import("../types.js").Setup} Setup */

export const name = "Loads";

const STALE = "What is typed now has no answer. These results belong to the last good values.";
const LOW = "A cargo bicycle or trike sits lower and longer: it tips later, and grip is the limit. Measure both with the load on.";

/** What the brake does to the parts: an estimate, the weakest first. @param {import("../types.js").Context} context @returns {import("../types.js").Panel} */
export function createPage(context) {
  const owner = {};
  const inputs = createInputs(context.core.fields().flatMap((group) => group.fields));
  const tyre = createTyre(context);
  const head = createHead();
  const groups = createGroups(inputs.ofGroup);
  const weakest = createWeakest(groups.lead);
  const picture = createPicture();

  const message = element("p", { className: "remark load-message", role: "status" });
  const again = element("button", { type: "button", className: "button", hidden: true }, "Try again");
  const stale = element("p", { className: "load-stale", hidden: true }, STALE);
  const problems = element("ul", { className: "load-problems" });
  const braking = element("p", { className: "load-case" });
  const low = element("p", { className: "remark", hidden: true }, LOW);
  const answered = element(
    "div",
    { className: "load-answered", hidden: true },
    section("Weakest first", weakest.element),
    section("Forces", picture.element),
    section("Part by part", groups.element),
  );
  const asking = section("Braking", braking, low, inputs.ofCase, tyre.element, element(
    "details",
    { className: "group load-others" },
    element("summary", {}, "What other cases ask for"),
    inputs.others,
  ));
  answered.firstElementChild?.after(asking);
  const root = element("div", { className: "load" }, head.bar, stale, problems, head.element, message, again, answered);
  /** @type {Setup|undefined} */
  let asked;
  let isWaiting = false;

  function ask() {
    const setup = context.goodSetup();
    if (setup === asked) return;
    asked = setup;
    isWaiting = true;
    again.hidden = true;
    if (answered.hidden) setText(message, "Working it out\u2026");
    /** @type {any[]} */
    const replies = [];
    context.client.run(owner, [["loads", setup], ["drawing", setup, "side"]], {
      answer(reply, index) { replies[index] = reply; },
      done: () => show(replies, setup),
      failed: halt,
    });
  }

  /** @param {any[]} replies @param {Setup} setup */
  function show([reply, drawing], setup) {
    isWaiting = false;
    answered.hidden = !reply.ok;
    setText(message, reply.ok ? "" : reply.errors.map((/** @type {{message: string}} */ problem) => problem.message).join(" "));
    root.classList.remove("load-outdated");
    if (!reply.ok) return;
    /** @type {import("./words.js").Loads} */
    const loads = reply.answer;
    head.show(loads);
    setText(braking, loads.case);
    weakest.show(loads);
    if (drawing.ok) picture.show(loads, drawing.svg, setup);
    groups.show(loads, setup);
  }

  /** @param {string} words */
  function halt(words) {
    asked = undefined;
    isWaiting = false;
    root.classList.add("load-outdated");
    setText(message, answered.hidden ? words : `${words} What is shown belongs to earlier values.`);
    again.hidden = false;
  }

  /** @param {import("../types.js").Problem} problem */
  function problemLink({ field, message: text }) {
    const link = element("button", { type: "button", className: "link" }, text);
    link.addEventListener("click", () => {
      const own = inputs.inputFor(dotted(field));
      if (!own) {
        /** @type {HTMLDialogElement|null} */ (root.closest("dialog"))?.close();
        goToField(field);
        return;
      }
      for (let outer = own.closest("details"); outer; outer = outer.parentElement?.closest("details") ?? null) outer.open = true;
      own.focus({ preventScroll: true });
      own.scrollIntoView({ block: "center" });
    });
    return element("li", {}, link);
  }

  let shownProblems = "";
  again.addEventListener("click", ask);
  return {
    element: root,
    update(model) {
      showSeatingFirst();
      inputs.update(model);
      low.hidden = model.setup.load?.case !== "rider";
      const now = JSON.stringify(model.problems);
      if (now !== shownProblems) {
        shownProblems = now;
        stale.hidden = model.problems.length === 0;
        problems.replaceChildren(...model.problems.map(problemLink));
      }
      root.classList.toggle("load-outdated", model.problems.length > 0);
      ask();
    },
    closed() {
      context.client.cancel(owner);
      if (isWaiting) asked = undefined;
    },
  };
}

/** @param {string} heading @param {...Node} children */
function section(heading, ...children) {
  return element("section", {}, element("h3", {}, heading), ...children);
}
