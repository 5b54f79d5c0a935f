// The outbox of the class pages: what is typed is written down on this device first and sent after that. Used by the page and by its worker
// (worker.js). Each entry carries the id that its form was given, so that the server takes it once however often it is sent.
'use strict';

const Outbox = (() => {
  const day = 24 * 3600 * 1000;
  const giveUpAfter = 15000; // ms; a captive network may never answer

  // Neither random ids nor locks are given to a page without https, where a school may run this on its own network.
  const newId = () => crypto.randomUUID ? crypto.randomUUID()
    : [8, 4, 4, 4, 12].map(n => [...crypto.getRandomValues(new Uint8Array(n))].map(b => (b % 16).toString(16)).join('')).join('-');
  const alone = work => navigator.locks ? navigator.locks.request('tankside-outbox', work) : work();

  const whole = request => new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
  });

  const open = () => {
    const request = indexedDB.open('tankside', 1);
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

  // A form that was served from this device's own copy, or gone back to, may carry an id that was used before for something else.
  const keep = async entry => {
    const known = await get(entry.id);
    if (known && known.state !== 'refused' && !same(known, entry)) {
      const id = newId();
      entry = { ...entry, id, fields: entry.fields.map(([name, value]) => [name, name === 'id' ? id : value]) };
    }

    if (known && same(known, entry)) {
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

  const send = (entry, redirect) => {
    const body = new URLSearchParams(entry.fields);
    body.set('typedAt', entry.typedAt);
    body.set('sentAt', Date.now());
    const stop = new AbortController();
    const timer = setTimeout(() => stop.abort(), giveUpAfter);
    return fetch(entry.address, { method: 'POST', body, redirect, credentials: 'same-origin', signal: stop.signal })
      .finally(() => clearTimeout(timer));
  };

  const isTaken = answer => answer.type === 'opaqueredirect' || (answer.redirected && answer.ok);
  // The server has read it and will not have it as it is: no use in sending it again unchanged. Null when it may be sent again.
  const refusalOf = answer => [404, 410].includes(answer.status) ? 'closed'
    : answer.status >= 400 && answer.status < 500 && ![408, 429].includes(answer.status) ? 'refused' : null;

  const sendOne = async entry => {
    const answer = await send(entry, 'manual');
    if (isTaken(answer)) {
      await put({ ...entry, state: 'arrived', arrivedAt: Date.now() });
    } else if (refusalOf(answer)) {
      await put({ ...entry, state: refusalOf(answer) });
    }

    return isTaken(answer) || refusalOf(answer) !== null;
  };

  // One sender at a time; whoever comes second finds nothing left to do.
  const flush = () => alone(async () => {
    let left = 0;
    for (const entry of await all()) {
      if (entry.state === 'waiting') {
        left += await sendOne(entry).catch(() => false) ? 0 : 1;
      } else if (entry.state === 'arrived' && entry.arrivedAt < Date.now() - 7 * day) {
        await remove(entry.id);
      }
    }

    new BroadcastChannel('tankside-outbox').postMessage('changed');
    return left;
  });

  return { all, entryOf, flush, isTaken, keep, newId, put, refusalOf, remove, send };
})();
