// A driver's sheet: a tick is written down on this phone first and sent after that; until it is sent its stop says so. All words stand in the page;
// without this script the buttons are plain forms.
'use strict';

(() => {
  const box = document.getElementById('waiting');
  const words = box.dataset;

  const line = text => {
    const element = document.createElement('p');
    element.textContent = text;
    return element;
  };

  const waits = async () => (await Outbox.all()).some(entry => entry.state === 'waiting');

  // What waits is shown at its stop as if it had been sent, with the word that it was not yet.
  const show = async () => {
    const entries = await Outbox.all();
    const waiting = entries.filter(e => e.state === 'waiting');
    const refused = entries.filter(e => ['refused', 'closed'].includes(e.state));
    box.replaceChildren(...[
      ...(waiting.length ? [line(waiting.length === 1 ? words.one : words.many.replace('{0}', waiting.length))] : []),
      ...(refused.length ? [line(words.refused)] : []),
    ]);
    box.hidden = !box.childElementCount;
    document.querySelectorAll('[data-kept-here]').forEach(mark => mark.remove());
    for (const entry of waiting) {
      const field = Object.fromEntries(entry.fields);
      const stop = document.querySelector(`[data-stop="${field.stop}"]`);
      const pressed = document.querySelector(`[name=deed][value="${field.deed}"]`);
      if (stop) {
        const mark = line(`${words.kept}: ${pressed ? pressed.textContent : field.deed}`);
        mark.dataset.keptHere = '';
        mark.className = 'kept';
        stop.append(mark);
      }
    }
  };

  let keeping = 0; // ticks that are being written down at this moment
  let behind = false; // whether a tick has waited since this page was made, whoever sends it in the end

  const flush = async () => {
    behind ||= await waits();
    await Outbox.flush();
    // The portal knows all: its page says so. A page that goes takes a tick with it that is half written down, so none may be, and none can begin.
    if (behind && !await waits() && keeping === 0) {
      document.body.inert = true;
      location.reload();
      return;
    }

    await show();
  };

  document.addEventListener('submit', async event => {
    const form = event.target;
    const data = new FormData(form, event.submitter);
    event.preventDefault();
    data.set('id', Outbox.newId());
    keeping++;
    try {
      await Outbox.keep(Outbox.entryOf(form.action, data));
      behind = true;
    } catch {
      // This phone keeps nothing: sent at once as a plain form, or not at all, and the browser says so.
      const pressed = document.createElement('input');
      pressed.type = 'hidden';
      pressed.name = 'deed';
      pressed.value = data.get('deed');
      form.append(pressed);
      form.submit();
      return;
    } finally {
      keeping--;
    }

    await show();
    await flush().catch(() => {});
  });

  addEventListener('online', () => flush().catch(() => {}));
  document.addEventListener('visibilitychange', () => document.hidden || flush().catch(() => {}));
  setInterval(() => flush().catch(() => {}), 30000);
  if (navigator.serviceWorker) {
    navigator.serviceWorker.register('/run/worker.js', { scope: '/run/' }).catch(() => {});
  }

  flush().catch(() => {});
})();
