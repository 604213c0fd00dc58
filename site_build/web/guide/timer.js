/** A timer on a page that outlives the page: it keeps when it ends. @module */
import { keep, kept } from './progress.js';
import { running, starting } from './counts.js';

const EVERY_MS = 5_000;

/** Bring the place of a timer to life. @param {HTMLElement} place @param {string} key where its end is kept */
export function bindTimer(place, key) {
  const minutes = Number(place.dataset.minutes);
  const button = Object.assign(document.createElement('button'), { type: 'button' });
  const words = Object.assign(document.createElement('span'), { role: 'status' });
  place.replaceChildren(words, button);
  place.hidden = false;

  function show() {
    const end = Number(kept(key));
    const told = end > 0 ? running(end, Date.now(), minutes) : undefined;
    const said = told?.words ?? '';
    if (words.textContent !== said) words.textContent = said;
    place.classList.toggle('done', told?.done ?? false);
    button.textContent = told ? 'Clear' : starting(minutes, place.dataset.what ?? '');
  }
  button.addEventListener('click', () => {
    keep(key, kept(key) ? '' : String(Date.now() + minutes * 60_000));
    show();
  });
  show();
  const beat = setInterval(() => (place.isConnected ? show() : clearInterval(beat)), EVERY_MS);
}
