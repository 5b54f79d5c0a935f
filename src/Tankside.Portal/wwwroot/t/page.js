// The page's side of the outbox: shows what waits and what arrived, and asks for it to be sent whenever there may be a network again.
// All words stand in the page, in its language; without this script the form works as it stands.
'use strict';

(() => {
  const box = document.getElementById('outbox');
  if (!box) {
    return;
  }

  const root = document.documentElement;
  const words = box.dataset;
  const fill = (text, ...values) => text.replace(/\{(\d)\}/g, (_, i) => values[i]);
  const make = (name, text, className) => {
    const element = document.createElement(name);
    element.textContent = text;
    element.className = className || '';
    return element;
  };

  const when = moment => {
    const at = new Date(moment);
    const today = at.toDateString() === new Date().toDateString();
    return at.toLocaleString(root.lang, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23', ...(today ? {} : { weekday: 'long' }) });
  };

  const what = entry => {
    const field = Object.fromEntries(entry.fields);
    return field.water ? `${field.water}${field.unit ? ` °${field.unit}` : ''}` : words.ticks;
  };

  const button = (text, action) => {
    const element = make('button', text, 'button quiet');
    element.type = 'button';
    element.onclick = action;
    return element;
  };

  // Sent as a form of its own, so that the server can show it again with what it does not understand.
  const lookAgain = entry => {
    const form = document.createElement('form');
    form.method = 'post';
    form.action = entry.address;
    for (const [name, value] of [...entry.fields, ['typedAt', entry.typedAt], ['sentAt', Date.now()]]) {
      const input = document.createElement('input');
      input.type = 'hidden';
      input.name = name;
      input.value = value;
      form.append(input);
    }

    document.body.append(form);
    form.submit();
  };

  const row = entry => {
    const line = make('li', fill(words[entry.state], what(entry), when(entry.typedAt), entry.arrivedAt ? when(entry.arrivedAt) : ''), entry.state);
    if (entry.state === 'refused') {
      line.append(button(words.look, () => lookAgain(entry)));
    }

    if (entry.state === 'refused' || entry.state === 'closed') {
      line.append(
        button(words.drop, async () => {
          if (confirm(fill(words.sure, what(entry)))) {
            await Outbox.remove(entry.id);
            await show();
          }
        }));
    }

    return line;
  };

  const say = nodes => {
    box.replaceChildren(...nodes);
    box.hidden = nodes.length === 0;
  };

  const show = async () => {
    const dayAgo = Date.now() - 24 * 3600 * 1000;
    const entries = (await Outbox.all()).filter(e => e.state !== 'sent' && (e.state !== 'arrived' || e.arrivedAt > dayAgo));
    if (entries.length === 0) {
      say([]);
      return;
    }

    const list = document.createElement('ul');
    list.append(...entries.map(row));
    const waiting = entries.filter(e => e.state === 'waiting').length;
    say([
      make('h2', waiting ? fill(waiting === 1 ? words.one : words.many, waiting) : words.none),
      ...(waiting ? [make('p', words.later)] : []),
      list,
    ]);
  };

  // The device keeps nothing: the reading goes on paper, word for word.
  const onPaper = entry => {
    const line = [what(entry), when(entry.typedAt), ...entry.fields
      .filter(([name, value]) => value && !['id', 'water', 'unit', 'about'].includes(name))
      .map(([name, value]) => {
        const asked = document.getElementById(`${name}-question`) || document.querySelector(`label[for="${name}"]`);
        const answer = document.querySelector(`label[for="${name}-${value === 'true' ? 'yes' : 'no'}"]`);
        return `${asked ? asked.textContent : name} ${answer ? answer.textContent : value}`;
      })];
    say([make('h2', words.paper), make('p', line.join(' · '), 'paper-line'), button(words.again, () => lookAgain(entry))]);
  };

  const flush = () => {
    const worker = navigator.serviceWorker && navigator.serviceWorker.controller;
    return worker ? worker.postMessage('flush') : Outbox.flush().catch(() => {});
  };

  // Where no worker stands between (the first visit, or an address without https) the page itself writes down before it sends.
  const sendByPage = async (form, pressed) => {
    let entry = Outbox.entryOf(form.action, new FormData(form, pressed));
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
        location.assign(next);
        return;
      }

      if (Outbox.refusalOf(answer)) {
        await (kept && Outbox.put({ ...entry, state: Outbox.refusalOf(answer) }));
        lookAgain(entry);
        return;
      }
    } catch {
      // It waits.
    }

    showAid(Object.fromEntries(entry.fields).sign);
    if (!kept) {
      onPaper(entry);
      return;
    }

    root.dataset.kept = entry.id;
    form.reset();
    form.querySelectorAll('[name=typedAt],[name=instead]').forEach(input => input.remove());
    form.querySelectorAll('[name=id]').forEach(input => { input.value = Outbox.newId(); });
    await show();
    box.focus();
  };

  document.addEventListener('submit', event => {
    const worker = navigator.serviceWorker && navigator.serviceWorker.controller;
    if (event.target.method === 'post' && !worker) {
      event.preventDefault();
      sendByPage(event.target, event.submitter);
    }
  });

  // All steps of first aid stand in the page; the one asked for is shown, with a network or without.
  const showAid = sign => {
    document.querySelectorAll('.aid').forEach(section => { section.hidden = section.dataset.sign !== sign; });
  };
  if (root.dataset.sign) {
    showAid(root.dataset.sign);
  }

  new BroadcastChannel('tankside-outbox').onmessage = show;
  addEventListener('online', flush);
  document.addEventListener('visibilitychange', () => document.hidden || flush());
  setInterval(flush, 30000);

  if (root.dataset.unkept) {
    onPaper(JSON.parse(root.dataset.unkept));
    return;
  }

  Outbox.all().then(async () => {
    if (navigator.serviceWorker) {
      await navigator.serviceWorker.register('/t/worker.js', { scope: '/t/' }).catch(() => {});
    }

    await show();
    await flush();
  }).catch(() => say([make('p', words.cannot)]));
})();
