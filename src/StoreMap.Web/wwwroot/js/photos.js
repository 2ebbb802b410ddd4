// Photos: made small and plain, kept in the browser's database, sent as they are.
import { complete, reading, settled, writing } from './storage.js';

const mostBytes = 40 << 20;
const longestSide = 1600;
const aimBytes = 600 << 10;
let made = null;

// Draws the chosen picture anew, which leaves behind everything but its dots: place, time and camera too.
async function plain(file) {
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
  try {
    for (let side = longestSide, quality = 0.82; ; side *= 0.75, quality = 0.7) {
      const scale = Math.min(1, side / Math.max(picture.width, picture.height));
      const canvas = document.createElement('canvas');
      canvas.width = Math.max(1, Math.round(picture.width * scale));
      canvas.height = Math.max(1, Math.round(picture.height * scale));
      canvas.getContext('2d').drawImage(picture, 0, 0, canvas.width, canvas.height);
      const blob = await new Promise(done => canvas.toBlob(done, 'image/jpeg', quality));
      if (blob?.type === 'image/jpeg' && (blob.size <= aimBytes || side < 400)) return blob;
      if (!blob) throw new Error('no picture');
    }
  } finally {
    picture.close();
  }
}

// Takes the file chosen in an input; gives what is wrong with it, or nothing.
export async function prepare(input) {
  const place = document.getElementById(input);
  const file = place?.files[0];
  made = null;
  if (!file) return 'No picture was chosen.';
  try {
    if (file.size > mostBytes) return 'The picture is larger than 40 MiB. Take it with fewer dots.';
    made = await plain(file);
    return '';
  } catch {
    return 'That file is no picture that this browser can open. Choose a photo.';
  } finally {
    place.value = '';
  }
}

// The photo and the entry that tells of it, both or neither.
export async function keepPhoto(id, event, survey, text) {
  const bytes = await made.arrayBuffer();
  const tx = writing(['events', 'photos']);
  tx.objectStore('photos').add({ id, survey, bytes, unsent: 1 });
  tx.objectStore('events').add({ id: event, survey, text, unsent: 1 });
  await complete(tx);
  made = null;
}

export async function unsentPhotos(survey) {
  const found = await settled(reading('photos').index('unsent').getAll(1));
  return JSON.stringify(found.filter(p => p.survey === survey).map(p => p.id));
}

// To a place of the server, such as stores/quince. Its answer: 0 when it can't be reached.
export async function sendPhoto(id, place, device) {
  const photo = await settled(reading('photos').get(id));
  try {
    const answer = await fetch(`/api/${place}/photos/${id}`, {
      method: 'PUT', body: photo.bytes, headers: { 'Content-Type': 'image/jpeg', 'X-StoreMap-Client': '1', 'X-StoreMap-Device': device },
    });
    return answer.status;
  } catch {
    return 0;
  }
}

export async function photoDone(id, refused) {
  const tx = writing(['photos']);
  const photos = tx.objectStore('photos');
  photos.get(id).onsuccess = e => {
    const photo = e.target.result;
    delete photo.unsent;
    if (refused) photo.refused = 1;
    photos.put(photo);
  };
  await complete(tx);
}

// Where a picture of this device, or else the server's, can be shown from.
const shown = new Map();
export async function photoUrl(place, id) {
  if (shown.has(id)) return shown.get(id);
  const photo = await settled(reading('photos').get(id));
  if (!photo) return `/api/${place}/photos/${id}`;
  shown.set(id, URL.createObjectURL(new Blob([photo.bytes], { type: 'image/jpeg' })));
  return shown.get(id);
}

// For the backup file, and back from it. What is here already stays.
export async function photosOf(survey) {
  const found = await settled(reading('photos').index('survey').getAll(survey));
  return JSON.stringify(found.map(p => ({ id: p.id, jpeg: btoa(Array.from(new Uint8Array(p.bytes), b => String.fromCharCode(b)).join('')) })));
}

export async function restorePhotos(survey, texts) {
  const all = JSON.parse(texts).map(p => ({ id: p.id, survey, bytes: Uint8Array.from(atob(p.jpeg), c => c.charCodeAt(0)).buffer, unsent: 1 }));
  const tx = writing(['photos']);
  const photos = tx.objectStore('photos');
  for (const photo of all) photos.get(photo.id).onsuccess = e => { if (!e.target.result) photos.put(photo); };
  await complete(tx);
}
