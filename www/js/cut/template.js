import { element, setText } from "../dom.js";
import { codeMark } from "../send/code.js";
import { download } from "../setups/save.js";
import { drawn } from "./drawing.js";
import { counted } from "./words.js";

/**
 * @typedef {import("./shapes.js").Template} Template
 * @typedef {import("./shapes.js").TemplatePage} TemplatePage
 */

export const PAPERS = { a4: "A4", letter: "US Letter" };
/** On the page's root while the template is what a print shows. */
const PRINTS = "prints-template";
const SVG_KIND = "image/svg+xml";

/**
 * The paper template: its pages full size on paper, and before that on show. As long as they are on show, whatever prints
 * the page prints them: some phones ask for the pages again after the first print has begun.
 */
export function createTemplate() {
  const root = document.documentElement;
  const open = element("button", { type: "button", className: "button", disabled: true }, "Template to print");
  const words = element("p", { className: "remark" });
  const title = element("h2", { id: "cut-template-title" });
  const print = element("button", { type: "button", className: "button cut-print" }, "Print");
  const close = element("button", { className: "button" }, "Close");
  const steps = element("ol");
  const shown = element("div", { className: "cut-sheets" });
  const dialog = element("dialog", { className: "cut-template", "aria-labelledby": title.id },
    element("header", {}, title, element("form", { method: "dialog" }, close)),
    element("div", { className: "cut-template-body", tabIndex: 0, role: "region", "aria-labelledby": title.id }, steps, shown),
    element("footer", {}, print));
  /** For paper alone. */
  const sheets = element("div", { className: "template-sheets", "aria-hidden": "true" });
  /** @type {Template|null} */
  let template = null;
  let link = "";
  let name = "";
  let titleBefore = "";

  open.addEventListener("click", () => {
    if (!template) return;
    setText(title, `Template, ${PAPERS[template.paper]}, ${counted(template.pages.length, "page")}`);
    steps.replaceChildren(...stepsFor(template).map((text) => element("li", {}, text)));
    const pages = template.pages.map((page) => pageDrawing(page, link));
    shown.replaceChildren(...template.pages.map((page, index) => preview(page, pages[index])));
    sheets.className = `template-sheets template-${template.paper}`;
    sheets.replaceChildren(...pages.map((page) => element("div", { className: "template-sheet" }, copied(page))));
    document.body.append(sheets);
    root.classList.add(PRINTS);
    // Browsers offer it as the name of a file.
    titleBefore = document.title;
    document.title = name.replace(/\.svg$/, `-${template.paper}`);
    dialog.showModal();
  });
  dialog.addEventListener("close", leave);
  print.addEventListener("click", () => globalThis.print());

  function leave() {
    if (!root.classList.contains(PRINTS)) return;
    root.classList.remove(PRINTS);
    sheets.remove();
    sheets.replaceChildren();
    shown.replaceChildren();
    document.title = titleBefore;
  }

  /** @param {TemplatePage} page @param {SVGSVGElement} svg */
  function preview(page, svg) {
    const label = `Page ${page.name}`;
    const save = element("button", { type: "button", className: "button" }, `Save page ${page.name} as SVG`);
    save.addEventListener("click", () => download(new XMLSerializer().serializeToString(svg), pageName(page), SVG_KIND));
    const picture = element("div", { className: "cut-paper", role: "img", "aria-label": label });
    const copy = copied(svg);
    copy.setAttribute("aria-hidden", "true");
    picture.append(copy);
    return element("figure", {}, element("figcaption", {}, label), picture, save);
  }

  /** @param {TemplatePage} page */
  function pageName(page) {
    return name.replace(/\.svg$/, `-${template?.paper}-page-${page.name.replaceAll(" ", "-")}.svg`);
  }

  return {
    nodes: [words, open, dialog],
    /** @param {Template} made @param {string} address  For the code. @param {string} fileName  Of the whole template. */
    show(made, address, fileName) {
      [template, link, name] = [made, address, fileName];
      open.disabled = false;
      setText(words, `${PAPERS[made.paper]}, ${counted(made.pages.length, "page")} at 1:1${made.tiled ? ", to be joined by their marks" : ""}, with check bars, punch crosses, every number of the setup and its code.`);
    },
    clear() {
      template = null;
      open.disabled = true;
      dialog.close();
    },
    close() { dialog.close(); },
  };
}

/** @param {Template} template */
function stepsFor({ paper, tiled }) {
  return [
    `Print at 100 %, \u201cactual size\u201d, on ${PAPERS[paper]}. Turn off \u201cfit to page\u201d, and headers and footers.`,
    "Measure both bars on every page: 100 mm. If one is off, do not use the print.",
    ...(tiled ? ["Lay the pages over each other so that the marks of the same name meet, then tape them."] : []),
    "Glue it on the plate, punch the crosses, then check hole to hole and hole to axle against the table before drilling.",
  ];
}

/** A page with the link's code in its place. @param {TemplatePage} page @param {string} link */
function pageDrawing(page, link) {
  const svg = drawn(page.svg);
  if (page.qr) svg.append(codeMark(link, page.qr));
  return svg;
}

/** @param {SVGSVGElement} svg */
function copied(svg) {
  return /** @type {SVGSVGElement} */ (svg.cloneNode(true));
}
