// Hands work to the engine in workers of their own, so that neither logging nor drawing waits for an answer.
const workers = new Map();
let next = 0;

function start(name) {
  const made = { worker: new Worker('/js/engine-worker.js', { type: 'module' }), waiting: new Map() };
  made.worker.onmessage = ({ data }) => {
    const call = made.waiting.get(data.id);
    if (data.share !== undefined) { call?.progress?.(data.share, data.work); return; }
    made.waiting.delete(data.id);
    if (data.error) call?.no(new Error(data.error)); else call?.ok(data.result);
  };
  made.worker.onerror = () => end(name, 'The engine could not be started in the background.');
  workers.set(name, made);
  return made;
}

function end(name, why) {
  const ended = workers.get(name);
  if (!ended) return;
  workers.delete(name);
  ended.worker.terminate();
  for (const call of ended.waiting.values()) call.no(new Error(why));
}

// A method of the engine's work, such as "EngineWork.Locate"; arguments and answer are texts.
export function run(name, method, args, progress) {
  const { worker, waiting } = workers.get(name) ?? start(name);
  const id = ++next;
  return new Promise((ok, no) => {
    waiting.set(id, { ok, no, progress });
    worker.postMessage({ id, method, args });
  });
}

// The work at hand is dropped with its worker; the next call starts a new one.
export function cancel(name) {
  end(name, 'cancelled');
}

// Answers by their questions. The service worker drops them together with the version that gave them.
const store = 'storemap-answers';
const most = 24;

// The question's address, after a digest of all its parts.
async function addressOf(parts) {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(JSON.stringify(parts)));
  return '/answers/' + Array.from(new Uint8Array(digest), b => b.toString(16).padStart(2, '0')).join('');
}

export async function runOnce(name, version, method, args, progress) {
  if (!globalThis.caches || !crypto.subtle) return run(name, method, args, progress);
  const address = await addressOf([version, method, ...args]);
  const kept = await (await caches.open(store)).match(address);
  if (kept) return kept.text();
  const answer = await run(name, method, args, progress);
  keep(address, answer).catch(() => { /* no room: it is worked out again */ });
  return answer;
}

async function keep(address, answer) {
  const cache = await caches.open(store);
  await cache.put(address, new Response(answer));
  for (const old of (await cache.keys()).slice(0, -most)) await cache.delete(old);
}
