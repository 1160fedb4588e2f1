// What the tests of the panel "Setups" do with it.
import { readFile } from "node:fs/promises";
import { LACKS, untilPainted } from "./harness.js";

export async function openPanel(page) {
  await page.locator("button[data-panel=setups]").click();
  await page.locator("#panel .setups").waitFor();
}

export async function closePanel(page) {
  await page.locator(".panel-head").getByRole("button", { name: "Close" }).click();
  await page.locator("#panel").waitFor({ state: "hidden" });
}

export function buttonOf(page, name) {
  return page.locator("#panel").getByRole("button", { name, exact: true });
}

/** Keeps the setup at hand under a name; the panel stays open. */
export async function keepAs(page, name) {
  await page.locator("#setups-own-name").fill(name);
  await untilPainted(page);
  await buttonOf(page, "Keep here").click();
  await page.locator(".setups-status", { hasText: "Kept: " }).waitFor();
}

/** One button of those behind "More" of a kept setup. */
export async function more(page, name, words) {
  const item = page.locator(".setups-item", { hasText: name });
  if (!await item.locator("details").evaluate((fold) => fold.open)) await item.locator("summary").click();
  await item.getByRole("button", { name: new RegExp(`^${words}`) }).click();
}

export function names(page) {
  return page.locator(".setups-name").allInnerTexts();
}

export async function savedFile(page, click) {
  const [download] = await Promise.all([page.waitForEvent("download"), click()]);
  return { name: download.suggestedFilename(), text: await readFile(await download.path(), "utf8") };
}

export async function chooseFile(page, name, text) {
  const file = { name, mimeType: "application/json", buffer: Buffer.from(text) };
  if (LACKS.fileDialogs) return page.locator("#panel input[type=file]").setInputFiles(file);
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), buttonOf(page, "Open a file").click()]);
  await chooser.setFiles(file);
}

export async function rotorOf(page) {
  await untilPainted(page);
  return page.inputValue("#wheel-rotor_diameter");
}

/** A file from outside, in one go, as a hand would drop it: over the page, then let go. */
export async function dropFile(page, name, text, { letGo = true } = {}) {
  await page.evaluate(([name, text, letGo]) => {
    const carried = new DataTransfer();
    carried.items.add(new File([text], name, { type: "application/json" }));
    const target = document.querySelector("dialog[open]") ?? document.body;
    for (const type of letGo ? ["dragover", "drop"] : ["dragover"]) {
      target.dispatchEvent(new DragEvent(type, { bubbles: true, cancelable: true, dataTransfer: carried }));
    }
  }, [name, text, letGo]);
}

/** Puts records into the browser's store behind the page's back. */
export function putRecords(page, store, records) {
  return page.evaluate(([store, records]) => new Promise((resolve, reject) => {
    const request = indexedDB.open("tabwright");
    request.onerror = () => reject(request.error);
    request.onsuccess = () => {
      const change = request.result.transaction(store, "readwrite");
      for (const record of records) change.objectStore(store).put(record);
      change.oncomplete = () => resolve(request.result.close());
    };
  }), [store, records]);
}
