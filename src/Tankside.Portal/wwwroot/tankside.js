// Moves the keyboard to a row of the queue; Blazor has no way to focus an element it only knows by its id.
window.tanksideFocus = id => {
  // On a phone the queue gives way to the open call: a row that is not shown cannot hold the keyboard, so the call does.
  const row = document.getElementById(id);
  const element = row?.offsetParent ? row : document.getElementById('open-call') ?? row;
  element?.focus({ preventScroll: true });
  if (element?.id !== 'round') element?.scrollIntoView({ block: 'nearest' });
};
