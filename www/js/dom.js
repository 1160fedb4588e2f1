/**
 * A new element with properties set and children added; strings become text.
 * Names with a dash are set as attributes.
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag
 * @param {Record<string, any>} [properties]
 * @param {...(Node|string)} children
 * @returns {HTMLElementTagNameMap[K]}
 */
export function element(tag, properties = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(properties)) {
    if (name.includes("-")) made.setAttribute(name, value);
    else /** @type {any} */ (made)[name] = value;
  }
  made.append(...children);
  return made;
}

/**
 * The element of that id, which the page's markup holds.
 * @param {string} id
 * @returns {HTMLElement}
 */
export function byId(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error(`The page has no element "${id}".`);
  return found;
}

/**
 * Sets text only when it differs, so that nothing is repainted or announced twice.
 * @param {Element} target @param {string} text
 */
export function setText(target, text) {
  if (target.textContent === text) return;
  const { firstChild, lastChild } = target;
  // New words in the same node are laid out sooner than a new node.
  if (firstChild instanceof Text && firstChild === lastChild) firstChild.data = text;
  else target.textContent = text;
}

/**
 * Tells whoever listens further up.
 * @param {Element} source @param {string} type @param {any} [detail]
 */
export function emit(source, type, detail) {
  source.dispatchEvent(new CustomEvent(type, { bubbles: true, detail }));
}

/**
 * One of the verdict marks drawn in the page's markup.
 * @param {string} name
 */
export function mark(name) {
  const svgNamespace = "http://www.w3.org/2000/svg";
  const svg = document.createElementNS(svgNamespace, "svg");
  const use = document.createElementNS(svgNamespace, "use");
  svg.setAttribute("class", "mark");
  svg.setAttribute("aria-hidden", "true");
  svg.append(use);
  setMark(svg, name);
  return svg;
}

/** @param {Element} svg @param {string} name */
export function setMark(svg, name) {
  const use = svg.querySelector("use");
  const href = `#mark-${name}`;
  // Even the same mark set again is drawn anew.
  if (use && use.getAttribute("href") !== href) use.setAttribute("href", href);
}
