/** A button that goes on while it is held: after this, then each so often, and quicker after so many. */
const FIRST_MS = 450;
const NEXT_MS = 110;
const QUICK_MS = 45;
const SLOW_STEPS = 12;

/**
 * Acts on a tap, and again and again while the button is held down. What is changed meanwhile is one step for Undo, since a
 * pointer is down.
 * @param {HTMLButtonElement} button @param {() => void} act
 */
export function repeatWhileHeld(button, act) {
  let timer = 0;
  let count = 0;

  function again() {
    if (button.disabled) return stop();
    act();
    count += 1;
    timer = setTimeout(again, count > SLOW_STEPS ? QUICK_MS : NEXT_MS);
  }

  function stop() {
    clearTimeout(timer);
  }

  button.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    stop();
    count = 0;
    timer = setTimeout(again, FIRST_MS);
  });
  for (const type of ["pointerup", "pointercancel", "pointerleave", "blur"]) button.addEventListener(type, stop);
  // Phones answer a long press with a menu.
  button.addEventListener("contextmenu", (event) => event.preventDefault());
  button.addEventListener("click", (event) => {
    // The click that ends a hold has had its steps; one from keys has no hold before it.
    const isEndOfHold = count > 0 && event.detail !== 0;
    count = 0;
    if (!isEndOfHold) act();
  });
}
