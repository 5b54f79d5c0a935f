// Keeps a copy of the driver's sheet on the phone: fetched fresh where there is a network, shown from the copy where there is none. Ticks are not
// its business; the page keeps them.
'use strict';

const cacheName = 'tankside-run-1';
const parts = ['/css/class.css', '/icon.svg', '/t/outbox.js', '/run/sheet.js', '/fonts/atkinson-next-class-400.woff2', '/fonts/atkinson-next-class-700.woff2'];
const patience = 5000; // ms that a page waits for the network where this phone has a copy

self.addEventListener('install', event => event.waitUntil((async () => {
  await (await caches.open(cacheName)).addAll(parts);
  await self.skipWaiting();
})()));

self.addEventListener('activate', event => event.waitUntil((async () => {
  for (const name of await caches.keys()) {
    if (name.startsWith('tankside-run-') && name !== cacheName) {
      await caches.delete(name);
    }
  }

  await self.clients.claim();
  // The sheet that is open was fetched before this worker stood between.
  for (const page of await self.clients.matchAll({ type: 'window' })) {
    await (await caches.open(cacheName)).add(new URL(page.url).pathname).catch(() => {});
  }
})()));

self.addEventListener('fetch', event => {
  const url = new URL(event.request.url);
  const isSheet = event.request.mode === 'navigate' && /^\/run\/[^/]+\/?$/.test(url.pathname);
  if (event.request.method === 'GET' && url.origin === self.location.origin && (isSheet || parts.includes(url.pathname))) {
    event.respondWith(freshOrKept(event.request, url.pathname));
  }
});

async function freshOrKept(request, key) {
  const cache = await caches.open(cacheName);
  const copy = await cache.match(key);
  try {
    const answer = await (copy ? Promise.race([fetch(request), new Promise((_, late) => setTimeout(() => late(new Error('late')), patience))]) : fetch(request));
    const ours = parts.includes(key) || answer.headers.has('Tankside-Answer');
    if (copy && (answer.status >= 500 || !ours)) {
      return copy;
    }

    if (answer.ok && ours) {
      await cache.put(key, answer.clone());
    }

    return answer;
  } catch (failed) {
    if (copy) {
      return copy;
    }

    throw failed;
  }
}
