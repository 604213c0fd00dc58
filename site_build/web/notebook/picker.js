/**
 * On a sheet: the bow, the cord and the maker it is opened for, out of the notebook, and its answer put down there as a
 * string. Where the notebook is empty there is only the second.
 * @module
 */
import { Book, TypedError } from './book.js';
import { choose, refreshChosen } from './chosen.js';
import { button, link, make, today } from './elements.js';
import { chosen } from './shared.js';
import { NotKeptError, freshId } from './store.js';

/** @typedef {import('../worksheet/page.js').Sheet} Sheet */

const LABELS = /** @type {const} */ ({ bow: 'Bow', cord: 'Cord', hand: 'Maker' });
/** The sheet whose answer is a whole string. */
const BENCH = 'string';
const CLUB = 'club';

/** The notebooks of the sheets that are shown: each has a channel, which holds all that hears it until it is closed. */
const open = /** @type {Map<Sheet, Book>} */ (new Map());

/** @param {Sheet} sheet */
export async function bindPicker(sheet) {
  if (sheet.brought.apart && sheet.id !== CLUB) return;
  const place = make('div', { className: 'nb-pick', role: 'group', 'aria-label': 'From the notebook', hidden: true });
  const low = make('div', { className: 'nb-pick', hidden: true }); // below the answer: nothing that is seen may move
  sheet.part('.columns').before(place);
  sheet.part('.pass-on').before(low);
  const book = await Book.open();
  open.set(sheet, book);
  for (const [one, its] of open) {
    if (one.element.isConnected) continue;
    its.leave();
    open.delete(one);
  }
  const said = make('span', { role: 'status' });
  book.onChange = () => sheet.element.isConnected && draw(sheet, book, [place, low], said);
  draw(sheet, book, [place, low], said);
}

/**
 * @param {Sheet} sheet @param {Book} book @param {HTMLElement[]} places for what is chosen and for what is put down
 * @param {HTMLElement} said what came of it, which stays
 */
function draw(sheet, book, [place, low], said) {
  if (!place || !low) return;
  const kinds = /** @type {(keyof typeof LABELS)[]} */ (Object.keys(LABELS)).filter((kind) => !sheet.brought.apart && book.of(kind).length);
  const picks = kinds.map((kind) => pick(sheet, book, kind));
  const kept = !book.store.trouble;
  const down = sheet.id === BENCH && kept ? [putDown(sheet, book, said)] : sheet.id === CLUB ? [clubBows(sheet, book, said, kept)] : [];
  place.hidden = !picks.length;
  low.hidden = !down.length;
  place.replaceChildren(...picks, ...learns(sheet, book));
  low.replaceChildren(...down);
}

/** @param {Sheet} sheet @param {Book} book @param {keyof typeof LABELS} kind */
function pick(sheet, book, kind) {
  const id = `${sheet.id}-nb-${kind}`;
  const options = book.of(kind).map((row) => make('option', { value: row.id }, row.shown.name || 'Without a name'));
  const select = make('select', { id, className: 'picked' }, make('option', { value: '' }, 'typed by hand'), ...options);
  select.value = chosen()[kind]?.id ?? '';
  select.addEventListener('change', async (event) => {
    event.stopPropagation(); // it is no field of the sheet
    try {
      await choose(book, kind, select.value);
      again(book, id);
      await sheet.usual();
      sheet.say(select.value ? `Filled in from the notebook: ${select.selectedOptions[0]?.textContent}.` : 'Typed by hand.');
    } catch (error) {
      sheet.say(/** @type {Error} */ (error).message);
    }
  });
  return make('p', { className: 'nb-choice' }, make('label', { htmlFor: id }, LABELS[kind]), select);
}

/** Draw it all again, and leave the focus where it was. @param {Book} book @param {string} id */
function again(book, id) {
  const held = document.activeElement?.id === id;
  book.onChange();
  if (held) document.getElementById(id)?.focus();
}

/** The strings of the bow that the sheet learns from, or is told not to. @param {Sheet} sheet @param {Book} book */
function learns(sheet, book) {
  const { bow, sheets = {} } = chosen();
  if (!bow || sheet.id !== BENCH) return [];
  const told = new Map(Object.values(sheets[BENCH] ?? {}).map(({ string = '', from }) => [string, from]));
  const on = (/** @type {import('./store.js').Row} */ { data }) => data.values.made_on ?? '';
  return book.where('string', 'bow', bow.id).sort((one, two) => on(one).localeCompare(on(two))).flatMap(({ id, shown, data }) => {
    const out = data.values.left_out === 'yes';
    const from = told.get(id);
    if (!from && !out) return [];
    const act = button(out ? 'Learn from it' : 'Leave it out', async () => {
      await book.edit('string', id, { left_out: out ? 'no' : 'yes' });
      await refreshChosen(book);
      again(book, act.id);
      await sheet.usual();
    });
    act.id = `${sheet.id}-nb-${id}`;
    return [make('p', { className: 'nb-choice' }, `${out ? 'Left out: string' : 'Learns from the'} ${from ?? shown.name} `, act)];
  });
}

