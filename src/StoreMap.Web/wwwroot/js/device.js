// What only the browser can do: sound, vibration, wake lock, files, connection, keys.
let lock = null;
let sound = null;

export function theme(name) {
  if (name) localStorage.setItem('storemap-theme', name);
  document.documentElement.dataset.theme = name || localStorage.getItem('storemap-theme') || 'plain';
}

export function themeName() {
  return localStorage.getItem('storemap-theme') || 'plain';
}

export async function keepAwake(on) {
  try {
    if (on && !lock && 'wakeLock' in navigator) {
      lock = await navigator.wakeLock.request('screen');
      lock.addEventListener('release', () => { lock = null; });
    } else if (!on && lock) {
      await lock.release();
    }
  } catch { lock = null; }
}

// The player takes a tenth of a second and more to be made: it is there before the first reading is kept. Browsers allow it after a touch.
export function readySound() {
  const soon = () => setTimeout(() => { try { sound ??= new AudioContext(); } catch { /* no sound here */ } }, 300);
  if (navigator.userActivation?.hasBeenActive) soon();
  else for (const touch of ['pointerdown', 'keydown']) addEventListener(touch, soon, { once: true });
}

// Two rising tones tell that the dwell is over, three falling ones to stop work.
export function cue(kind) {
  navigator.vibrate?.(kind === 'stop' ? [400, 150, 400, 150, 400] : kind === 'saved' ? [20] : [120, 60, 120]);
  try {
    sound ??= new AudioContext();
    const tones = kind === 'stop' ? [880, 660, 440, 880, 660, 440] : kind === 'saved' ? [520] : [520, 780];
    tones.forEach((hertz, i) => {
      const tone = sound.createOscillator();
      const volume = sound.createGain();
      tone.frequency.value = hertz;
      volume.gain.value = kind === 'stop' ? 0.5 : 0.15;
      tone.connect(volume).connect(sound.destination);
      tone.start(sound.currentTime + i * 0.18);
      tone.stop(sound.currentTime + i * 0.18 + 0.15);
    });
  } catch { /* no sound before the first touch */ }
}

export function download(name, type, text) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

// What is to be read next stands there.
export function toTop() {
  scrollTo(0, 0);
}

export function focus(id) {
  document.getElementById(id)?.focus({ preventScroll: false });
}

export function offlineState() {
  if (!('serviceWorker' in navigator)) return 'Offline work is off: the browser allows it only over HTTPS or on this machine itself.';
  return navigator.serviceWorker.controller ? '' : 'Offline work starts with the next opening of this page.';
}

export function online() {
  return navigator.onLine;
}

export function onConnection(callback) {
  addEventListener('online', () => callback(true));
  addEventListener('offline', () => callback(false));
}

// Clickers send page keys; they and letters act wherever the focus is, but not while a text is being written. The part of the page
// that asked for keys with data-keys gets those with Ctrl too.
let keys = null;
export function onKeys(callback) {
  if (keys) removeEventListener('keydown', keys);
  keys = callback && (e => {
    const target = e.target instanceof Element ? e.target : document.body;
    const part = target.closest('[data-keys]')?.dataset.keys ?? '';
    if (target.closest('input, textarea, select') || e.altKey || ((e.ctrlKey || e.metaKey) && !part)) return;
    if ((e.key === 'Enter' || (e.key === ' ' && part)) && target.closest('button, a, summary')) return;
    if (callback((e.ctrlKey || e.metaKey ? 'Ctrl+' : '') + (e.shiftKey && e.key.length > 1 ? 'Shift+' : '') + e.key, part)) e.preventDefault();
  });
  if (keys) addEventListener('keydown', keys);
}

export function width(id) {
  return document.getElementById(id)?.clientWidth ?? 0;
}

// Where a press lies in an element, in parts of its width and height.
export function inside(id, x, y) {
  const box = document.getElementById(id)?.getBoundingClientRect();
  return box ? [(x - box.left) / box.width, (y - box.top) / box.height] : [0, 0];
}

