import { cancelAll } from './engine.js';

// The browser's database. A promise settles only when the transaction is complete and handed to the disk.
let db = null;
let opening = null;

export const settled = request => new Promise((ok, no) => {
  request.onsuccess = () => ok(request.result);
  request.onerror = () => no(request.error);
});

export const complete = tx => new Promise((ok, no) => {
  tx.oncomplete = () => ok();
  tx.onerror = tx.onabort = () => no(tx.error ?? new Error('The browser did not keep the entry.'));
});

export const writing = names => db.transaction(names, 'readwrite', { durability: 'strict' });

export const reading = name => db.transaction(name).objectStore(name);

export const open = () => opening ??= opened();

async function opened() {
  const request = indexedDB.open('storemap', 2);
  request.onupgradeneeded = ({ oldVersion }) => {
    const made = request.result;
    const names = oldVersion < 1 ? ['meta', 'stores', 'surveys', 'events', 'photos'] : ['photos'];
    for (const name of names) {
      const kept = made.createObjectStore(name, { keyPath: 'id' });
      if (name !== 'events' && name !== 'photos') continue;
      kept.createIndex('survey', 'survey');
      kept.createIndex('unsent', 'unsent');
    }
  };
  db = await settled(request);
  db.onversionchange = () => db.close();
}

export async function get(store, id) {
  return JSON.stringify(await settled(reading(store).get(id)) ?? null);
}

export async function all(store) {
  return JSON.stringify(await settled(reading(store).getAll()));
}

export async function put(store, record) {
  const tx = writing([store]);
  tx.objectStore(store).put(JSON.parse(record));
  await complete(tx);
}

// Puts a record in place of what was read before; false when that is there no more.
export async function swap(store, before, record) {
  const tx = writing([store]);
  const kept = tx.objectStore(store);
  const made = JSON.parse(record);
  let done = false;
  kept.get(made.id).onsuccess = e => {
    if (JSON.stringify(e.target.result ?? null) !== before) return;
    kept.put(made);
    done = true;
  };
  await complete(tx);
  return done;
}

// Only events not sent yet carry "unsent", so the index holds just those.
export async function addEvent(id, survey, text) {
  const tx = writing(['events']);
  tx.objectStore('events').add({ id, survey, text, unsent: 1 });
  await complete(tx);
}

export async function eventsOf(survey) {
  const found = await settled(reading('events').index('survey').getAll(survey));
  return JSON.stringify(found.map(e => e.text));
}

// Visits filled with their entries, and the entries of their store beside them.
export async function pack(visits, store) {
  const texts = async id => (await settled(reading('events').index('survey').getAll(id))).map(e => e.text);
  const packed = await Promise.all(JSON.parse(visits).map(async v => ({ ...v, events: await texts(v.survey) })));
  return JSON.stringify({ visits: packed, service: await texts(store) });
}

export async function unsentOf(survey, most) {
  const found = await settled(reading('events').index('unsent').getAll(1));
  return JSON.stringify(found.filter(e => e.survey === survey).slice(0, most).map(e => e.text));
}

export async function unsentCount() {
  return await settled(reading('events').index('unsent').count()) + await settled(reading('photos').index('unsent').count());
}

export async function markSent(ids, refused) {
  const tx = writing(['events']);
  const events = tx.objectStore('events');
  for (const id of JSON.parse(ids)) {
    events.get(id).onsuccess = e => {
      const record = e.target.result;
      if (!record) return;
      delete record.unsent;
      if (refused) record.refused = 1;
      events.put(record);
    };
  }
  await complete(tx);
}

// Events from elsewhere; one that is here already stays as it is. Returns how many were new.
export const receive = (survey, texts) => add(survey, texts, {});

// As receive, but to be sent: what a backup file brings back.
export const restore = (survey, texts) => add(survey, texts, { unsent: 1 });

async function add(survey, texts, more) {
  const tx = writing(['events']);
  const events = tx.objectStore('events');
  let added = 0;
  for (const text of JSON.parse(texts)) {
    const id = JSON.parse(text).id;
    events.get(id).onsuccess = e => {
      if (e.target.result) return;
      events.put({ id, survey, text, ...more });
      added++;
    };
  }
  await complete(tx);
  return added;
}

// The mark lies in another place than the database: when one is there without the other, something was wiped.
export function mark(device) {
  const had = localStorage.getItem('storemap-device');
  localStorage.setItem('storemap-device', device);
  return had ?? '';
}

export async function persist() {
  if (!navigator.storage?.persist) return 'unknown';
  return (await navigator.storage.persisted()) || (await navigator.storage.persist()) ? 'lasting' : 'not lasting';
}

// Nothing is left but these words: no data, no mark, no client. Other pages of this device let go of the database when asked to.
export async function wipe(words) {
  const page = document.createElement('main');
  page.className = 'opening';
  page.append(Object.assign(document.createElement('p'), { id: 'wiped', textContent: words }));
  document.body.replaceChildren(page);
  cancelAll();
  db.close();
  await settled(indexedDB.deleteDatabase('storemap'));
  localStorage.clear();
  if ('caches' in self) for (const name of await caches.keys()) await caches.delete(name);
  for (const worker of await navigator.serviceWorker?.getRegistrations() ?? []) await worker.unregister();
  page.dataset.done = '1';
}
