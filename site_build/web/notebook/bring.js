/**
 * Brings the notebook's own script to the pages that need it: its page at once, a sheet when there is time. Other pages do
 * not pay for it. What the two scripts share is handed over here, so that there is one Python and one store of settings.
 * @module
 */
import { letSleep, stayAwake } from '../guide/wake-lock.js';
import { keep, kept } from '../storage.js';
import { client } from '../worker/client.js';
import { chosen } from './prefills.js';

/** @typedef {{bindPage: () => void, bindPicker: (sheet: import('../worksheet/page.js').Sheet) => void}} Made */

const shared = { client, keep, kept, stayAwake, letSleep, chosen, made: /** @type {Made | undefined} */ (undefined) };
/** @typedef {typeof shared} Shared */
/** @type {any} */ (window).pliedTrueShared = shared;
/** @type {Promise<Made> | undefined} */
let coming;

/** @returns {Promise<Made>} */
function bring() {
  coming ??= new Promise((settle, fail) => {
    const script = document.createElement('script');
    script.src = new URL('notebook.js', import.meta.url).href;
    script.onload = () => (shared.made ? settle(shared.made) : fail(new Error('the notebook did not start')));
    script.onerror = () => {
      coming = undefined; // without signal: the next page asks again
      script.remove();
      fail(new Error('the notebook could not be fetched'));
    };
    document.head.append(script);
  });
  return coming;
}

/** Offer what the notebook has on a sheet, once there is time. @param {import('../worksheet/page.js').Sheet} sheet */
export function offerNotebook(sheet) {
  (window.requestIdleCallback ?? setTimeout)(() => bring().then(({ bindPicker }) => bindPicker(sheet), () => {}));
}

function bind() {
  const place = document.querySelector('.pt-notebook');
  if (!place) return;
  bring().then(({ bindPage }) => bindPage(), ({ message }) => {
    place.textContent = `Reload this page when there is a signal: ${message}.`;
    /** @type {HTMLElement} */ (place).hidden = false;
  });
}

const pages = /** @type {any} */ (window).document$;
if (pages) pages.subscribe(bind);
else bind();
