/** A drag over the page tells of itself again and again; after this it has gone. */
const GONE_MS = 600;

/**
 * Lets a file be dropped anywhere on the page, and a setup's text or file be pasted wherever nothing is being typed.
 * @param {(input: File|string) => void} give
 */
export function startDrop(give) {
  const { classList } = document.documentElement;
  let timer = 0;

  function calm() {
    clearTimeout(timer);
    classList.remove("dropping");
  }

  addEventListener("dragover", (event) => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    classList.add("dropping");
    clearTimeout(timer);
    timer = setTimeout(calm, GONE_MS);
  });
  addEventListener("drop", (event) => {
    calm();
    const file = event.dataTransfer?.files[0];
    if (!file) return;
    event.preventDefault();
    give(file);
  });
  addEventListener("paste", (event) => {
    if (event.target instanceof Element && event.target.matches("input, textarea")) return;
    const file = event.clipboardData?.files[0];
    const text = event.clipboardData?.getData("text/plain") ?? "";
    if (!file && !text.trimStart().startsWith("{")) return;
    event.preventDefault();
    give(file ?? text);
  });
}
