// All files of one version are kept together; a version is used whole or not at all.
self.importScripts('./service-worker-assets.js', './js/versions.js');

const version = self.assetsManifest.version;
const base = new URL('/', self.origin);
const skipped = /(^service-worker\.js$)|\.(gz|br|map)$/;
const tries = 3;

const sha256 = async response => 'sha256-' + btoa(String.fromCharCode(...new Uint8Array(await crypto.subtle.digest('SHA-256', await response.arrayBuffer()))));

// What another version, or a try before, has already is not fetched again: a new version costs what changed, also over a weak network.
async function had(url, hash) {
  for (const one of await self.versions.kept()) {
    const response = await self.versions.file(one, url);
    if (response && await sha256(response.clone()) === hash) return response;
  }
}

async function fetched(url, hash) {
  for (let left = tries - 1; ; left--) {
    try {
      const response = await fetch(new Request(url, { integrity: hash, cache: 'no-cache' }));
      if (response.ok) return response;
      throw new TypeError(`${url}: ${response.status}`);
    } catch (e) {
      if (left === 0) throw e;
    }
  }
}

// A file that can't be had, or differs from the list, fails the whole, and the version before goes on. This worker then waits, as workers do,
// until all pages are closed: whichever worker is active hands out the version in use.
self.addEventListener('install', e => e.waitUntil((async () => {
  const files = await self.versions.files(version);
  await Promise.all(self.assetsManifest.assets.filter(a => !skipped.test(a.url)).map(async a => {
    const url = new URL(a.url, base).href;
    await files.put(url, await had(url, a.hash) ?? await fetched(url, a.hash));
  }));
  await self.versions.cameWhole(version);
})()));

self.addEventListener('activate', e => e.waitUntil(self.clients.claim()));

// The version in use, asked for at each opening of a page and not for each of its files.
let used;
self.versions.onUse(({ data }) => { used = data; });

self.addEventListener('fetch', e => {
  const url = new URL(e.request.url);
  if (e.request.method !== 'GET' || url.origin !== base.origin || url.pathname.startsWith('/api/')) return;
  e.respondWith((async () => {
    const opens = e.request.mode === 'navigate';
    if (opens || !used) used = await self.versions.inUse();
    return await self.versions.file(used, opens ? new URL('index.html', base).href : e.request) ?? fetch(e.request);
  })());
});
