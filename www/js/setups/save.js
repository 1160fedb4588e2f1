/** A file on its way out: into the browser's downloads, or to another app. A setup's, unless another kind is told. */
import { element } from "../dom.js";
import { FILE_KIND } from "./file.js";

/** Long enough for a slow phone to have taken the file. */
const FORGET_MS = 60_000;

/** @param {string} text @param {string} name @param {string} [kind] */
export function download(text, name, kind = FILE_KIND) {
  const url = URL.createObjectURL(new Blob([text], { type: kind }));
  const link = element("a", { href: url, download: name, hidden: true });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), FORGET_MS);
}

/**
 * The file in a form that this browser shares, if there is one: some take plain text only.
 * @param {string} text @param {string} name @param {string} [kind]
 */
export function shareable(text, name, kind = FILE_KIND) {
  if (!navigator.canShare) return undefined;
  return [new File([text], name, { type: kind }), new File([text], `${name}.txt`, { type: "text/plain" })]
    .find((file) => navigator.canShare({ files: [file] }));
}

/** Whether it was passed on; the builder may also have changed his mind. @param {File} file */
export async function share(file) {
  try {
    await navigator.share({ files: [file], title: file.name });
    return true;
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") return false;
    throw error;
  }
}
