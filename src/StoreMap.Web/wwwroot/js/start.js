// The first thing of a page: its colours, the service worker, and a word where the client can't be started.
import('./device.js').then(device => device.theme(''));

const said = text => {
  const place = document.querySelector('.opening [role=status]');
  if (place) place.textContent = text;
};
const failed = () => said('StoreMap could not be opened. What you logged is safe on this device. Open this page again, with a network if need be.');
addEventListener('error', failed);
addEventListener('unhandledrejection', failed);

const worker = navigator.serviceWorker;
if (worker) {
  // When a new version takes this page over, the page starts anew with it, also while it is still opening: never half one, half the other.
  let taken = worker.controller !== null;
  worker.addEventListener('controllerchange', () => {
    if (taken) location.reload();
    taken = true;
  });
  worker.register('/service-worker.js', { updateViaCache: 'none' }).catch(() => { /* said on the page */ });
}
