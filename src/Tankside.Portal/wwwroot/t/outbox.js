// The outbox of the class pages and of drivers' sheets: what is typed is written down on this device first and sent after that. Used by the page
// and by its worker (worker.js). Each entry carries the id that its form was given, so that the server takes it once however often it is sent.
'use strict';

const Outbox = (() => {
  const day = 24 * 3600 * 1000;
  // A driver's ticks and a class's readings on one device know nothing of each other.
  const shelf = self.location.pathname.startsWith('/run/') ? 'tankside-run' : 'tankside';
  const giveUpAfter = 15000; // ms; a captive network may never answer

  // Neither random ids nor locks are given to a page without https, where a school may run this on its own network.
  const newId = () => crypto.randomUUID ? crypto.randomUUID()
    : [8, 4, 4, 4, 12].map(n => [...crypto.getRandomValues(new Uint8Array(n))].map(b => (b % 16).toString(16)).join('')).join('-');
  const alone = work => navigator.locks ? navigator.locks.request(`${shelf}-outbox`, work) : work();

  const whole = request => new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
  });

  const open = () => {
    const request = indexedDB.open(shelf, 1);
    request.onupgradeneeded = () => request.result.createObjectStore('entries', { keyPath: 'id' });
    return whole(request);
  };

  const inStore = async (mode, work) => {
    const db = await open();
    try {
      // Strict: a device that is switched off at once has it on its disk.
      const transaction = db.transaction('entries', mode, { durability: 'strict' });
      const committed = new Promise((done, failed) => {
        transaction.oncomplete = () => done();
        transaction.onabort = transaction.onerror = () => failed(transaction.error);
      });
      const result = await whole(work(transaction.objectStore('entries')));
      await committed;
      return result;
    } finally {
      db.close();
    }
  };

  const put = entry => inStore('readwrite', store => store.put(entry));
  const get = id => inStore('readonly', store => store.get(id));
  const remove = id => inStore('readwrite', store => store.delete(id));
  const all = async () => (await inStore('readonly', store => store.getAll())).sort((a, b) => a.typedAt - b.typedAt);

  // Only the words that were typed: no file, no token. typedAt is this device's clock; the server only uses how long ago that is.
  const entryOf = (address, form) => {
    const url = new URL(address);
    const fields = [...form.entries()].filter(([name, value]) => typeof value === 'string' && name !== 'sentAt');
    const typed = Number(form.get('typedAt'));
    return {
      id: form.get('id') || newId(),
      address: url.pathname + url.search,
      fields: fields.filter(([name]) => name !== 'typedAt'),
      typedAt: typed > 0 ? typed : Date.now(),
      state: 'waiting',
    };
  };

  const same = (a, b) => JSON.stringify(a.fields) === JSON.stringify(b.fields);

  // A form that was gone back to, or served from this device's own copy, carries an id that was used before. The same words within ten
  // minutes are the same press of the button; anything else is another reading.
  const keep = async entry => {
    const known = await get(entry.id);
    const settled = known && ['sent', 'arrived'].includes(known.state);
    if (known && (settled ? !same(known, entry) || Date.now() - known.typedAt > 600000 : known.state === 'waiting' && !same(known, entry))) {
      const id = newId();
      entry = { ...entry, id, fields: entry.fields.map(([name, value]) => [name, name === 'id' ? id : value]) };
    } else if (known && same(known, entry)) {
      entry = { ...entry, typedAt: known.typedAt };
    }

    await put(entry);
    // The server gave a changed form a new id; the old one is not to be looked at any more.
    const instead = entry.fields.find(([name]) => name === 'instead');
    if (instead) {
      await remove(instead[1]);
    }

    return entry;
  };

  // again: not by a press of the button just now; the same words under the same id are then the same reading, whatever the clock says.
  const send = (entry, again) => {
    const body = new URLSearchParams(entry.fields);
    body.set('typedAt', entry.typedAt);
    body.set('sentAt', Date.now());
    if (again) {
      body.set('again', '1');
    }

    const stop = new AbortController();
    const timer = setTimeout(() => stop.abort(), giveUpAfter);
    return fetch(entry.address, { method: 'POST', body, redirect: 'manual', credentials: 'same-origin', headers: { 'Tankside-Outbox': '1' }, signal: stop.signal })
      .finally(() => clearTimeout(timer));
  };

  // Between a school and the portal stand filters and sign-in pages that answer in its place. Only what carries the portal's own mark is its
  // answer; everything else is no network.
  const isOurs = answer => answer.headers.has('Tankside-Answer');

  // Where to go on to, once it is taken; null when it is not.
  const nextOf = answer => isOurs(answer) && answer.ok ? answer.headers.get('Tankside-Next') : null;

  // The portal has read it and will not have it as it is: no use in sending it again unchanged. Null when it may be sent again.
  const refusalOf = answer => !isOurs(answer) ? null
    : [404, 410].includes(answer.status) ? 'closed'
    : answer.status >= 400 && answer.status < 500 && ![408, 429].includes(answer.status) ? 'refused' : null;

  const sendOne = async entry => {
    const answer = await send(entry, true);
    if (nextOf(answer)) {
      await put({ ...entry, state: 'arrived', arrivedAt: Date.now() });
    } else if (refusalOf(answer)) {
      await put({ ...entry, state: refusalOf(answer) });
    } else {
      return false;
    }

    return true;
  };

  // One sender at a time; whoever comes second finds nothing left to do.
  const flush = () => alone(async () => {
    let left = 0;
    let settled = 0;
    for (const entry of await all()) {
      if (entry.state === 'waiting') {
        const done = await sendOne(entry).catch(() => false);
        left += done ? 0 : 1;
        settled += done ? 1 : 0;
      } else if (['sent', 'arrived'].includes(entry.state) && entry.arrivedAt < Date.now() - 7 * day) {
        await remove(entry.id);
      }
    }

    if (settled > 0) {
      new BroadcastChannel(`${shelf}-outbox`).postMessage('changed');
    }

    return left;
  });

  return { all, entryOf, flush, isOurs, keep, newId, nextOf, put, refusalOf, remove, send };
})();
