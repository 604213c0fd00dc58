/** Files in and out: what a file would change is shown before it does, and what one holds before it is passed on. @module */
import { button, link, make, save, today } from './elements.js';
import { NotKeptError } from './store.js';

/** @typedef {import('./notebook.js').Desk} Desk */
/** @typedef {import('./store.js').Row} Row */
/** @typedef {{what: string, fields: string[], record: import('./store.js').Given}} Change */

const TYPE = 'application/json';
const ENDING = '.pliedtrue.json';
/** So many records of a file are worked through at once, so that it can be stopped in between. */
const AT_ONCE = 250;
const WORDS = {
  new: 'new here',
  changed: 'changed',
  conflict: 'changed here and there: the later stays, the earlier is told',
  deleted: 'deleted there',
  restored: 'back again',
  history: 'known already',
};

/** @param {Desk} desk */
export function importView(desk) {
  const told = make('div', { className: 'nb-import' });
  const file = make('input', { type: 'file', id: 'nb-file', className: 'file', accept: '.json,application/json' });
  const take = async (/** @type {File | undefined} */ given) => {
    if (given) await desk.attempt(() => preview(desk, given, told));
  };
  file.addEventListener('change', () => take(file.files?.[0]));
  const drop = make('div', { className: 'nb-drop' },
    make('label', { htmlFor: 'nb-file' }, 'A file of a notebook'),
    make('p', { className: 'hint' }, 'You see what it would change before anything is taken over.'), file);
  drop.addEventListener('dragover', (event) => event.preventDefault());
  drop.addEventListener('drop', (event) => {
    event.preventDefault();
    take(event.dataTransfer?.files[0]);
  });
  return make('div', {}, make('p', {}, link('Back to all', '#')), make('h2', {}, 'Take over a file'), drop, told);
}

/** @param {Desk} desk @param {File} file @param {HTMLElement} told */
async function preview(desk, file, told) {
  let stopped = false;
  const bar = make('progress', { max: 1, value: 0, 'aria-label': 'Records looked at' });
  told.replaceChildren(bar, ' ', button('Stop', () => (stopped = true)));
  desk.say('Looking at the file …');
  try {
    const found = await looked(desk, await file.text(), (done, of) => {
      bar.max = of;
      bar.value = done;
      return !stopped;
    });
    told.replaceChildren(...(found ? changesOf(desk, file.name, found, told) : []));
    desk.say(found ? 'Nothing is taken over yet.' : 'Stopped. Nothing was taken over.');
  } catch (error) {
    told.replaceChildren();
    throw error;
  }
}

/**
 * Let Python join a file with what is here, some records at a time.
 * @param {Desk} desk @param {string} text @param {(done: number, of: number) => boolean} goOn
 * @returns {Promise<{changes: Change[], faults: string[], read: Row[]} | undefined>} nothing when it was stopped
 */
export async function looked({ book }, text, goOn) {
  /** @type {any} */
  let data;
  try {
    data = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    await book.ask('head', { text }); // which says what is wrong with it
  }
  const bare = data && typeof data === 'object' && !Array.isArray(data)
    ? Object.fromEntries(Object.entries(data).map(([key, value]) => [key, Array.isArray(value) ? [] : value])) : null;
  const { plurals } = await book.ask('head', { head: bare });
  /** @type {{kind: string, data: any[], first: number}[]} */
  const groups = [];
  for (const [kind, plural] of Object.entries(plurals)) {
    const list = data[/** @type {string} */ (plural)] ?? [];
    for (let at = 0; at < list.length; at += AT_ONCE) groups.push({ kind, data: list.slice(at, at + AT_ONCE), first: at + 1 });
  }
  const of = groups.reduce((sum, group) => sum + group.data.length, 0);
  let done = 0;
  /** @type {Change[]} */
  const changes = [];
  const faults = [];
  /** @type {Map<string, Row>} */
  const read = new Map();
  for (const group of groups) {
    if (!goOn(done, of)) return undefined;
    const ours = group.data.flatMap((each) => book.rows.get(each?.id) ?? []);
    for (const row of ours) read.set(row.id, row);
    const reply = await book.ask('merge', { ours: book.records(ours), theirs: [group] });
    changes.push(...reply.changes);
    faults.push(...reply.faults);
    done += group.data.length;
  }
  goOn(of, of);
  const twice = new Set(changes.map(({ record }) => record.data.id));
  if (twice.size < changes.length) throw new NotKeptError('Two records of this file have one id. Nothing was taken from it.');
  return { changes, faults, read: [...read.values()] };
}

