// Fingers on a screen.
import { LACKS, untilPainted } from "./harness.js";
import { touchscreen } from "./engines.js";

const STEPS = 8;

/** Why a test about fingers is left out, or nothing. */
export function withoutFingers() {
  return LACKS.touch ?? false;
}

/** @param {import("playwright-core").Page} page */
export async function fingersOn(page) {
  const send = await touchscreen(page);
  const between = (from, to, share) => ({ x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share });
  return {
    put: (...points) => send("press", points),
    lift: () => send("lift"),
    cancel: () => send("cancel"),
    /** Each finger from its first point to its second, and stays there. */
    async drag(...ways) {
      await send("press", ways.map(([from]) => from));
      for (let step = 1; step <= STEPS; step++) {
        await send("move", ways.map(([from, to]) => between(from, to, step / STEPS)));
        await untilPainted(page);
      }
    },
    async tap(point) {
      await send("press", [point]);
      await send("lift");
      await untilPainted(page);
    },
  };
}

export async function middleOf(locator) {
  const { x, y, width, height } = await locator.boundingBox();
  return { x: x + width / 2, y: y + height / 2 };
}
