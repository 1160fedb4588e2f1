// Touches as a screen reports them, which only Chromium lets a test send.
import { untilPainted } from "./harness.js";

/** A test about fingers is left out in other engines. @param {import("playwright-core").Browser} browser */
export function withoutFingers(browser) {
  return browser.browserType().name() === "chromium" ? false : "only Chromium lets a test touch";
}

/** @param {import("playwright-core").Page} page */
export async function fingersOn(page) {
  const session = await page.context().newCDPSession(page);
  const send = (type, touchPoints) => session.send("Input.dispatchTouchEvent", { type, touchPoints });
  const between = (from, to, share) => ({ x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share });
  return {
    put: (...points) => send("touchStart", points),
    lift: () => send("touchEnd", []),
    /** Each finger from its first point to its second, and stays there. */
    async drag(...ways) {
      const steps = 8;
      await send("touchStart", ways.map(([from]) => from));
      for (let step = 1; step <= steps; step++) {
        await send("touchMove", ways.map(([from, to]) => between(from, to, step / steps)));
        await untilPainted(page);
      }
    },
    async tap(point) {
      await send("touchStart", [point]);
      await send("touchEnd", []);
      await untilPainted(page);
    },
  };
}

export async function middleOf(locator) {
  const { x, y, width, height } = await locator.boundingBox();
  return { x: x + width / 2, y: y + height / 2 };
}
