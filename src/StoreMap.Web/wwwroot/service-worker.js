// All files of one version are kept together; a version is used whole or not at all.
self.importScripts('./service-worker-assets.js');

const prefix = 'storemap-';
const name = prefix + self.assetsManifest.version;
const base = new URL('/', self.origin);
const skipped = /(^service-worker\.js$)|\.(gz|br|map)$/;

// A file that is missing or differs from the list fails the whole, and the version before goes on.
self.addEventListener('install', e => e.waitUntil((async () => {
  const requests = self.assetsManifest.assets.filter(a => !skipped.test(a.url))
    .map(a => new Request(new URL(a.url, base), { integrity: a.hash, cache: 'no-cache' }));
  const cache = await caches.open(name);
  await cache.addAll(requests);
})()));

// Open pages are taken over before the files of the version before are dropped, so that no page asks for what is gone.
self.addEventListener('activate', e => e.waitUntil((async () => {
  await self.clients.claim();
  for (const key of await caches.keys()) if (key.startsWith(prefix) && key !== name) await caches.delete(key);
})()));

self.addEventListener('message', e => { if (e.data === 'update') self.skipWaiting(); });

self.addEventListener('fetch', e => {
  const url = new URL(e.request.url);
  if (e.request.method !== 'GET' || url.origin !== base.origin || url.pathname.startsWith('/api/')) return;
  e.respondWith((async () => {
    const wanted = e.request.mode === 'navigate' ? new URL('index.html', base).href : e.request;
    return await caches.match(wanted, { cacheName: name }) ?? fetch(e.request);
  })());
});
