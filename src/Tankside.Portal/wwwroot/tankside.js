// Moves the keyboard to a row of the queue; Blazor has no way to focus an element it only knows by its id.
window.tanksideFocus = id => {
  const element = document.getElementById(id);
  element?.focus({ preventScroll: true });
  if (element?.id !== 'round') element?.scrollIntoView({ block: 'nearest' });
};
