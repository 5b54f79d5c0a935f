// Forms marked data-passkey ask the device for a passkey before they are sent. They stay hidden where the browser knows none; everything that they
// do is decided by the portal, which checks what the device answered. All words stand in the page.
const knowsPasskeys = () => typeof window.PublicKeyCredential?.parseRequestOptionsFromJSON === 'function';

const showPasskeys = () => {
  if (knowsPasskeys()) document.querySelectorAll('form[data-passkey][hidden]').forEach(form => { form.hidden = false; });
};

const askDevice = async form => {
  const answer = await fetch(form.dataset.options, { method: 'POST', body: new URLSearchParams(new FormData(form)), headers: { Accept: 'application/json' } });
  if (!answer.ok) {
    const why = answer.status === 400 ? await answer.text() : '';
    throw new Error(why && !why.startsWith('<') ? why : form.dataset.trouble);
  }
  const options = await answer.json();
  return form.dataset.passkey === 'create'
    ? navigator.credentials.create({ publicKey: PublicKeyCredential.parseCreationOptionsFromJSON(options) })
    : navigator.credentials.get({ publicKey: PublicKeyCredential.parseRequestOptionsFromJSON(options) });
};

// Sent by fetch and not as a form: our pages send no referrer, a form then says that it comes from nowhere, and the portal takes the answer of a device
// only from its own place. A redirection means that it was taken; anything else is the page with the reason.
const send = async (form, says) => {
  const answer = await fetch(location.pathname, { method: 'POST', body: new URLSearchParams(new FormData(form)), redirect: 'manual' });
  if (answer.type === 'opaqueredirect') {
    const to = new URLSearchParams(location.search).get('to') ?? '/';
    if (form.dataset.passkey === 'create') location.reload();
    else location.assign(/^\/(?![/\\])/.test(to) ? to : '/');
    return;
  }
  form.elements.Credential.value = '';
  form.querySelector('button').disabled = false;
  const page = new DOMParser().parseFromString(await answer.text(), 'text/html');
  says.setAttribute('role', 'alert');
  says.textContent = page.querySelector('main [role=alert]')?.textContent.replace(/\s+/g, ' ').trim() || form.dataset.trouble;
};

document.addEventListener('submit', async event => {
  const form = event.target.closest?.('form[data-passkey]');
  if (!form || form.elements.Credential.value) return;
  event.preventDefault();
  const says = form.querySelector('[data-passkey-says]');
  const button = form.querySelector('button');
  says.textContent = '';
  button.disabled = true;
  try {
    const credential = await askDevice(form);
    form.elements.Credential.value = JSON.stringify(credential.toJSON());
    await send(form, says);
  } catch (error) {
    button.disabled = false;
    says.textContent = error.name === 'InvalidStateError' ? form.dataset.known
      : error.name === 'NotAllowedError' || error.name === 'AbortError' ? form.dataset.refused
      : error.message;
  }
});

showPasskeys();
document.addEventListener('DOMContentLoaded', showPasskeys);
window.Blazor?.addEventListener('enhancedload', showPasskeys);
