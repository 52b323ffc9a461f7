// Offline after the first visit: the page is answered from the device. A newer one has another version, and takes its place at the
// visit after the one that fetched it.
const KEPT = "loftwright-@VERSION@";
const FILES = ["./", "manifest.webmanifest", "icon-180.png", "icon-512.png"];

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(KEPT).then((cache) => cache.addAll(FILES)).then(() => self.skipWaiting()));
});
self.addEventListener("activate", (event) => {
  const old = (names) => names.filter((name) => name.startsWith("loftwright-") && name !== KEPT);
  event.waitUntil(caches.keys().then((names) => Promise.all(old(names).map((name) => caches.delete(name)))).then(() => self.clients.claim()));
});
self.addEventListener("fetch", (event) => {
  event.respondWith(caches.match(event.request, { ignoreSearch: true }).then((kept) => kept ?? fetch(event.request)));
});
