/** While somebody types: when an answer is old, when it is worked out again, and how it stays in view. @module */

/** @typedef {import('./page.js').Sheet} Sheet */

/** How long the reader pauses before what is being typed is worked out. */
const PAUSE_MS = 600;

/**
 * While something is typed the answer is old; after a pause it is worked out, without a word.
 * @param {Sheet} sheet @param {HTMLElement} target
 */
export function stir(sheet, target) {
  if (!target.matches('.typed')) return;
  clearTimeout(sheet.pause);
  sheet.element.dataset.state = 'typing';
  stale(sheet, true);
  sheet.part('.origins').textContent = 'Old answer: what is being typed is not in it yet.';
  if (!sheet.brought.apart) sheet.pause = window.setTimeout(() => sheet.answer(undefined, true), PAUSE_MS);
}

/** @param {Sheet} sheet @param {boolean} old whether the answer shown is not that to what stands in the form */
export function stale(sheet, old) {
  sheet.element.toggleAttribute('data-stale', old);
  sheet.part('.strip-old').hidden = !old;
}

/** Bring the answer on the screen. @param {Sheet} sheet */
export function toAnswer(sheet) {
  const { top, bottom } = sheet.part('.headlines').getBoundingClientRect();
  if (top < 0 || bottom > innerHeight) sheet.part('.answer').scrollIntoView();
}

/** The answer in a strip at the top edge, while it is not on the screen itself. @param {Sheet} sheet */
export function bindStrip(sheet) {
  const strip = sheet.part('.strip');
  strip.addEventListener('click', (event) => {
    event.preventDefault(); // the address may hold a link
    toAnswer(sheet);
    sheet.part('.answer').focus({ preventScroll: true });
  });
  /** Where the answer stands, large or small. @type {Set<Element>} */
  const seen = new Set();
  const watch = new IntersectionObserver((places) => {
    for (const { target, isIntersecting } of places) seen[isIntersecting ? 'add' : 'delete'](target);
    strip.hidden = seen.size > 0;
    document.documentElement.toggleAttribute('data-strip', !strip.hidden); // neither a class nor `:has`, which style all of the page anew
  });
  for (const place of ['.headlines', '.brief']) watch.observe(sheet.part(place));
}
