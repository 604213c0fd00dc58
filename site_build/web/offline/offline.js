/** Keeps the site on this device, says how far that is, and offers a new version: `sw.js` does the work. @module */
import { keep, kept } from '../storage.js';
import { footer, sentence } from './messages.js';

const root = new URL('../../', import.meta.url);
const HOLD_MS = 30_000;
/** @typedef {import('./messages.js').Told} Told */
/** @type {Told} */
const told = { state: 'looking' };
/** @type {ServiceWorkerRegistration | undefined} */
let registration;
let taking = false;

/** @param {Partial<Told>} news */
function show(news = {}) {
  Object.assign(told, news);
  const page = document.querySelector('.pt-offline-page');
  for (const foot of document.querySelectorAll('.md-footer-meta__inner')) {
    if (!page && !foot.querySelector('.pt-offline')) foot.append(Object.assign(document.createElement('div'), { className: 'pt-offline' }));
  }
  for (const place of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll('.pt-offline, .pt-offline-page'))) {
    const { words, buttons } = place === page ? sentence(told) : footer(told, root.href);
    let line = place.querySelector('p');
    if (!line) {
      line = document.createElement('p');
      line.setAttribute('role', 'status');
      place.append(line);
    }
    if (line.innerHTML !== words) line.innerHTML = words;
    const pressed = /** @type {HTMLElement | null} */ (place.querySelector('button:focus'))?.dataset.act;
    for (const old of place.querySelectorAll('button')) old.remove();
    place.append(...buttons.map(([act, label]) => {
      const button = Object.assign(document.createElement('button'), { type: 'button', textContent: label, onclick: () => acts[act]?.() });
      button.dataset.act = act;
      return button;
    }));
    /** @type {HTMLElement | null} */ (place.querySelector(`button[data-act='${pressed}']`))?.focus();
    place.hidden = false;
  }
}

/** @param {ServiceWorker} worker @param {string} what @returns {Promise<any>} */
function ask(worker, what) {
  return new Promise((settle) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => settle(data);
    worker.postMessage({ ask: what }, [port2]);
  });
}

/** Say what is kept, and bring the rest unless the reader's connection asks for thrift. @param {boolean} [more] */
async function look(more = false) {
  const active = registration?.active;
  if (!active) return;
  const { pages, heavy } = await ask(active, 'state');
  if (!pages) return show({ state: 'cannot' });
  const rest = heavy.whole - heavy.bytes;
  show({ state: rest ? 'pages' : 'all', bytes: pages.bytes + heavy.bytes, rest });
  if (more && rest) ask(active, 'heavy');
}

/** @param {ServiceWorker | null} worker */
function follow(worker) {
  if (!worker) return;
  worker.onstatechange = () => { // not a second time where it is already followed: all would be brought twice
    if (worker.state === 'installed' && registration?.active) show({ fresh: true });
    if (worker.state === 'activated') look(!thrifty());
  };
}

const thrifty = () => Boolean(/** @type {any} */ (navigator).connection?.saveData);

async function begin() {
  /** @type {Partial<Told>} */
  let without = { state: 'cannot' };
  try {
    registration = await navigator.serviceWorker.register(new URL('sw.js', root), { updateViaCache: 'none' });
  } catch (error) {
    if (error instanceof TypeError) without = { state: 'coming', failed: 'signal' }; // it could not be fetched
    registration = await navigator.serviceWorker.getRegistration(root).catch(() => undefined);
  }
  if (!registration) return show(without);
  if (!registration.active) show({ state: 'coming' });
  if (registration.waiting && registration.active) show({ fresh: true });
  follow(registration.installing);
  registration.addEventListener('updatefound', () => follow(registration?.installing ?? null));
  if (registration.active) registration.update().catch(() => {}); // a browser left alone takes its time over it
  await look(!thrifty());
}

/** @type {Record<string, () => Promise<void>>} */
const acts = {
  async fetch() {
    keep('offline', null);
    navigator.storage?.persist?.().catch(() => {});
    show({ state: 'coming', done: 0, failed: undefined });
    if (registration?.active) await look(true);
    else await begin();
  },
  async remove() {
    keep('offline', 'off');
    await registration?.unregister();
    await caches.delete(`plied-true-site ${root.pathname}`);
    registration = undefined;
    show({ state: 'off', fresh: false, failed: undefined });
  },
  async take() {
    const { waiting } = registration ?? {};
    if (!waiting) return;
    taking = true;
    const { open } = await ask(waiting, 'take');
    if (open > 1) show({ others: open - 1 });
  },
};

function listen() {
  navigator.serviceWorker.addEventListener('message', ({ data }) => {
    if (data.told === 'coming') show({ ...(told.state === 'all' ? {} : { state: 'coming' }), done: data.done, of: data.of });
    if (data.told === 'failed') show({ failed: data.room ? 'room' : 'signal' });
    if (data.told === 'heavy') look();
  });
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (taking) location.reload();
  });
}

/** Wait until the page has what it needs itself. */
async function quiet() {
  if (document.readyState !== 'complete') await new Promise((settle) => addEventListener('load', settle, { once: true }));
  await new Promise((settle) => {
    if (document.querySelector('[data-worksheet]')) {
      addEventListener('plied-true:ready', settle, { once: true });
      setTimeout(settle, HOLD_MS);
    } else (window.requestIdleCallback ?? setTimeout)(settle);
  });
}

async function start() {
  if (location.protocol === 'file:') return show({ state: 'folder' });
  if (!navigator.serviceWorker || !isSecureContext) return show({ state: 'cannot' });
  listen();
  registration = await navigator.serviceWorker.getRegistration(root).catch(() => undefined);
  if (kept('offline') === 'off') return show({ state: 'off' });
  await look();
  await quiet();
  await begin();
}

const pages = /** @type {any} */ (window).document$;
if (pages) pages.subscribe(() => show());
else show();
start();
