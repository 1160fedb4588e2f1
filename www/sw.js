// Keeps the page working with the network gone. The build writes the two lines below: the version, and for every file to
// keep the address that the page asks it for with the beginning of its SHA-256.
const VERSION = "dev";
const FILES = {};

const PREFIX = "tabwright-";
const SCOPE = self.registration.scope;
// The scope is part of the name, so that two copies on one host leave each other's files alone.
const OWN_ENDING = `@${SCOPE}`;
const CACHE = cacheOf(VERSION);
// A note of which version to show.
const CHOICE = cacheOf("choice");
const CHOSEN = new URL("./chosen-version", SCOPE).href;
const START = new URL("./", SCOPE).href;
// Some hosts redirect one to the other, so that only one is kept.
const START_BY_NAME = new URL("./index.html", SCOPE).href;
const LISTED = new Set(Object.keys(FILES).map((file) => plain(new URL(file, SCOPE))));

self.addEventListener("install", (event) => event.waitUntil(fillCache()));
self.addEventListener("activate", (event) => event.waitUntil(takeOver()));

self.addEventListener("message", (event) => {
  const tell = (message) => event.source.postMessage(message);
  if (event.data === "version") tell({ version: VERSION });
  if (event.data === "update") event.waitUntil(choose().then(() => self.skipWaiting()).then(() => tell({ chosen: VERSION })));
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || !url.href.startsWith(SCOPE)) return;
  const name = plain(url) === START_BY_NAME ? START : plain(url);
  const isNavigation = request.mode === "navigate";
  if (!isNavigation || LISTED.has(name)) {
    const version = isNavigation ? null : url.searchParams.get("v");
    event.respondWith(kept(name, version).then((response) => response ?? fetch(request)));
  } else {
    // A redirect, as the page's relative addresses would be wrong further down.
    event.respondWith(fetch(request).catch(() => Response.redirect(START)));
  }
});

/** @param {string} version */
function cacheOf(version) {
  return `${PREFIX}${version}${OWN_ENDING}`;
}

/** @param {URL} url */
function plain({ origin, pathname }) {
  return origin + pathname;
}

/** All files or none: a version with a missing or wrong file never takes over. */
async function fillCache() {
  // Unpacked, there is nothing to keep.
  if (!("./" in FILES)) return;
  const hasBeenThere = await caches.has(CACHE);
  const cache = await caches.open(CACHE);
  const fill = async ([file, digest]) => cache.put(plain(new URL(file, SCOPE)), await found(file, digest));
  try {
    const { "./": start, ...others } = FILES;
    await Promise.all(Object.entries(others).map(fill));
    // Last, so that a cache with a start page is whole.
    await fill(["./", start]);
  } catch (error) {
    if (!hasBeenThere) await caches.delete(CACHE);
    throw error;
  }
}

/**
 * A file with the wanted digest: kept by an older version, else out of the browser's own keeping, where the page itself
 * has just put it, else from the host. A host that answers with something else, such as an older file or the start page in
 * the place of a missing one, is not believed.
 */
async function found(file, digest) {
  const url = new URL(file, SCOPE);
  for (const name of await ownCaches()) {
    const response = await right(await caches.match(plain(url), { cacheName: name, ignoreVary: true }), digest);
    if (response) return response;
  }
  for (const cache of ["default", "reload"]) {
    const response = await right(await fetch(url, { cache }).catch(() => undefined), digest);
    if (response) return response;
  }
  throw new Error(`${url} is not to be had in version ${VERSION}`);
}

/** A copy of the response if its content is the wanted one. @param {Response|undefined} response @param {string} digest */
async function right(response, digest) {
  const content = await response?.arrayBuffer().catch(() => undefined);
  if (!content) return undefined;
  const whole = new Uint8Array(await crypto.subtle.digest("SHA-256", content));
  if (!btoa(String.fromCharCode(...whole)).startsWith(digest)) return undefined;
  // A new one, as a browser refuses a redirected answer to a navigation. The content is unpacked by now.
  const headers = new Headers(response.headers);
  for (const name of ["content-encoding", "content-length"]) headers.delete(name);
  return new Response(content, { headers });
}

async function ownCaches() {
  return (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name.endsWith(OWN_ENDING) && name !== CHOICE);
}

/** The version that the builder has chosen and the one before, which other windows may still show. */
async function choice() {
  const note = await caches.match(CHOSEN, { cacheName: CHOICE });
  return note ? (await note.text()).split(" ") : [];
}

/** The version to show: a newer one waits for the builder's tap even when all windows have been closed meanwhile. */
async function shown() {
  const [chosen] = await choice();
  const isWhole = chosen && (await caches.match(START, { cacheName: cacheOf(chosen) }));
  return isWhole ? chosen : VERSION;
}

async function choose() {
  const before = await shown();
  if (before === VERSION && (await choice()).includes(VERSION)) return;
  await (await caches.open(CHOICE)).put(CHOSEN, new Response(`${VERSION} ${before}`));
}

async function takeOver() {
  if ((await shown()) === VERSION) await choose();
  const needed = [VERSION, ...(await choice())].map(cacheOf);
  const old = (await ownCaches()).filter((name) => !needed.includes(name));
  await Promise.all(old.map((name) => caches.delete(name)));
  // The page of the first visit shall find its panels offline too.
  await self.clients.claim();
}

/**
 * What is kept under a name: of the version asked for, or else of the one to show, or of any, as a name without a version is made
 * from the content of its file.
 * @param {string} name @param {string|null} version
 */
async function kept(name, version) {
  const searched = version === null ? [cacheOf(await shown()), ...(await ownCaches())] : [cacheOf(version)];
  for (const cacheName of searched) {
    const response = await caches.match(name, { cacheName, ignoreVary: true });
    if (response) return response;
  }
  return undefined;
}
