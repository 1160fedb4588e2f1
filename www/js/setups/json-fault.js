/** Where and why a text is no JSON, in words of our own: what browsers say differs, and some do not say where. */

const SHOWN_BEFORE = 40;
const SHOWN_AFTER = 20;
const SPACE = /[\t\n\r ]/;
const LITERAL = /(?:-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null)(?![\w.+-])/y;
const ESCAPE = /\\(?:["\\/bfnrt]|u[\da-fA-F]{4})/y;

/** @param {string} text  One that `JSON.parse` refuses. */
export function jsonFault(text) {
  const at = faultAt(text);
  const start = text.lastIndexOf("\n", at - 1) + 1;
  const line = text.slice(0, start).split("\n").length;
  if (text.slice(at).trim() === "") return `The file ends too early, in line ${line}. Save it again whole, or open another.`;
  const [found] = text.slice(Math.max(start, at - SHOWN_BEFORE), at + SHOWN_AFTER).trim().split("\n");
  return `This is not JSON: line ${line} cannot be read: ${found} \u2014 a value must be a plain number, text in double quotes, `
    + "true or false; commas stand between values, none after the last.";
}

/** The place of the first character that may not stand there, or the text's length. @param {string} text */
function faultAt(text) {
  /** Brackets that are open. @type {string[]} */
  const open = [];
  let wanted = "value";
  let at = 0;

  /** @param {number} next */
  function goOn(next) {
    wanted = open.length === 0 ? "end" : "comma";
    at = next;
  }

  for (;;) {
    while (at < text.length && SPACE.test(text[at])) at++;
    const char = text[at];
    if (char === undefined || wanted === "end") return at;
    const mayClose = wanted === "comma" || wanted.startsWith("first ");
    if (mayClose && char === (open.at(-1) === "{" ? "}" : "]")) {
      open.pop();
      goOn(at + 1);
    } else if (wanted === "comma") {
      if (char !== ",") return at;
      wanted = open.at(-1) === "{" ? "name" : "value";
      at++;
    } else if (wanted === "colon") {
      if (char !== ":") return at;
      wanted = "value";
      at++;
    } else if (char === '"') {
      const end = endOfText(text, at);
      if (end < 0) return -end - 1;
      if (wanted.endsWith("name")) {
        wanted = "colon";
        at = end;
      } else goOn(end);
    } else if (wanted.endsWith("name")) return at;
    else if (char === "{" || char === "[") {
      open.push(char);
      wanted = char === "{" ? "first name" : "first value";
      at++;
    } else {
      LITERAL.lastIndex = at;
      if (!LITERAL.test(text)) return at;
      goOn(LITERAL.lastIndex);
    }
  }
}

/** The place after the closing quote; where there is a fault, -1 less its place. @param {string} text @param {number} start */
function endOfText(text, start) {
  let at = start + 1;
  while (text[at] !== '"') {
    if (at >= text.length) return -text.length - 1;
    if (text.charCodeAt(at) < 0x20) return -at - 1;
    if (text[at] === "\\") {
      ESCAPE.lastIndex = at;
      if (!ESCAPE.test(text)) return -at - 1;
      at = ESCAPE.lastIndex;
    } else at++;
  }
  return at + 1;
}
