import { byId } from "./dom.js";
import { isOneFile, version } from "./loading.js";

const TAKES_OVER_MS = 2000;

/**
 * Says whether the page works with the network gone, and offers a new version when one waits. To be called when the first
 * verdict stands: what is kept for later shall not compete with it for the connection.
 */
export async function startOffline() {
  const status = byId("offline-status");
  if (isOneFile) {
    status.textContent = "This file works without a network.";
    return;
  }
  if (!("serviceWorker" in navigator)) {
    status.textContent = "This browser cannot keep the page for work offline.";
    return;
  }

  status.textContent = "Getting ready to work offline\u2026";
  try {
    await painted();
    const registration = await navigator.serviceWorker.register("./sw.js", { updateViaCache: "none" });
    watchForUpdate(registration, byId("update"));
    await Promise.race([navigator.serviceWorker.ready, failure(registration)]);
    const isKept = await caches.match(new URL("./", location.href));
    status.textContent = isKept ? "Ready to work offline." : "This copy of the page is not kept for work offline.";
  } catch (error) {
    console.warn(error);
    status.textContent = "Not ready to work offline: the page could not be kept.";
  }
}

function painted() {
  return new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
}

/**
 * Rejects when the first version cannot be installed; `ready` alone would wait for ever.
 * @param {ServiceWorkerRegistration} registration @returns {Promise<never>}
 */
function failure({ installing, waiting, active }) {
  return new Promise((_, reject) => {
    const fail = () => reject(new Error("A file of the page could not be loaded."));
    if (waiting || active) return;
    if (!installing) fail();
    installing?.addEventListener("statechange", () => {
      if (installing.state === "redundant") fail();
    });
  });
}

/**
 * A new version takes over only when the builder asks for it, and then in this window alone: another that is open goes on
 * with what it has, and its own button loads it anew.
 * @param {ServiceWorkerRegistration} registration @param {HTMLElement} button
 */
function watchForUpdate(registration, button) {
  const container = navigator.serviceWorker;
  /** Of the worker that has taken over. @type {string|undefined} */
  let latest;
  let isWanted = false;
  const offer = () => {
    const hasNewVersion = registration.waiting !== null && registration.active !== null;
    button.hidden = !hasNewVersion && (latest === undefined || latest === version);
  };
  const askVersion = () => container.controller?.postMessage("version");
  offer();
  registration.addEventListener("updatefound", () => {
    registration.installing?.addEventListener("statechange", offer);
  });
  container.addEventListener("message", ({ data }) => {
    if (data.version) latest = data.version;
    // Where one waits, it has to take over first.
    if (data.chosen && isWanted && !registration.waiting) location.reload();
    offer();
  });
  container.addEventListener("controllerchange", () => {
    if (isWanted) location.reload();
    askVersion();
  });
  button.addEventListener("click", () => {
    isWanted = true;
    (registration.waiting ?? registration.active)?.postMessage("update");
    // A worker that is busy for long does not give way; the choice stands all the same, and a page loaded anew follows it.
    setTimeout(() => location.reload(), TAKES_OVER_MS);
  });
  askVersion();
}
