// The versions of the client kept on this device, for pages and the service worker alike: the files of each in a cache of its own, and
// two words, which version is in use and which was the last to come whole. A version comes into use by its word alone, so it doesn't wait
// for one service worker to follow another, which takes a browser as long as the old one has anything in hand.
self.versions = (() => {
  const prefix = 'storemap-', words = 'storemap', inUse = '/in-use', whole = '/whole';
  const channel = new BroadcastChannel('storemap-in-use');
  const word = async which => (await caches.match(which, { cacheName: words }))?.text();
  const put = async (which, version) => (await caches.open(words)).put(which, new Response(version));
  // What is dropped and what comes into use must not be decided at one moment.
  const alone = work => navigator.locks.request('storemap-versions', work);
  const kept = async () => (await caches.keys()).filter(key => key.startsWith(prefix)).map(key => key.slice(prefix.length));

  return {
    kept,
    inUse: () => word(inUse),
    files: version => caches.open(prefix + version),
    file: (version, wanted) => caches.match(wanted, { cacheName: prefix + version }),

    // A version that comes next waits to be asked in; whatever is neither this nor the one in use is dropped. What the first one has worked out
    // before it came whole is its own and stays.
    cameWhole: version => alone(async () => {
      await put(whole, version);
      if (!await word(inUse)) await put(inUse, version);
      const used = await word(inUse);
      for (const old of await kept()) if (old !== version && old !== used && !(old === 'answers' && used === version)) await caches.delete(prefix + old);
    }),
    waits: async () => await word(whole) !== await word(inUse),
    useNewest: () => alone(async () => {
      const version = await word(whole);
      await put(inUse, version);
      channel.postMessage(version);
    }),
    onUse: callback => channel.addEventListener('message', callback),
  };
})();
