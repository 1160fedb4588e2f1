/** Keeps the screen from going dark, as far as the browser lets it. */

const WORDS = {
  off: "The screen goes dark as the device is set to.",
  on: "The screen stays on while this is open.",
  waiting: "Asking the browser\u2026",
  missing: "This browser cannot keep the screen on. Set the device's own screen time longer for now.",
  refused: "The browser does not keep the screen on just now, perhaps to save the battery. Set the device's own screen time longer.",
};

/**
 * A browser takes the lock away whenever the page is out of sight; it is asked for again when the page is back.
 * @param {(words: string, isOn: boolean) => void} tell
 */
export function createAwake(tell) {
  let isWanted = false;
  /** @type {WakeLockSentinel|null} */
  let lock = null;

  async function ask() {
    if (!isWanted || lock || document.visibilityState !== "visible") return;
    if (!("wakeLock" in navigator)) return tell(WORDS.missing, false);
    tell(WORDS.waiting, false);
    try {
      const taken = await navigator.wakeLock.request("screen");
      // Let go while the browser was thinking.
      if (!isWanted || lock) return taken.release();
      lock = taken;
      taken.addEventListener("release", () => {
        lock = null;
        if (isWanted && document.visibilityState === "visible") tell(WORDS.refused, false);
      });
      tell(WORDS.on, true);
    } catch {
      if (isWanted) tell(WORDS.refused, false);
    }
  }

  document.addEventListener("visibilitychange", ask);

  return {
    /** @param {boolean} wanted */
    keep(wanted) {
      isWanted = wanted;
      if (wanted) return void ask();
      lock?.release();
      tell(WORDS.off, false);
    },
  };
}
