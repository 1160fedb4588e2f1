/** A change this long after the last one is a single one, not part of a movement. */
const REST_MS = 120;
/** Sections this near to the window count as in sight, so that none scrolls in with old numbers. */
const MARGIN = "25%";

/**
 * A part that, while out of sight, does not follow every step of a movement but shows where it came to rest: a phone has
 * no time to lay out in each frame what nobody sees. Single changes are shown at once.
 * @template Shown
 * @param {Element} place  What must be in sight.
 * @param {{update: (shown: Shown) => void}} part
 * @returns {{update: (shown: Shown) => void}}
 */
export function atRestOutOfSight(place, part) {
  let isInSight = true;
  let lastTime = -Infinity;
  let timer = 0;
  /** @type {Shown|undefined} */
  let waiting;

  function show() {
    clearTimeout(timer);
    const model = waiting;
    waiting = undefined;
    if (model) part.update(model);
  }

  new IntersectionObserver((entries) => {
    isInSight = entries.at(-1)?.isIntersecting ?? true;
    if (isInSight) show();
  }, { rootMargin: MARGIN }).observe(place);

  return {
    update(model) {
      const now = performance.now();
      const isSingle = now - lastTime > REST_MS;
      lastTime = now;
      waiting = model;
      clearTimeout(timer);
      if (isInSight || isSingle) show();
      else timer = setTimeout(show, REST_MS);
    },
  };
}