// The browser keeps the upper left corner; people look at the middle.
export function nearer(id, times) {
  const room = document.getElementById(id)?.closest('.scroll');
  if (!room) return;
  const cross = room.querySelector('.cross')?.getBoundingClientRect(), box = room.getBoundingClientRect();
  // The drawing has its new size already.
  const middle = cross
    ? [room.scrollLeft + cross.x + cross.width / 2 - box.x, room.scrollTop + cross.y + cross.height / 2 - box.y]
    : [(room.scrollLeft + room.clientWidth / 2) * times, (room.scrollTop + room.clientHeight / 2) * times];
  room.scrollLeft = middle[0] - room.clientWidth / 2;
  room.scrollTop = middle[1] - room.clientHeight / 2;
}

// Part of a drawing that is scrolled out of sight comes to its middle; the page moves only when asked, and when the drawing is off it.
export function reveal(id, part, page) {
  const room = document.getElementById(id)?.closest('.scroll'), at = () => room.querySelector(part).getBoundingClientRect();
  if (!room?.querySelector(part)) return;
  const box = room.getBoundingClientRect(), was = at();
  if (was.left < box.left || was.right > box.right || was.top < box.top || was.bottom > box.bottom) {
    room.scrollLeft += was.left + was.width / 2 - box.left - room.clientWidth / 2;
    room.scrollTop += was.top + was.height / 2 - box.top - room.clientHeight / 2;
  }
  if (page && (at().bottom < 0 || at().top > innerHeight)) room.scrollIntoView({ block: 'nearest' });
}

export function downloadBytes(name, type, bytes) {
  download(name, type, bytes.slice());
}

// A picture's dots from its drawing, for when no server is there to make them.
export async function downloadPng(name, svg, width, height, dotsPerInch) {
  const url = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const picture = new Image();
    picture.src = url;
    await picture.decode();
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(width / 25.4 * dotsPerInch);
    canvas.height = Math.round(height / 25.4 * dotsPerInch);
    canvas.getContext('2d').drawImage(picture, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise(done => canvas.toBlob(done, 'image/png'));
    download(name, 'image/png', blob);
  } finally {
    URL.revokeObjectURL(url);
  }
}

// A drawing in a tree of its own, so that ids of several on one page stay apart.
const fit = new CSSStyleSheet();
fit.replaceSync('svg { display: block; width: 100%; height: auto; } @media print { :host(:not(.paper)) svg { max-height: 235mm; } }');
export function show(id, svg) {
  const host = document.getElementById(id);
  if (!host) return;
  const root = host.shadowRoot ?? host.attachShadow({ mode: 'open' });
  root.adoptedStyleSheets = [fit];
  root.innerHTML = svg.replace(/^<\?xml[^>]*>/, '');
}

export function addFace(family, weight, bytes) {
  document.fonts.add(new FontFace(family, bytes.slice().buffer, { weight }));
}

// Each sheet on paper of its own size, whichever way printing is asked for.
export function papers(sizesText) {
  const sizes = JSON.parse(sizesText);
  const rules = new CSSStyleSheet();
  const rule = ([name, w, h]) => `@page ${name} { size: ${w}mm ${h}mm; margin: 0; } @media print { .${name} { page: ${name}; width: ${w}mm; height: ${h}mm; } }`;
  rules.replaceSync(sizes.map(rule).join(''));
  document.adoptedStyleSheets = [rules];
}

export function print() {
  window.print();
}

// A new version waits until it is asked in, so it never changes under someone's hands.
export async function onUpdate(callback) {
  if (!navigator.serviceWorker) return;
  const registration = await navigator.serviceWorker.register('/service-worker.js', { updateViaCache: 'none' }).catch(() => null);
  if (!registration) return; // said on the page
  const tell = async () => await versions.waits() && callback();
  const watch = worker => worker?.addEventListener('statechange', () => worker.state === 'installed' && tell());
  tell();
  watch(registration.installing);
  registration.addEventListener('updatefound', () => watch(registration.installing));
  // Looked for now and whenever the network comes back: the browser by itself looks only as a page is opened.
  const look = () => registration.update().catch(() => { /* no network, or not whole: another time */ });
  addEventListener('online', look);
  look();
}

export async function update() {
  await versions.useNewest();
  location.reload();
}
