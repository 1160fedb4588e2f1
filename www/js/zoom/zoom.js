/** How near the drawings are looked at. */

/** @typedef {{width: number, height: number}} Size */
/** @typedef {{x: number, y: number}} Point */
/**
 * @typedef {Object} Looked  One drawing.
 * @property {HTMLElement} figure
 * @property {() => number[]} page  Left, top, width and height of the whole drawing, in millimetres.
 * @property {() => Size} size  Of its frame, in pixels.
 * @property {(box: number[]) => void} look  Shows that part of it, as left, top, width and height.
 */

export const MOST = 8;

/**
 * One zoom for all drawings: they share the scale and what lies in the middle across the page, as they are equally wide and
 * stand one above the other; each has its own middle down the page.
 * @param {Looked[]} pictures
 * @param {(scale: number) => void} changed  Told after each change.
 */
export function createZoom(pictures, changed) {
  let scale = 1;
  let middleX = 0;
  let side = "";
  /** @type {Map<Looked, number>} */
  const middlesY = new Map();

  /** Millimetres per pixel. @param {Looked} picture */
  function unit(picture) {
    const [, , width, height] = picture.page();
    const size = picture.size();
    return Math.max(width / size.width, height / size.height) / scale;
  }

  /** What is looked at now, inside the page wherever that is larger. @param {Looked} picture */
  function box(picture) {
    const page = picture.page();
    if (scale === 1) return page;
    const [left, top, width, height] = page;
    const mm = unit(picture);
    const size = picture.size();
    const [seenWidth, seenHeight] = [size.width * mm, size.height * mm];
    const x = inside(middleX, left, width, seenWidth);
    const y = inside(middlesY.get(picture) ?? top + height / 2, top, height, seenHeight);
    return [x - seenWidth / 2, y - seenHeight / 2, seenWidth, seenHeight];
  }

  /** @param {Looked} picture */
  function refresh(picture) {
    const { width, height } = picture.size();
    if (width > 0 && height > 0 && picture.page()[2] > 0) picture.look(box(picture));
  }

  /** @param {Looked} picture */
  function middle(picture) {
    const [left, top, width, height] = box(picture);
    return { x: left + width / 2, y: top + height / 2 };
  }

  /** @param {Looked} picture @param {Point} point */
  function moveTo(picture, { x, y }) {
    middleX = x;
    middlesY.set(picture, y);
    // Back to what was really shown, so that no way past the edge has to be gone back.
    const shown = middle(picture);
    middleX = shown.x;
    middlesY.set(picture, shown.y);
    pictures.forEach(refresh);
    changed(scale);
  }

  return {
    refresh,
    get scale() {
      return scale;
    },
    /** Pixels from the frame's left upper corner. @param {Looked} picture @param {number} factor @param {Point} [at]  Stays where it is; the middle unless given. */
    by(picture, factor, at) {
      const size = picture.size();
      if (size.width === 0) return;
      const { x, y } = middle(picture);
      const mm = unit(picture);
      const [across, down] = at ? [(at.x - size.width / 2) * mm, (at.y - size.height / 2) * mm] : [0, 0];
      const before = scale;
      scale = Math.min(Math.max(scale * factor, 1), MOST);
      const kept = 1 - before / scale;
      moveTo(picture, { x: x + across * kept, y: y + down * kept });
    },
    /** @param {Looked} picture @param {number} across @param {number} down  Pixels that the drawing moves by. */
    move(picture, across, down) {
      if (scale === 1) return;
      const { x, y } = middle(picture);
      const mm = unit(picture);
      moveTo(picture, { x: x - across * mm, y: y - down * mm });
    },
    /** Keeps the same part of the brake in the middle when the way ahead changes sides. @param {string} shown  The braked side. */
    show(shown) {
      if (side && shown !== side) {
        middleX = -middleX;
        pictures.forEach(refresh);
      }
      side = shown;
    },
    reset() {
      scale = 1;
      middleX = 0;
      middlesY.clear();
      pictures.forEach(refresh);
      changed(scale);
    },
  };
}

/** The middle of what is seen, kept so that the page fills it; the page's own middle where the page is smaller. */
function inside(/** @type {number} */ middle, /** @type {number} */ from, /** @type {number} */ length, /** @type {number} */ seen) {
  if (seen >= length) return from + length / 2;
  return Math.min(Math.max(middle, from + seen / 2), from + length - seen / 2);
}
