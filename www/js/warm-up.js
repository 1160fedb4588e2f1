/** So many calls and the browser has the geometry in its quick form. */
const CALLS = 60;
/** Ended early in each quiet moment, so that a first touch does not wait. */
const LEAST_LEFT_MS = 4;
const LONGEST_MS = 16;
const FALLBACK_MS = 200;

/**
 * Asks the same again and again while nothing else is to do: a browser makes code quick only once it has run often, and
 * the first drag of a slider should be as smooth as the second.
 * @param {() => void} ask
 */
export function warmUp(ask) {
  let left = CALLS;

  /** @param {{timeRemaining: () => number}} [deadline] */
  function work(deadline) {
    const end = performance.now() + LONGEST_MS;
    do {
      ask();
      left -= 1;
    } while (left > 0 && performance.now() < end && deadline && deadline.timeRemaining() > LEAST_LEFT_MS);
    if (left > 0) whenIdle(work);
  }

  whenIdle(work);
}

/** @param {(deadline?: IdleDeadline) => void} work */
function whenIdle(work) {
  if ("requestIdleCallback" in window) requestIdleCallback(work);
  else setTimeout(work, FALLBACK_MS);
}
