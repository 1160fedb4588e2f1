/** So far sideways, in pixels, and a finger turns the page. */
const SWIPE_PX = 40;

/** @type {Record<string, number>} */
const KEYS = { ArrowRight: 1, ArrowDown: 1, PageDown: 1, ArrowLeft: -1, ArrowUp: -1, PageUp: -1, Home: -Infinity, End: Infinity };

/**
 * Turns pages by a swipe and by keys.
 * @param {{swiped: HTMLElement, keyed: HTMLElement, isOpen: () => boolean, by: (pages: number) => void}} book
 */
export function letTurnPages({ swiped, keyed, isOpen, by }) {
  /** @type {{pointer: number, x: number, y: number}|null} */
  let start = null;
  swiped.addEventListener("pointerdown", (event) => {
    if (event.isPrimary) start = { pointer: event.pointerId, x: event.clientX, y: event.clientY };
  });
  swiped.addEventListener("pointerup", (event) => {
    if (event.pointerId !== start?.pointer) return;
    const [across, down] = [event.clientX - start.x, event.clientY - start.y];
    start = null;
    if (Math.abs(across) >= SWIPE_PX && Math.abs(across) > 1.5 * Math.abs(down)) by(across < 0 ? 1 : -1);
  });
  swiped.addEventListener("pointercancel", () => { start = null; });

  keyed.addEventListener("keydown", (event) => {
    const pages = KEYS[event.key];
    if (!isOpen() || pages === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    // Those have arrows of their own.
    if (event.target instanceof HTMLSelectElement || event.target instanceof HTMLInputElement) return;
    event.preventDefault();
    by(pages);
  });
}