/** @param {Sheet} sheet @param {Book} book @param {HTMLElement} said */
function putDown(sheet, book, said) {
  const { bow } = chosen();
  const name = make('input', { id: `${sheet.id}-nb-name`, className: 'typed', autocomplete: 'off' });
  const act = button(bow ? `Put it down as a string of ${bow.name || 'this bow'}` : 'Put it down in the notebook', async () => {
    try {
      const made = await put(sheet, book, name.value);
      const page = location.protocol === 'file:' ? 'index.html' : '';
      said.replaceChildren('Put down. ', link('See it in the notebook', `../../notebook/${page}#record=${made}`));
    } catch (error) {
      if (!(error instanceof NotKeptError || error instanceof TypedError)) throw error;
      said.textContent = error.message;
    }
  });
  const asks = bow ? [] : [make('label', { htmlFor: name.id }, 'Name of the bow'), name];
  for (const type of ['input', 'change']) name.addEventListener(type, (event) => event.stopPropagation());
  return make('p', { className: 'nb-down' }, ...asks, act, ' ', said);
}

const counted = (/** @type {number} */ count) => `${count} ${count === 1 ? 'bow' : 'bows'}`;

/**
 * The bows of the notebook as the club's list, and the other way about.
 * @param {Sheet} sheet @param {Book} book @param {HTMLElement} said @param {boolean} kept whether anything can be written
 */
function clubBows(sheet, book, said, kept) {
  const bows = book.of('bow');
  const list = () => sheet.form.control('bows');
  const fill = button('Fill in the bows of the notebook', async () => {
    const { text } = await book.ask('club_list', { records: book.records(bows) });
    sheet.form.put('bows', text);
    list().dispatchEvent(new Event('change', { bubbles: true }));
    said.textContent = `Filled in: ${counted(bows.length)}.`;
  });
  const put = button('Put these bows down in the notebook', async () => {
    /** @type {string[]} */
    let faults = [];
    const made = await book.change(bows.map(({ id }) => id), async (/** @type {import('./store.js').Row[]} */ rows) => {
      const told = { records: book.records(rows), text: list().value, new: freshId('bow'), system: sheet.system };
      const reply = await book.ask('club_bows', { ...told, ...book.stamp() });
      faults = reply.faults;
      return reply.changed;
    });
    said.textContent = [`Put down or changed: ${counted(made.length)}.`, ...faults].join(' ');
  });
  return make('p', { className: 'nb-down buttons' }, ...(bows.length ? [fill, ' '] : []), ...(kept ? [put, ' '] : []), said);
}

/** @param {Sheet} sheet @param {Book} book @param {string} name @returns {Promise<string>} the string's id */
async function put(sheet, book, name) {
  if (sheet.element.dataset.state === 'old' || !sheet.outcome) {
    throw new NotKeptError('Calculate first: the answer shown is not to what is typed.');
  }
  const now = chosen();
  const ids = { bow: freshId('bow'), cord: freshId('cord'), string: freshId('string') };
  const shown = Object.fromEntries(sheet.outcome.rows.map((/** @type {any} */ row) => [row.key, row.shown]));
  const picked = { bow: now.bow?.id ?? '', cord: now.cord?.id ?? '', hand: now.hand?.id ?? '' };
  const told = {
    worksheet: sheet.id, inputs: sheet.form.read(), chosen: picked, ids, name, today: today(),
    string: { strands: shown.strands, cut_length: shown.cut_length, body_raw: shown.body_raw, turns: shown.turns_body },
  };
  await book.change(Object.values(ids), async () => {
    const { changed } = await book.ask('put_down', { ...told, ...book.stamp(), system: sheet.system });
    return changed;
  });
  if (!picked.bow) await choose(book, 'bow', ids.bow);
  if (!picked.cord) await choose(book, 'cord', ids.cord);
  if (!picked.bow || !picked.cord) await sheet.usual();
  book.onChange(); // the button says whose string it is now
  return ids.string;
}
