/**
 * Whose string the pages show: the reader's own, or one that came with a link or from the club list. What is known of the
 * two is kept apart, so that somebody else's can be made along while the reader's own stays as it was.
 * @module
 */
import { ownText } from './guide/counts.js';
import { keep as write, kept as read } from './storage.js';

/** @typedef {{text: string, from: string, how?: 'link' | 'club' | 'notebook', sure?: boolean}} Carried */
/** @typedef {{id: string, name: string, how: 'link' | 'club', typed?: Record<string, Carried>}} Opened */

const SHOWN = 'plied-true:shown';
const FROM_CLUB = 'plied-true:from-club';
/** What this tab keeps, where the browser does not. @type {Map<string, string>} */
const here = new Map();

/** @param {string} name */
function inTab(name) {
  try {
    return sessionStorage.getItem(name) ?? here.get(name) ?? '';
  } catch {
    return here.get(name) ?? '';
  }
}

/** @param {string} name @param {string} text */
function keepInTab(name, text) {
  here.set(name, text);
  try {
    sessionStorage.setItem(name, text);
  } catch {
    // not allowed: the tab keeps it as long as the page lasts
  }
}

/** The string that came last from elsewhere, whether it is shown or not. @returns {Opened | null} */
export function lastOpened() {
  const found = read('opened');
  return typeof found?.id === 'string' && found.id ? found : null;
}

/** The string from elsewhere that this tab shows; none when it shows the reader's own. @returns {Opened | null} */
export function opened() {
  const found = lastOpened();
  return found && inTab(SHOWN) === found.id ? found : null;
}

/** @param {Opened} string */
export function showOpened(string) {
  write('opened', string);
  keepInTab(SHOWN, string.id);
}

/** @param {boolean} own or the one from elsewhere again */
export const showOwn = (own = true) => keepInTab(SHOWN, own ? '' : lastOpened()?.id ?? '');

/** What is known of the string that is shown. @param {string} name @returns {any} */
export function kept(name) {
  const other = opened();
  return other ? /** @type {any} */ (other)[name] ?? null : read(name);
}

/** @param {string} name @param {any} value nothing forgets it */
export function keep(name, value) {
  const other = opened();
  if (other) write('opened', { ...other, [name]: value ?? undefined });
  else write(name, value);
}

/** Note that a link is opened from the club list of this tab. @param {string} link */
export const openFromClub = (link) => keepInTab(FROM_CLUB, link);

/** @param {string} link @returns {'link' | 'club'} */
export const cameBy = (link) => (link && inTab(FROM_CLUB) === link ? 'club' : 'link');

/**
 * Whose string it is and how long the bow: "Anna, 54 in".
 * @param {string} units inch, metric or empty for both @param {any} other of whom, when not of the one shown
 */
export function who(units, other = opened()) {
  const own = other ? other.own : read('own');
  const typed = (other ? other.typed : read('typed'))?.nock_to_nock?.text;
  const length = ownText(own, 'nock_to_nock', units) || (typeof typed === 'string' ? typed : '');
  return [other ? other.name || 'a string that was sent' : 'your own bow', length].filter(Boolean).join(', ');
}

/** How it came. @param {Opened} other */
export const howItCame = (other) => (other.how === 'club' ? 'from the club list' : 'with a link');
