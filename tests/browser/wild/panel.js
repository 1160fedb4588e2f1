// The panels of the dock, and whatever can be typed, chosen or pressed in them.

export const PANELS = ["measure", "build", "setups", "send", "bench"];
export const BUILD_PAGES = ["cut", "load", "tack"];

/** @param {import("playwright-core").Page} page @param {string} name */
export async function openPanel(page, name) {
  await page.evaluate((name) => {
    document.querySelectorAll("dialog[open]").forEach((dialog) => dialog.close());
    document.querySelector(`button[data-panel=${name}]`).click();
  }, name);
  // Where the network is away and the worker did not keep it, words say so.
  await page.waitForFunction(() => document.querySelector("#panel[open]") || document.querySelector(".notice"));
}

/** @param {import("playwright-core").Page} page @param {string} name */
export async function openBuildPage(page, name) {
  await openPanel(page, "build");
  await page.evaluate((name) => document.querySelector(`[name=build-page][value=${name}]`)?.click(), name);
}

/**
 * Inside the page: types into, chooses or presses one of what is to be seen below `within`, but for what leaves the page or
 * asks for a file.
 * @param {{within: string, share: number, part: number, text: string}} touch
 */
export function touchControl({ within, share, part, text }) {
  const leaves = /open a file|save|share|print|full|screen/i;
  const all = [...document.querySelectorAll(`${within} :is(button, input, select, summary)`)]
    .filter((one) => !one.disabled && one.type !== "file" && one.getClientRects().length > 0 && !leaves.test(one.textContent));
  const one = all[Math.floor(share * all.length)];
  if (!one) return;
  if (one instanceof HTMLSelectElement) {
    one.selectedIndex = Math.floor(part * one.options.length);
    one.dispatchEvent(new Event("change", { bubbles: true }));
  } else if (one.type === "text") {
    one.focus();
    one.value = text;
    one.dispatchEvent(new InputEvent("input", { bubbles: true }));
  } else one.click();
}
