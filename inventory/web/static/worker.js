// Keeps pages and their files so that they open without a network; only under https or at the
// computer itself. A new version of the program begins a new cache and drops the old one.
const CACHE = `kitwright ${VERSION}`;
const PATIENCE = 5000;
const NAMED = /\/(count|crate|part|bin|step|lot|shipment)\?/; // each of these is about one thing

addEventListener("install", () => skipWaiting());

addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) if (name !== CACHE) await caches.delete(name);
    await clients.claim();
    await keepOpenPages();
  })());
});

// The page that brought this script was loaded before it could keep anything.
async function keepOpenPages() {
  const cache = await caches.open(CACHE);
  const open = await clients.matchAll({ type: "window" });
  const kits = open.map(({ url }) => new URL(url).pathname.split("/")[1]).filter((kit) => /^[0-9A-Z]{2}$/.test(kit));
  const pages = kits.flatMap((kit) => [`/${kit}/scan`, `/${kit}/waiting`]);
  for (const url of new Set([...FILES, ...pages, ...open.map(({ url }) => url)])) await cache.add(url).catch(() => {});
}

addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== location.origin || pathname.startsWith("/api/") || pathname.startsWith("/pair")) return;
  event.respondWith(answer(request));
});

// A page that is kept is shown where the server takes too long; one that isn't is waited for.
async function answer(request) {
  const cache = await caches.open(CACHE);
  const kept = (await cache.match(request)) ?? (await cache.match(request, { ignoreSearch: !NAMED.test(request.url) }));
  try {
    const hurry = kept && request.mode === "navigate";
    const reply = await fetch(request, hurry ? { signal: AbortSignal.timeout(PATIENCE) } : {});
    if (reply.ok && reply.type === "basic") await cache.put(request, reply.clone());
    return reply;
  } catch (fault) {
    if (kept) return kept;
    if (request.mode === "navigate") {
      const scan = await cache.match(`/${new URL(request.url).pathname.split("/")[1]}/scan`);
      if (scan) return scan;
    }
    throw fault;
  }
}
