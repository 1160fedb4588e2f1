// Keeps the page working with the network gone. The build writes the two lines below.
const VERSION = "dev";
const FILES = [];

const PREFIX = "tabwright-";
const SCOPE = self.registration.scope;
// The scope is part of the name, so that two copies on one host leave each other's files alone.
const OWN_ENDING = `@${SCOPE}`;
const CACHE = `${PREFIX}${VERSION}${OWN_ENDING}`;
const LISTED = new Set(FILES.map((file) => new URL(file, SCOPE).href));

self.addEventListener("install", (event) => event.waitUntil(fillCache()));
self.addEventListener("activate", (event) => event.waitUntil(takeOver()));

self.addEventListener("message", (event) => {
  if (event.data === "update") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  url.search = "";
  url.hash = "";
  if (LISTED.has(url.href)) {
    event.respondWith(fromCacheFirst(url.href, request));
  } else if (request.mode === "navigate") {
    // A redirect, as the page's relative addresses would be wrong further down.
    event.respondWith(fetch(request).catch(() => Response.redirect(new URL("./index.html", SCOPE))));
  }
});

/** All files or none: a version with a missing file never takes over. */
async function fillCache() {
  const cache = await caches.open(CACHE);
  try {
    await cache.addAll(FILES.map((file) => new Request(new URL(file, SCOPE), { cache: "reload" })));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

/** The page that is open has parts still to load; on a first visit nobody else would answer for them. */
async function takeOver() {
  await self.clients.claim();
  await dropOldCaches();
}

async function dropOldCaches() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(PREFIX) && name.endsWith(OWN_ENDING) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
}

async function fromCacheFirst(href, request) {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(href, { ignoreVary: true });
  if (!kept) return fetch(request);
  // Some hosts redirect index.html to its folder; a browser refuses a redirected answer to a navigation.
  return kept.redirected ? new Response(kept.body, kept) : kept;
}
