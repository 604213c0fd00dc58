/**
 * Whose string the pages show: the reader's own, or one that came with a link or from the club list. What is known of the
 * two is kept apart, so that somebody else's can be made along while the reader's own stays as it was.
 * @module
 */
import { ownText } from './guide/counts.js';
import { keep as write, kept as read } from './storage.js';

/** @typedef {{text: string, from: string, how?: 'link' | 'club' | 'notebook', sure?: boolean}} Carried */
/** @typedef {{id: string, name: string, how: 'link' | 'club', kept?: boolean, typed?: Record<string, Carried>}} Opened */

const SHOWN = 'plied-true:shown';
/** So many strings from elsewhere are kept: a club's afternoon. */
const MOST = 24;
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

/** @param {any} found @returns {found is Opened} */
const isString = (found) => typeof found?.id === 'string' && found.id !== '';

/** The strings that came from elsewhere and are kept, the latest first, whether one is shown or not. @returns {Opened[]} */
export function allOpened() {
  const before = read('opened-before');
  return [read('opened'), ...(Array.isArray(before) ? before : [])].filter(isString);
}

/** The string from elsewhere that this tab shows; none when it shows the reader's own. @returns {Opened | null} */
export const opened = () => allOpened().find(({ id }) => id === inTab(SHOWN)) ?? null;

/** @param {Opened[]} all the latest first */
function writeOpened([latest, ...before]) {
  write('opened', latest);
  write('opened-before', before.length ? before.slice(0, MOST - 1) : undefined);
}

/** @param {Opened} string */
export function showOpened(string) {
  writeOpened([string, ...allOpened().filter(({ id }) => id !== string.id)]);
  keepInTab(SHOWN, string.id);
}

/** Keep one that came with a link beside the reader's own: opened again, it stands as the reader left it. @param {string} id */
export const keepBeside = (id) => writeOpened(allOpened().map((each) => (each.id === id ? { ...each, kept: true } : each)));

/** Forget one that came from elsewhere, and show the reader's own. @param {string} id */
export function leave(id) {
  writeOpened(allOpened().filter((each) => each.id !== id));
  showKept();
}

/** Whether this reader has set or worked out anything of a string of their own. */
export const hasOwn = () => Boolean(read('typed') ?? read('own'));

/** Show one that is kept, or the reader's own. @param {string} [id] nothing for the reader's own */
export const showKept = (id = '') => keepInTab(SHOWN, id);

/** What is known of the string that is shown. @param {string} name @returns {any} */
export function kept(name) {
  const other = opened();
  return other ? /** @type {any} */ (other)[name] ?? null : read(name);
}

/** @param {string} name @param {any} value nothing forgets it */
export function keep(name, value) {
  const other = opened();
  if (!other) write(name, value);
  else writeOpened(allOpened().map((each) => (each.id === other.id ? { ...each, [name]: value ?? undefined } : each)));
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
