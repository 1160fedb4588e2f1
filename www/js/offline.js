import { byId } from "./dom.js";

/** Says whether the page works with the network gone, and offers a new version when one waits. */
export async function startOffline() {
  const status = byId("offline-status");
  const update = byId("update");
  if (!("serviceWorker" in navigator)) {
    status.textContent = "This browser cannot keep the page for work offline.";
    return;
  }

  status.textContent = "Getting ready to work offline\u2026";
  try {
    const registration = await navigator.serviceWorker.register("./sw.js", { updateViaCache: "none" });
    watchForUpdate(registration, update);
    await Promise.race([navigator.serviceWorker.ready, failure(registration)]);
    const isKept = await caches.match(new URL("./", location.href));
    status.textContent = isKept ? "Ready to work offline." : "This copy of the page is not kept for work offline.";
  } catch (error) {
    console.warn(error);
    status.textContent = "Not ready to work offline: the page could not be kept.";
  }
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
 * A new version takes over only when the builder asks for it.
 * @param {ServiceWorkerRegistration} registration @param {HTMLElement} button
 */
function watchForUpdate(registration, button) {
  const offer = () => {
    const hasNewVersion = registration.waiting !== null && registration.active !== null;
    button.hidden = !hasNewVersion;
  };
  offer();
  registration.addEventListener("updatefound", () => {
    registration.installing?.addEventListener("statechange", offer);
  });
  button.addEventListener("click", () => {
    navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
    registration.waiting?.postMessage("update");
  });
}
