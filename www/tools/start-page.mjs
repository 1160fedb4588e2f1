// What the start page links: read from www/index.html, and put in its place by what the build has made of it.

const STYLE_LINK = /^\s*<link rel="stylesheet" href="css\/([\w-]+\.css)"(?: media="(\w+)")?>\n/gm;
const SCRIPT = '<script type="module" src="js/main.js"></script>';

/** One sheet that takes in all that the page links, in their order. @param {string} html */
export function styleImports(html) {
  const sheets = [...html.matchAll(STYLE_LINK)].map(([, name, media = ""]) => `@import "./css/${name}" ${media};`);
  if (sheets.length === 0) throw new Error("www/index.html must link its style sheets in css/");
  return sheets.join("\n");
}

/** @param {string} html @param {string} styles @param {string} script  Markup in the place of the links. */
export function withParts(html, styles, script) {
  if (html.split(SCRIPT).length !== 2) throw new Error(`www/index.html must have this once: ${SCRIPT}`);
  let isFirst = true;
  const styled = html.replace(STYLE_LINK, () => {
    const markup = isFirst ? `  ${styles}\n` : "";
    isFirst = false;
    return markup;
  });
  return styled.replace(SCRIPT, () => script);
}
