// The first thing of a page: its colours, the database opened while the runtime comes, and a word where the client can't be started.
import('./device.js').then(device => device.theme(''));
import('./storage.js').then(storage => storage.open());
// These pages ask the engine as soon as they are there; its own runtime starts beside the page's.
if (/^\/store\/[^/]+(\/compare)?$/.test(location.pathname)) import('./engine.js').then(engine => engine.warm('desk'));

const said = text => {
  const place = document.querySelector('.opening [role=status]');
  if (place) place.textContent = text;
};
const failed = () => said('StoreMap could not be opened. What you logged is safe on this device. Open this page again, with a network if need be.');
// A script that can't be had tells only itself, so it is listened for on the way down.
addEventListener('error', e => (e.target === window || e.target.localName === 'script') && failed(), true);
addEventListener('unhandledrejection', failed);

// When a new version comes into use the page starts anew with it, also while it is still opening: never half one, half the other.
versions.onUse(() => location.reload());
