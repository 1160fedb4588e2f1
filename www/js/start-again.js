const CONFIRM_MS = 4000;

/**
 * A button that asks once more before it acts, by changing its own words for a few seconds.
 * @param {HTMLElement} button @param {() => void} act
 */
export function startAgainButton(button, act) {
  const usualText = button.textContent;
  let timer = 0;

  function calm() {
    clearTimeout(timer);
    timer = 0;
    button.textContent = usualText;
    button.classList.remove("asking");
  }

  button.addEventListener("click", () => {
    if (timer) {
      calm();
      act();
      return;
    }
    button.textContent = "Really? This drops every value typed";
    button.classList.add("asking");
    timer = setTimeout(calm, CONFIRM_MS);
  });
}
