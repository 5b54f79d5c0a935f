// Stands between the class pages and the network. Pages are fetched fresh where there is a network and served from this device's copy where
// there is none; what a form sends is written down before it is sent.
'use strict';

importScripts('/t/outbox.js');

const cacheName = 'tankside-class-1';
const parts = ['/css/class.css', '/icon.svg', '/t/outbox.js', '/t/page.js', '/fonts/atkinson-next-class-400.woff2', '/fonts/atkinson-next-class-700.woff2'];
const languages = ['en', 'es'];
const offlinePage = language => `/t/offline?lang=${language}`;
const patience = 5000; // ms that a page waits for the network where this device has a copy

self.addEventListener('install', event => event.waitUntil((async () => {
  const cache = await caches.open(cacheName);
  await cache.addAll([...parts, ...languages.map(offlinePage)]);
  await self.skipWaiting();
})()));

self.addEventListener('activate', event => event.waitUntil((async () => {
  for (const name of await caches.keys()) {
    if (name.startsWith('tankside-class-') && name !== cacheName) {
      await caches.delete(name);
    }
  }

  await self.clients.claim();
})()));

self.addEventListener('sync', event => event.waitUntil(Outbox.flush().then(left => {
  if (left > 0) {
    throw new Error('not all could be sent'); // the browser tries again later
  }
})));

self.addEventListener('message', event => {
  if (event.data === 'flush') {
    event.waitUntil(Outbox.flush());
  }
});

self.addEventListener('fetch', event => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== self.location.origin) {
    return;
  }

  if (request.mode === 'navigate' && url.pathname.startsWith('/t/')) {
    event.respondWith(request.method === 'POST' ? sendForm(request) : showPage(request, url, event));
  } else if (request.method === 'GET' && parts.includes(url.pathname)) {
    event.respondWith(fetchPart(request));
  }
});

async function fetchPart(request) {
  const cache = await caches.open(cacheName);
  try {
    const answer = await fetch(request);
    if (answer.ok) {
      await cache.put(request.url, answer.clone());
    }

    return answer;
  } catch (failed) {
    const copy = await cache.match(request.url);
    if (copy) {
      return copy;
    }

    throw failed;
  }
}

// Worth a copy: the form as opened by the label, and its first aid. Pages about one reading are not.
const isForm = url => /^\/t\/[^/]+$/.test(url.pathname) && url.pathname !== '/t/offline';
const isHelp = url => /^\/t\/[^/]+\/help$/.test(url.pathname);
const isCopied = url => (isForm(url) || isHelp(url)) && !['sent', 'ask', 'sign'].some(name => url.searchParams.has(name));

async function showPage(request, url, event) {
  const cache = await caches.open(cacheName);
  const copy = await cache.match(request.url) || ((isForm(url) || isHelp(url)) && await cache.match(url.pathname, { ignoreSearch: true })) || undefined;
  try {
    const answer = await (copy ? within(patience, fetch(request)) : fetch(request));
    if (copy && (answer.status >= 500 || !Outbox.isOurs(answer))) {
      throw new Error('not the portal, or not well');
    }

    if (answer.ok && Outbox.isOurs(answer) && isCopied(url)) {
      await cache.put(request.url, answer.clone());
      event.waitUntil(isForm(url) ? keepHelp(cache, url) : Promise.resolve());
    }

    return answer;
  } catch {
    return marked(copy || await offlineCopy(url), url, 'data-offline');
  }
}

// First aid has to be there when the network is not. Its steps follow the stage of the fish, so a copy is good for a day.
async function keepHelp(cache, url) {
  const help = `${url.pathname}/help${url.search}`;
  const copy = await cache.match(help);
  if (!copy || Date.parse(copy.headers.get('Date')) < Date.now() - 24 * 3600 * 1000) {
    await cache.add(help).catch(() => {});
  }
}

function within(milliseconds, answer) {
  return Promise.race([answer, new Promise((_, late) => setTimeout(() => late(new Error('late')), milliseconds))]);
}

async function sendForm(request) {
  const url = new URL(request.url);
  let entry = Outbox.entryOf(request.url, await request.clone().formData());
  let kept = true;
  try {
    entry = await Outbox.keep(entry);
  } catch {
    kept = false;
  }

  try {
    const answer = await Outbox.send(entry);
    const next = Outbox.nextOf(answer);
    if (next) {
      await (kept && Outbox.put({ ...entry, state: 'sent', arrivedAt: Date.now() }));
      return Response.redirect(new URL(next, self.location.origin), 303);
    }

    if (Outbox.refusalOf(answer)) {
      await (kept && Outbox.put({ ...entry, state: Outbox.refusalOf(answer) }));
      return answer;
    }
  } catch {
    // No network, or it broke off on the way: nobody here knows whether it arrived. It is sent again; the server knows it by its id.
  }

  if (!kept) {
    return marked(await offlineCopy(url), url, `data-unkept="${escaped(JSON.stringify(entry))}"`);
  }


  await (self.registration.sync && self.registration.sync.register('readings').catch(() => {}));
  const help = isHelp(url) && await (await caches.open(cacheName)).match(url.pathname, { ignoreSearch: true });
  if (help) {
    const sign = entry.fields.find(([name]) => name === 'sign');
    return marked(help, url, `data-offline data-kept="${escaped(entry.id)}" data-sign="${escaped(sign ? sign[1] : '')}"`);
  }

  return marked(await offlineCopy(url), url, `data-kept="${escaped(entry.id)}"`);
}

const escaped = text => text.replace(/&/g, '&amp;').replace(/"/g, '&quot;').replace(/</g, '&lt;');

async function offlineCopy(url) {
  const liked = url.searchParams.get('lang') || (self.navigator.languages || []).map(l => l.slice(0, 2)).find(l => languages.includes(l));
  const cache = await caches.open(cacheName);
  const page = await cache.match(offlinePage(languages.includes(liked) ? liked : 'en'));
  return page || Promise.reject(new Error('no copy'));
}

// Every showing of a copy is a new form: it gets an id of its own. The page for any tank sends to the tank that was asked for. What goes in
// was typed by somebody, so it is put in by functions, in which no sign has a meaning; and the copy keeps the policy it came with.
async function marked(copy, url, attributes) {
  const language = languages.find(l => l === url.searchParams.get('lang'));
  const tank = url.pathname.split('/').slice(0, 3).join('/') + (language ? `?lang=${language}` : '');
  const fresh = (await copy.text())
    .replace(/<html /, () => `<html ${attributes} `)
    .replace(/(name="id" value=")[^"]*"/, (_, before) => `${before}${Outbox.newId()}"`)
    .replace(/(action=")\/t\/offline"/, (_, before) => `${before}${escaped(tank)}"`);
  const headers = { 'Content-Type': 'text/html; charset=utf-8' };
  for (const name of ['Content-Security-Policy', 'X-Content-Type-Options', 'Referrer-Policy', 'Permissions-Policy']) {
    if (copy.headers.has(name)) {
      headers[name] = copy.headers.get(name);
    }
  }

  return new Response(fresh, { headers });
}
