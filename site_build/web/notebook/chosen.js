/** Choosing what the sheets are opened for: what the notebook tells each of them is worked out and kept, see `prefills.js`. @module */
import { chosen, keep, kept } from './shared.js';

/** @typedef {import('./prefills.js').Kind} Kind */
/** @typedef {import('./prefills.js').Chosen} Chosen */

const KINDS = /** @type {const} */ (['bow', 'cord', 'hand']);

/** One choice at a time: a cord chosen while the bow is still being filled in comes after it. */
let queue = Promise.resolve();

/** Open the sheets for a record, or for none of its kind. @param {import('./book.js').Book} book @param {Kind} kind @param {string} id */
export function choose(book, kind, id) {
  const chose = queue.then(async () => {
    const row = book.rows.get(id);
    const { [kind]: _, ...rest } = chosen();
    const owned = await refresh(book, { ...rest, ...(row ? { [kind]: { id, name: row.shown.name } } : {}) });
    const typed = kept('typed') ?? {};
    const left = Object.fromEntries(Object.entries(typed).filter(([key]) => !owned[kind].includes(key)));
    keep('typed', Object.keys(left).length ? left : null);
  });
  queue = chose.catch(() => {});
  return chose;
}

/** Something in the notebook is another now: tell the sheets. @param {import('./book.js').Book} book */
export function refreshChosen(book) {
  queue = queue.then(async () => {
    const now = chosen();
    if (KINDS.some((kind) => now[kind])) await refresh(book, now);
  }).catch(() => {});
  return queue;
}

/** @param {import('./book.js').Book} book @param {Chosen} wanted */
async function refresh(book, wanted) {
  const there = KINDS.flatMap((kind) => {
    const row = book.rows.get(wanted[kind]?.id ?? '');
    return row && !row.shown.deleted ? [row] : [];
  });
  const strings = there.filter(({ kind }) => kind === 'bow').flatMap(({ id }) => book.where('string', 'bow', id));
  const { sheets, owned } = await book.ask('prefill', { records: book.records([...there, ...strings]), chosen: there.map(({ id }) => id) });
  const names = Object.fromEntries(there.map(({ id, kind, shown }) => [kind, { id, name: shown.name }]));
  keep('chosen', there.length ? { ...names, sheets } : null);
  return owned;
}