/** @param {Desk} desk @param {string} name @param {{changes: Change[], faults: string[], read: Row[]}} found @param {HTMLElement} told */
function changesOf(desk, name, { changes, faults, read }, told) {
  const shown = changes.filter(({ what }) => what !== 'history');
  const counts = Object.entries(WORDS).flatMap(([what, words]) => {
    const count = changes.filter((change) => change.what === what).length;
    return count && what !== 'history' ? [`${count} ${words}`] : [];
  });
  const lines = shown.slice(0, 100).map(({ what, fields, record }) => make('li', {},
    make('strong', {}, record.shown.name || `A ${record.kind} without a name`),
    ` (${record.kind}): ${WORDS[/** @type {keyof typeof WORDS} */ (what)]}`,
    what === 'new' || !fields.length ? '' : `: ${fields.join(', ')}`));
  const take = async () => {
    const ids = new Set(changes.map(({ record }) => record.data.id));
    const undo = /** @type {const} */ ({ what: `Taken over from ${name}: ${counts.join(', ') || 'nothing new'}.`, way: 'put back' });
    await desk.book.store.commit(changes.map(({ record }) => record), read.filter(({ id }) => ids.has(id)), undo);
    await desk.book.load();
    told.replaceChildren();
    desk.say(`Taken over: ${counts.join(', ') || 'nothing new'}.`);
    desk.book.onChange();
  };
  const act = async () => {
    if (!(await desk.attempt(take))) told.replaceChildren();
  };
  return [
    make('p', {}, counts.length ? `It would change this: ${counts.join(', ')}.` : 'It has nothing that is not here already.'),
    ...(faults.length ? [make('ul', { className: 'cautions' }, ...faults.slice(0, 20).map((fault) => make('li', {}, fault)))] : []),
    make('ul', { className: 'nb-changes' }, ...lines),
    ...(shown.length > 100 ? [make('p', { className: 'hint' }, `And ${shown.length - 100} more.`)] : []),
    make('p', { className: 'buttons' }, ...(changes.length ? [button('Take it over', act, 'nb-do')] : []), ' ', button('Leave it', () => {
      told.replaceChildren();
      desk.say('Nothing was taken over.');
    })),
  ];
}

/** @param {Desk} desk @param {Row} [row] one bow, or nothing for all */
export function exportView(desk, row) {
  const place = make('div', { className: 'nb-export' }, make('p', { className: 'hint' }, 'Looking at what it holds …'));
  const title = row ? `Save or send ${row.shown.name || 'this bow'}` : 'Save or send all';
  desk.attempt(async () => place.replaceChildren(...(await ways(desk, row))));
  return make('div', {}, make('p', {}, link('Back to all', row ? `#record=${row.id}` : '#')), make('h2', {}, title), place);
}

/** @param {Desk} desk @param {Row} [row] */
async function ways(desk, row) {
  const { book } = desk;
  const { text, holds, people } = await book.ask('write', { records: book.records(), ids: row ? [row.id] : [] });
  const base = (row?.shown.name || 'notebook').replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '').toLowerCase() || 'notebook';
  const file = new File([text], `${base}${ENDING}`, { type: TYPE });
  const can = navigator.canShare?.({ files: [file] });
  const acts = make('p', { className: 'buttons' }, button('Save the file', () => save(file.name, text, TYPE), 'nb-do'), ' ');
  const send = () => navigator.share({ files: [file], title: file.name }).catch(() => desk.say('Not sent.'));
  if (can) acts.append(button('Send it', send), ' ');
  if (!row) {
    acts.append(button('For a spreadsheet', () => desk.attempt(async () => {
      const { files } = await book.ask('csv', { records: book.records(), name: `notebook-${today()}` });
      for (const [name, table] of Object.entries(files)) save(name, /** @type {string} */ (table), 'text/csv');
    })));
  }
  return [make('p', {}, holds), acts, ...(people.length ? [await names(desk)] : [])];
}

/** Everybody who is named, with their initials instead, or nobody. @param {Desk} desk */
async function names(desk) {
  const { book } = desk;
  const { people } = await book.ask('people', { records: book.records() });
  const forget = (/** @type {string} */ name, /** @type {string} */ instead) => desk.attempt(async () => {
    await book.change([...book.rows.keys()], async (rows) => {
      const { changed } = await book.ask('forget', { records: book.records(rows), name, instead, ...book.stamp() });
      return changed;
    });
    desk.say(instead ? `${name} stands as ${instead} now.` : `${name} is forgotten here. Files you gave away still have the name.`);
    desk.redraw();
  });
  const lines = people.map((/** @type {{name: string, initials: string}} */ { name, initials }) => make('li', {}, `${name} `,
    ...(initials && initials !== name ? [button(`Use ${initials}`, () => forget(name, initials)), ' '] : []),
    button('Forget this person', () => forget(name, ''))));
  return make('section', {}, make('h3', {}, 'Names in it'),
    make('p', { className: 'hint' }, 'Initials do as well, above all for children. A bow can go by its own name.'),
    make('ul', { className: 'nb-people' }, ...lines));
}
