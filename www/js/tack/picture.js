import { element } from "../dom.js";
import { createPicture } from "../picture.js";

/** A picture by the core that stays in place while what it shows changes. @param {string} className */
export function createFigure(className) {
  const figure = element("figure", { className: `tack-picture ${className}`, role: "img", hidden: true }, element("div", { className: "picture-frame" }));
  const picture = createPicture(figure, () => picture.look(picture.page()));
  return {
    element: figure,
    /** @param {string|null} svg @param {string} name  What it shows, for who cannot see it. */
    show(svg, name) {
      figure.hidden = svg === null;
      if (svg === null) return;
      figure.setAttribute("aria-label", name);
      picture.show(svg);
      const [, , width, height] = picture.page();
      // As high as its width asks for; the frame itself takes no size from what it holds.
      if (height > 0) figure.style.setProperty("aspect-ratio", `${width} / ${height}`);
    },
  };
}
