// Keeps one whole version of the app on the device. precache.sh puts VERSION and FILES, a list of
// [path, sha256], in front of this text.

const OURS = `handwheel ${new URL(registration.scope).pathname} `;
const CACHE = OURS + VERSION;
const SHELL = new URL('./', registration.scope).href;
const ADDRESSES = new Set(FILES.map(([path]) => new URL(path, registration.scope).href));

addEventListener('install', event => event.waitUntil(store()));
addEventListener('activate', event => event.waitUntil(takeOver()));
addEventListener('message', event => {
  if (event.data === 'activate-now') skipWaiting();
});
addEventListener('fetch', event => {
  const { method, url } = event.request;
  if (method === 'GET' && url.startsWith(registration.scope)) event.respondWith(answer(event.request));
});

// All files or none: nothing is stored before the last one has arrived and been checked.
async function store() {
  const files = await Promise.all(FILES.map(download));
  const cache = await caches.open(CACHE);
  try {
    await Promise.all(files.map(([path, response]) => cache.put(path, response)));
  } catch (cause) {
    await caches.delete(CACHE);
    throw cause;
  }
}

// A login page of a guest network and a stale proxy both answer 200; only the digest tells.
async function download([path, digest]) {
  for (const cache of ['no-cache', 'reload']) {
    const response = await fetch(path, { cache });
    const body = await response.arrayBuffer();
    if (response.ok && (await sha256(body)) === digest) {
      // Made anew, because a browser refuses a redirected response for a navigation.
      const type = response.headers.get('content-type') ?? '';
      return [path, new Response(body, { headers: { 'content-type': type } })];
    }
  }
  throw new Error(`${path} is not the file of version ${VERSION}`);
}

async function sha256(body) {
  const bytes = new Uint8Array(await crypto.subtle.digest('SHA-256', body));
  return Array.from(bytes, byte => byte.toString(16).padStart(2, '0')).join('');
}

async function takeOver() {
  for (const name of await caches.keys()) {
    if (name.startsWith(OURS) && name !== CACHE) await caches.delete(name);
  }
  await clients.claim();
}

// Only from this version's cache, so that two versions never mix; every page is the one shell.
// The very address is asked for: to look past a query, the browser would go through every file.
async function answer(request) {
  const address = request.url.replace(/[?#].*/, '');
  const stored = ADDRESSES.has(address) ? address : request.mode === 'navigate' ? SHELL : '';
  return (stored && (await caches.match(stored, { cacheName: CACHE }))) || fetch(request);
}
