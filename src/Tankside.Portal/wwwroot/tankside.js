// Moves the keyboard to a row of the queue; Blazor has no way to focus an element it only knows by its id.
window.tanksideFocus = id => {
  const give = () => {
    // On a phone the queue gives way to the open call: a row that is not shown cannot hold the keyboard, so the call does.
    const row = document.getElementById(id);
    const element = row?.offsetParent ? row : document.getElementById('open-call') ?? row;
    element?.focus({ preventScroll: true });
    if (element?.id !== 'round') element?.scrollIntoView({ block: element.id === 'open-call' ? 'start' : 'nearest' });
  };
  give();
  // A dialog on its way out gives the keyboard back to where it was opened, which may be gone by then: whoever lost it meanwhile gets it again.
  let looks = 20;
  const timer = setInterval(() => {
    if (!document.querySelector('.mud-dialog') && document.activeElement === document.body) give();
    if (--looks === 0) clearInterval(timer);
  }, 50);
};

window.tanksideAddress = address => history.replaceState(history.state, '', address);

// A list marked data-arrows is walked with the arrow keys, and a button's own letter presses it. Without script both are a Tab and Enter away.
document.addEventListener('keydown', event => {
  if (event.ctrlKey || event.altKey || event.metaKey || event.target.closest('input, select, textarea')) return;
  const list = event.target.closest('[data-arrows]');
  const step = { ArrowDown: 1, j: 1, ArrowUp: -1, k: -1 }[event.key];
  if (list && step) {
    const links = [...list.querySelectorAll('a')];
    const next = links[links.indexOf(event.target.closest('a')) + step];
    if (next) {
      event.preventDefault();
      next.focus();
    }
    return;
  }
  const button = /^[a-z]$/.test(event.key) && document.querySelector(`button[data-key="${event.key}"]`);
  if (button) {
    event.preventDefault();
    button.click();
  }
});

// An open page lost its portal. Either the same one answers again and the page goes on, or another does, which does not know the page: then it
// is loaded anew, at the same address. That is looked for each second, for the framework's own tries grow rare. The event does not bubble.
let coming = 0;
const comeBack = wait => {
  clearTimeout(coming);
  coming = setTimeout(async () => {
    try {
      const answer = await fetch('/health/ready', { cache: 'no-store', signal: AbortSignal.timeout(4000) });
      if (answer.ok) return location.reload();
    } catch {
      // Still out of reach.
    }
    comeBack(1000);
  }, wait);
};
document.addEventListener('components-reconnect-state-changed', event => {
  const state = event.detail.state;
  if (state === 'hide') clearTimeout(coming);
  // At first the framework tries by itself to take up the same page on the same portal.
  else if (state === 'show') comeBack(3000);
  else if (state === 'failed' || state === 'rejected' || state === 'resume-failed') comeBack(0);
}, true);
