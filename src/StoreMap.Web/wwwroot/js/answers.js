// What the engine worked out, kept on this device by all that it was worked out from: whole answers, and visits that were located, of which
// many answers are made. The service worker drops them together with the version that gave them.
const store = 'storemap-answers';
const most = { answers: 24, visits: 60 };

// A page without a lasting place to keep things works everything out.
const able = () => globalThis.caches && globalThis.crypto?.subtle;

// The address is a digest of all parts.
async function addressOf(kind, parts) {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(JSON.stringify(parts)));
  return `/${kind}/` + Array.from(new Uint8Array(digest), b => b.toString(16).padStart(2, '0')).join('');
}

// What was kept; empty when there is nothing.
export async function recall(kind, parts) {
  if (!able()) return '';
  const kept = await (await caches.open(store)).match(await addressOf(kind, parts));
  return kept ? kept.text() : '';
}

// Where there is no room it is worked out again.
export async function keep(kind, parts, text) {
  if (!able()) return;
  try {
    const cache = await caches.open(store);
    await cache.put(await addressOf(kind, parts), new Response(text));
    const alike = (await cache.keys()).filter(kept => new URL(kept.url).pathname.startsWith(`/${kind}/`));
    for (const old of alike.slice(0, -most[kind])) await cache.delete(old);
  } catch { /* see above */ }
}
