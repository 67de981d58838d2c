// Starts the app, keeps it on the device, and lets a new version in only when the person agrees.
//
// To the app, as events on `window`:
//   handwheel:ready-offline    every file is stored: it works without a network from now on
//   handwheel:update-waiting   a new version is stored and waits to be used
// From the app, as an event on `window`:
//   handwheel:use-update       use the new version now; the page reloads once
// On <html>, for whoever was not listening yet:
//   data-build="..."           the version that runs; "debug" is never kept on the device
//   data-offline="ready", data-update="waiting"
//   data-busy                  set by the app while nothing may disturb: no search for updates
//
// The address `?nosw` throws the stored files away (never what the person has saved) and runs the
// app from the network.

const page = document.documentElement;
const at = path => new URL(path, document.baseURI);
let broken = false;

if (location.pathname.endsWith('/index.html')) {
  history.replaceState(null, '', at('./' + location.search + location.hash));
}

try {
  const { js, wasm } = document.querySelector('script[data-wasm]').dataset;
  const app = await import(at(js));
  await app.default({ module_or_path: at(wasm) });
} catch (cause) {
  broken = true;
  const note = document.getElementById('broken').content.cloneNode(true);
  const reason = note.querySelector('output');
  reason.textContent = `${cause}`;
  reason.style.overflowWrap = 'anywhere';
  document.body.prepend(note);
  console.error(cause);
}

// Absent on a plain-http address of the local network: the screens work, storing them does not.
if (navigator.serviceWorker) {
  if (new URLSearchParams(location.search).has('nosw')) await forget();
  // The first screen comes before what keeps it.
  else if (page.dataset.build !== 'debug') requestAnimationFrame(() => setTimeout(keep));
}

async function keep() {
  const container = navigator.serviceWorker;
  const registration = await container.register(at('sw.js'), { updateViaCache: 'none' });
  const tell = event => dispatchEvent(new CustomEvent(`handwheel:${event}`));
  let controlled = Boolean(container.controller);
  let agreed = false;

  function useUpdate() {
    agreed = true;
    if (registration.waiting) registration.waiting.postMessage('activate-now');
    else location.reload();
  }

  function announce() {
    page.dataset.update = 'waiting';
    // A version that cannot start has nothing to interrupt.
    if (broken) useUpdate();
    else tell('update-waiting');
  }

  function follow(worker) {
    worker?.addEventListener('statechange', () => {
      if (worker.state === 'installed' && registration.active) announce();
    });
  }

  addEventListener('handwheel:use-update', useUpdate);
  container.addEventListener('controllerchange', () => {
    if (agreed) location.reload();
    else if (controlled) announce(); // another window agreed: this one must not lose its place
    controlled = true;
  });
  registration.addEventListener('updatefound', () => follow(registration.installing));
  follow(registration.installing);
  if (registration.waiting && registration.active) announce();

  container.ready.then(() => {
    page.dataset.offline = 'ready';
    tell('ready-offline');
  });

  // Without a network the search fails, which is the usual state of a workshop and no error.
  const search = () => {
    const idle = document.visibilityState === 'visible' && !('busy' in page.dataset);
    if (idle) registration.update().catch(() => {});
  };
  search();
  setInterval(search, 3_600_000);
}

async function forget() {
  const registration = await navigator.serviceWorker.getRegistration(at('./'));
  // A worker of a folder above is another app's.
  if (registration?.scope === at('./').href) await registration.unregister();
  const ours = `handwheel ${at('./').pathname} `;
  for (const name of await caches.keys()) {
    if (name.startsWith(ours)) await caches.delete(name);
  }
}
