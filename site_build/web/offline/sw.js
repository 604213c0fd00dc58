/**
 * The service worker: keeps the whole site on this device and answers from there. `site_build/offline/precache.py` writes the
 * list of the site's files above this text, as `LIST`, and puts both at the root of the site.
 *
 * Every file is kept under its content, so an update brings what changed and nothing else, and a visit goes on where
 * the last one lost its signal. An update takes over only when no tab uses the version before it. Guides and pages are
 * `pages`, which must all come; what Python needs is `heavy`, brought afterwards when a page asks for it.
 */

/** By path from the root: content hash and bytes. @typedef {Record<string, [string, number]>} Files */
/** @type {{pages: Files, heavy: Files, last: string}} */
// @ts-expect-error - stands above in the built file
const { pages, heavy, last } = LIST;
const worker = /** @type {any} */ (self);
const scope = new URL(worker.registration.scope);
const KEPT = `plied-true-site ${scope.pathname}`;
const MAP = 'sitemap.xml';
const AT_ONCE = 6;
const all = { ...pages, ...heavy };

/** @param {string} path */
const address = (path) => new URL(path, scope).href;
/** @param {string} path */
const keyOf = (path) => `${address(path)}?kept=${all[path]?.[0]}`;

/** @param {ArrayBuffer} bytes */
async function hashed(bytes) {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return [...digest.slice(0, 8)].map((each) => each.toString(16).padStart(2, '0')).join('');
}

/** Fetch a file whole and as the list has it: what the browser has at hand, else from the server. @param {string} path */
async function fetched(path) {
  for (const cache of /** @type {RequestCache[]} */ (['force-cache', 'reload'])) {
    const response = await fetch(address(path), { cache, credentials: 'same-origin' });
    const whole = await response.clone().arrayBuffer();
    if (!response.ok || (await hashed(whole)) !== all[path]?.[0]) continue;
    return response.redirected ? new Response(whole, { headers: response.headers }) : response;
  }
  throw new Error(`${path} did not come as it was listed`);
}

/** @param {object} message */
async function tell(message) {
  for (const tab of await tabs()) tab.postMessage(message);
}

async function tabs() {
  const open = await worker.clients.matchAll({ type: 'window', includeUncontrolled: true });
  return open.filter((/** @type {any} */ { url }) => url.startsWith(scope.href));
}

async function keys() {
  const cache = await caches.open(KEPT);
  return new Set((await cache.keys()).map(({ url }) => url));
}

/** Bring the files that are not here yet. @param {string[]} paths */
async function bring(paths) {
  const cache = await caches.open(KEPT);
  const here = await keys();
  const wanted = paths.filter((path) => !here.has(keyOf(path)));
  const before = paths.length - wanted.length;
  let done = 0;
  const some = async () => {
    for (let path = wanted.shift(); path !== undefined; path = wanted.shift()) {
      await cache.put(keyOf(path), await fetched(path));
      if (++done % AT_ONCE === 0) tell({ told: 'coming', done: before + done, of: paths.length });
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, some));
}

/** @param {any} error */
async function failed(error) {
  await tell({ told: 'failed', room: error?.name === 'QuotaExceededError', why: String(error) });
  throw error;
}

/** The file that is brought last stands for all that Python needs. */
async function bringHeavy() {
  await bring(Object.keys(heavy).filter((path) => path !== last));
  await bring([last]);
}

/** Guides first; where sums work without signal they must also in the next version, before it may start. */
async function install() {
  const here = [...await keys()];
  const some = (/** @type {string[]} */ paths) => paths.some((path) => here.some((url) => url.startsWith(`${address(path)}?kept=`)));
  await bring(Object.keys(pages));
  if (some([last])) await bringHeavy();
}

async function state() {
  const here = await keys();
  const count = (/** @type {Files} */ files) => {
    const kept = Object.entries(files).filter(([path]) => here.has(keyOf(path)));
    const bytes = (/** @type {typeof kept} */ each) => each.reduce((sum, [, [, size]]) => sum + size, 0);
    return { kept: kept.length, of: Object.keys(files).length, bytes: bytes(kept), whole: bytes(Object.entries(files)) };
  };
  return { pages: count(pages), heavy: count(heavy) };
}

/** Drop what only versions before this one had. */
async function tidy() {
  await caches.delete('plied-true-memory');
  const wanted = new Set(Object.keys(all).map(keyOf));
  const cache = await caches.open(KEPT);
  for (const { url } of await cache.keys()) if (!wanted.has(url)) await cache.delete(url);
}

/** @param {string} path @returns {Promise<Response | undefined>} */
async function kept(path) {
  try {
    const cache = await caches.open(KEPT);
    const whole = path in pages || (await cache.match(keyOf(last)));
    return whole ? await cache.match(keyOf(path), { ignoreVary: true }) : undefined;
  } catch {
    return undefined; // what was kept cannot be read: the server still can
  }
}

/** A page that is not on the list: the site's own word about it, which as it was built knows no subpath. */
async function unknown() {
  const page = await kept('404.html');
  const text = (await page?.text()) ?? '';
  return new Response(text.replaceAll(/(href=|src=|"base": |"search": )"\//g, `$1"${scope.pathname}`), {
    status: 404, headers: { 'content-type': 'text/html; charset=utf-8' },
  });
}

/**
 * The map of the site by whole addresses, which no build knows: from page to page the theme leaves a full load out, and
 * Python awake, where a map names them so.
 */
function map() {
  const places = Object.keys(pages).filter((path) => path === '' || path.endsWith('/')).map(address);
  const lines = places.map((place) => `<url><loc>${place.replaceAll('&', '&amp;')}</loc></url>`);
  const text = `<urlset>${lines.join('')}</urlset>`;
  return new Response(text, { headers: { 'content-type': 'application/xml' } });
}

/** @param {Request} request @param {string} path */
async function answer(request, path) {
  if (path === MAP) return map();
  if (path in all) return (await kept(path)) ?? fetch(request);
  if (`${path}/` in all) return Response.redirect(address(`${path}/`));
  return fetch(request).then((found) => (found.status === 404 ? unknown() : found), unknown);
}

/** @type {Record<string, () => Promise<any>>} */
const asks = {
  state,
  heavy: () => bringHeavy().catch(failed).finally(() => tell({ told: 'heavy' })),
  take: async () => {
    const open = (await tabs()).length;
    if (open <= 1) await worker.skipWaiting();
    return { open };
  },
};

worker.addEventListener('install', (/** @type {any} */ event) => {
  event.waitUntil(install().catch(failed));
});

worker.addEventListener('activate', (/** @type {any} */ event) => {
  event.waitUntil(tidy().catch(() => {}).then(() => worker.clients.claim()));
});

worker.addEventListener('message', (/** @type {any} */ event) => {
  const reply = asks[event.data.ask]?.().catch((error) => ({ failed: String(error) }));
  if (reply) event.waitUntil(reply.then((/** @type {any} */ said) => event.ports[0]?.postMessage(said)));
});

worker.addEventListener('fetch', (/** @type {any} */ event) => {
  const { method, url, mode } = /** @type {Request} */ (event.request);
  const { origin, pathname } = new URL(url);
  if (method !== 'GET' || origin !== scope.origin || !pathname.startsWith(scope.pathname)) return;
  const path = pathname.slice(scope.pathname.length).replace(/(^|\/)index\.html$/, '$1');
  if (path in all || mode === 'navigate') event.respondWith(answer(event.request, path));
});
