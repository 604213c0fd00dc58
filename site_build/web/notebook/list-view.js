/** What is in the notebook: bows, cords, strings and hands, with a way to find one among many. @module */
import { button, link, make } from './elements.js';

/** @typedef {import('./notebook.js').Desk} Desk */
/** @typedef {import('./store.js').Row} Row */

const KINDS = /** @type {const} */ ([
  ['bow', 'Bows', 'Add a bow', 'No bow yet. Add one, or put one down from Plan a string.'],
  ['cord', 'Cords', 'Add a cord', 'No cord yet.'],
  ['string', 'Strings made', 'Add a string', 'No string yet. Plan one, then put it down there.'],
  ['hand', 'Makers', 'Add a maker', 'Nobody yet.'],
]);
/** So many lines come at once; the rest when there is time. */
const AT_ONCE = 150;

/** @param {Desk} desk */
export function listView(desk) {
  const { book } = desk;
  const find = make('input', { type: 'search', id: 'nb-find', autocomplete: 'off' });
  const lists = make('div');
  const fill = () => lists.replaceChildren(...KINDS.map((each) => list(desk, each, find.value.trim().toLowerCase())));
  find.addEventListener('input', fill);
  fill();
  const many = book.rows.size > 12;
  return make(
    'div',
    { refresh: fill },
    make('p', { className: 'buttons nb-ways' },
      link('Register', '#register'), link('Take over a file', '#import'), link('Save or send all', '#export')),
    make('div', { className: 'nb-find', hidden: !many }, make('label', { htmlFor: 'nb-find' }, 'Find'), find),
    lists,
  );
}

/** @param {Desk} desk @param {typeof KINDS[number]} kind @param {string} wanted */
function list({ book, go }, [kind, title, add, none], wanted) {
  const rows = book.of(kind).filter(({ shown }) => `${shown.name} ${shown.words}`.toLowerCase().includes(wanted));
  const items = make('ul', { className: 'nb-list' });
  const more = (/** @type {number} */ from) => {
    const [first, ...rest] = rows.slice(from, from + AT_ONCE).map((row) => item(book, row));
    if (first) items.append(first, ...rest);
    if (rows.length > from + AT_ONCE) (window.requestIdleCallback ?? setTimeout)(() => items.isConnected && more(from + AT_ONCE));
  };
  more(0);
  const count = rows.length ? ` (${rows.length})` : '';
  return make(
    'section',
    { 'data-kind': kind },
    make('h2', { id: `nb-${kind}` }, `${title}${count}`),
    rows.length || wanted ? items : make('p', { className: 'hint' }, none),
    make('p', { className: 'buttons' }, button(add, () => go(`new=${kind}`))),
  );
}

/** One line of a list: its name leads to it. @param {import('./book.js').Book} book @param {Row} row */
export function item(book, { id, kind, data, shown }) {
  const bow = kind === 'string' ? book.rows.get(data.values.bow ?? '')?.shown.name : '';
  const name = [bow, shown.name || (bow ? '' : 'Without a name')].filter(Boolean).join(': ');
  const marks = [...shown.conflicts.map(({ text }) => text), ...shown.unreadable.map((text) => `${text}.`)];
  return make(
    'li',
    {},
    link(name, `#record=${id}`),
    make('span', { className: 'nb-words' }, shown.words),
    ...(marks.length ? [make('strong', { className: 'nb-mark' }, 'Look at it: ', marks.join(' '))] : []),
  );
}
