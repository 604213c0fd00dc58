/** What is said about the site on this device, for every state it can be in. @module */

/**
 * @typedef {object} Told
 * @property {'looking' | 'folder' | 'cannot' | 'off' | 'coming' | 'pages' | 'all'} state
 * @property {number} [bytes] kept here
 * @property {number} [rest] bytes still to come
 * @property {number} [done] files that came
 * @property {number} [of] files in all
 * @property {'room' | 'signal'} [failed]
 * @property {boolean} [fresh] a new version waits
 * @property {number} [others] tabs that still use the old one
 */
/** @typedef {{words: string, buttons: [string, string][]}} Said the words as HTML, of this file alone */

/** @param {number} bytes */
const room = (bytes) => `${Math.max(1, Math.round(bytes / 1e6))}\u00a0MB`;

const FAILED = {
  room: 'This device has no room for more of it. What is here stays.',
  signal: 'The signal went, or a file came broken, before all was here. What is here stays, and the next visit goes on from there.',
};
const NEWER = {
  room: ' There is a newer version, for which this device has no room.',
  signal: ' A newer version did not come whole: the next visit tries again.',
};
/** @type {[string, string]} */
const FETCH = ['fetch', 'Make it ready now'];
/** @type {[string, string]} */
const REMOVE = ['remove', 'Remove it from this device'];

/** @param {Told} told @returns {Said} */
function usual({ state, bytes = 0, rest = 0, done = 0, of = 0, failed }) {
  const wrong = failed ? ` ${FAILED[failed]}` : '';
  switch (state) {
    case 'looking': return { words: 'Looking what is kept on this device …', buttons: [] };
    case 'folder': return { words: 'Opened from a folder: guides, search and worked examples need no signal.', buttons: [] };
    case 'cannot': return { words: 'This browser cannot keep the site, so it needs a signal. All else works.', buttons: [] };
    case 'off': return { words: 'Not kept on this device.', buttons: [FETCH] };
    case 'coming': return failed
      ? { words: `Not ready without signal.${wrong}`, buttons: [FETCH, REMOVE] }
      : { words: `Being made ready without signal${of ? `: ${done} of ${of} files` : ''} …`, buttons: [] };
    case 'pages': return {
      words: `Guides and pages are ready without signal and take ${room(bytes)}. Your own sums still need ${room(rest)} more.${wrong}`,
      buttons: [FETCH, REMOVE],
    };
    default: return {
      words: `Ready without signal. It takes ${room(bytes)} on this device.${failed ? NEWER[failed] : ''}`,
      buttons: [REMOVE],
    };
  }
}

/** @param {Told} told @returns {Said | undefined} */
function news({ fresh, others }) {
  if (!fresh) return undefined;
  const words = 'A new version of this site is ready.';
  if (!others) return { words, buttons: [['take', 'Take it now']] };
  const held = others === 1 ? 'the other tab of this site is' : `the ${others} other tabs of this site are`;
  return { words: `${words} It starts when ${held} closed.`, buttons: [['take', 'Try again']] };
}

/** What stands on the page about it. @param {Told} told @returns {Said} */
export function sentence(told) {
  const first = news(told);
  const { words, buttons } = usual(told);
  return { words: [first?.words, words].filter(Boolean).join(' '), buttons: [...(first?.buttons ?? []), ...buttons] };
}

/** The quiet line below every page but that one. @param {Told} told @param {string} root @returns {Said} */
export function footer(told, root) {
  const { words, buttons } = news(told) ?? { words: usual(told).words, buttons: [] };
  const page = location.protocol === 'file:' ? 'offline/index.html' : 'offline/';
  return { words: `${words} <a href="${root}${page}">More about use without signal</a>`, buttons };
}
