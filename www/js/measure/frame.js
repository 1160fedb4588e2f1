import { element } from "../dom.js";
import { createPicture } from "../picture.js";

/** A picture by the core, with a name for those who cannot see it. @param {string} [className] */
export function createFrame(className = "measure-picture") {
  const figure = element("figure", { className }, element("div", { className: "picture-frame" }));
  figure.setAttribute("role", "img");
  const picture = createPicture(figure, () => picture.look(picture.page()));
  return {
    element: figure,
    /** @param {import("../types.js").Core} core @param {import("../types.js").Setup} setup @param {string} path @param {string} text @param {string} name */
    show(core, setup, path, text, name) {
      const answer = core.measure(setup, "picture", path, text);
      if (answer.ok) picture.show(answer.answer);
      figure.hidden = !answer.ok;
      figure.setAttribute("aria-label", name);
    },
  };
}
