import { theme } from './device.js';

theme('');
if ('serviceWorker' in navigator) {
  navigator.serviceWorker.register('/service-worker.js', { updateViaCache: 'none' }).catch(() => { /* said on the page */ });
}
