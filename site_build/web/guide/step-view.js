/** One step of a guide as making along shows it: whole, and in the largest type that fits. @module */
import { setMoving } from './figure-motion.js';

/** Sizes of type, largest first, of which the first is taken that needs no scrolling. */
const SIZES = [1.5, 1.35, 1.2, 1.1, 1, 0.9, 0.8];
/** What of a step is shown besides its figure, in this order. */
export const PARTS = '.pt-caution, .pt-do, .pt-numbers:not([hidden]), .pt-signs, .pt-timer, .pt-note';
/** Those that live: they are moved here and back, since a copy would not. */
export const LIVING = '.pt-numbers, .pt-timer';

/** Take the largest type in which all stands on the screen. @param {HTMLElement} screen @param {HTMLElement} words */
export function fit(screen, words) {
  for (const size of SIZES) {
    words.style.fontSize = `${size}em`;
    if (screen.scrollHeight <= screen.clientHeight) return;
  }
}

/** What a step is called, without its number. @param {HTMLElement | undefined} step */
// biome-ignore lint/performance/useDomNodeTextContent: a title's words for the other kind of string are hidden
export const titleOf = (step) => step?.querySelector('h3')?.innerText.replace(/^\d+\s*/, '').trim() ?? '';

/** A copy of words of a step, without links and marks of sources. @param {HTMLElement} part */
export function plain(part) {
  const copy = /** @type {HTMLElement} */ (part.cloneNode(true));
  for (const mark of copy.querySelectorAll('.pt-from')) mark.remove();
  for (const link of copy.querySelectorAll('a')) link.replaceWith(...link.childNodes);
  return copy;
}

/** Parts of a step that are moved into making along: a copy would have its ids twice. */
export class Borrowed {
  /** @type {[HTMLElement, Comment][]} each with its place on the page */
  #parts = [];

  /** @param {HTMLElement | null} part @param {HTMLElement} into */
  borrow(part, into) {
    if (!part) return null;
    const place = document.createComment('');
    part.replaceWith(place);
    into.append(part);
    this.#parts.push([part, place]);
    return part;
  }

  giveBack() {
    for (const [part, place] of this.#parts) {
      if (part.querySelector('.pt-motion')) setMoving(part, false);
      place.replaceWith(part);
    }
    this.#parts = [];
  }
}
