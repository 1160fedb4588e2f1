import { element, emit, setText } from "../dom.js";
import { lengthText } from "../units.js";

const ABOUT = "As it stands on the tyre's side, width and bead seat: 47-559.";

/**
 * The tyre's radius from its ISO 5775 designation, which is typed and kept nowhere.
 * @param {import("../types.js").Context} context
 */
export function createTyre({ client }) {
  const owner = {};
  const about = element("p", { className: "remark", id: "load-tyre-about" }, ABOUT);
  const said = element("p", { className: "load-tyre-said", id: "load-tyre-said", role: "status", hidden: true });
  const input = element("input", {
    type: "text", id: "load-tyre", className: "text-input", autocomplete: "off", spellcheck: false, enterKeyHint: "done",
    "aria-describedby": `${about.id} ${said.id}`,
  });
  const form = element(
    "form",
    { className: "field load-tyre", method: "dialog" },
    element("label", { className: "field-label", htmlFor: input.id }, "Tyre size, ISO 5775"),
    element("div", { className: "load-tyre-line" }, input, element("button", { className: "button" }, "Set radius")),
    about,
    said,
  );

  /** @param {string} words @param {boolean} isRefused */
  function tell(words, isRefused) {
    setText(said, words);
    said.hidden = words === "";
    form.classList.toggle("refused", isRefused);
    said.classList.toggle("field-note", isRefused);
    if (isRefused) input.setAttribute("aria-invalid", "true");
    else input.removeAttribute("aria-invalid");
  }

  input.addEventListener("input", () => tell("", false));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    client.run(owner, [["wheel_size", input.value]], {
      answer(reply) {
        if (!reply.ok) {
          tell(reply.errors.map((/** @type {{message: string}} */ problem) => problem.message).join(" "), true);
          input.focus();
          return;
        }
        const { diameter, radius, wheel } = reply.answer;
        const words = `Tyre radius set to ${lengthText(radius)}, half of ${lengthText(diameter)} across.`;
        emit(form, "changes", { changes: [{ path: "wheel.tyre_radius", value: radius }, { path: "load.wheel", value: wheel }], words });
        tell(`${words} A loaded tyre is a few millimetres less: measure where it matters.`, false);
      },
      done() {},
      failed(words) { tell(words, true); },
    });
  });

  return { element: form };
}
