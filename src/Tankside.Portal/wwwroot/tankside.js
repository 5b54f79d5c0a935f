// Moves the keyboard to a row of the queue; Blazor has no way to focus an element it only knows by its id.
window.tanksideFocus = id => document.getElementById(id)?.focus();
