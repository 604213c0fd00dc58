/** One record: what is kept of it, a field at a time, and what belongs to it. Each change is kept as it is made. @module */
import { button, link, make } from './elements.js';
import { item } from './list-view.js';
import { choose } from './chosen.js';
import { chosen } from './shared.js';
import { TypedError } from './book.js';
import { freshId } from './store.js';

/** @typedef {import('./notebook.js').Desk} Desk */
/** @typedef {import('./store.js').Row} Row */
/** @typedef {{key: string, label: string, hint: string, group: string, shape: string, unit: string,
 *   options: {value: string, label: string}[], kinds: string[], person: boolean}} Field */

const TITLES = { bow: 'bow', cord: 'cord', hand: 'maker', string: 'string', entry: 'dated line' };
/** Fields that are asked first; the others stand behind a line to open. */
const FIRST = {
  bow: ['name', 'owner', 'nock_to_nock', 'draw_weight', 'draw_length', 'brace_height'],
  cord: ['name', 'colour', 'fibre', 'yarn', 'left'],
  hand: ['name', 'hand', 'wax', 'tail_length'],
  string: ['name', 'bow', 'cord', 'made_on', 'body_raw', 'turns', 'braced_height', 'braced_length'],
  entry: ['about', 'on', 'shots', 'brace_height', 'turns_added', 'looked', 'found'],
};
/** What is asked of a new one before it is there. */
const PREFILLED = { string: 'bow', entry: 'about' };
/** Forms by the units they speak in. @type {Map<string, Promise<{kinds: Record<string, Field[]>}>>} */
const forms = new Map();

/** @param {Desk} desk @param {string} kind @param {Row} [row] nothing for a new one @param {string} [from] the record it is begun from */
export function recordView(desk, kind, row, from = '') {
  if (!(kind in TITLES)) return undefined;
  const { book } = desk;
  const title = TITLES[/** @type {keyof typeof TITLES} */ (kind)];
  const onsubmit = (/** @type {Event} */ event) => event.preventDefault();
  const form = make('form', { className: 'asked nb-form', autocomplete: 'off', onsubmit });
  const above = make('div');
  const below = make('div');
  const held = { id: row?.id ?? '' };
  const refresh = () => {
    const now = book.rows.get(held.id);
    if (now?.shown.deleted) return desk.go('');
    above.replaceChildren(make('h2', {}, now ? now.shown.name || `A ${title} without a name` : `A new ${title}`));
    below.replaceChildren();
    if (!now) return undefined;
    above.append(make('p', { className: 'nb-words' }, now.shown.words), ...settle(desk, now), acts(desk, now));
    below.append(...belongings(desk, now));
    if (book.store.trouble !== 'newer') {
      below.append(make('p', { className: 'buttons' }, button(`Delete this ${title}`, () => remove(desk, now))));
    }
    for (const input of /** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll('[data-kept]'))) {
      const text = now.data.values[input.name] ?? '';
      if (input !== document.activeElement && input.value === input.dataset.kept) input.value = text;
      input.dataset.kept = text;
      input.disabled = book.store.trouble === 'newer';
    }
    return undefined;
  };
  form.append(make('p', { className: 'hint' }, 'Starting …'));
  formFor(desk, kind).then(
    (fields) => form.replaceChildren(...fieldsets(desk, kind, fields, held, from)), (error) => desk.say(error.message));
  refresh();
  return make('div', { className: 'nb-record', refresh }, make('p', {}, link('Back to all', '#')), above, form, below);
}

/** @param {Desk} desk @param {string} kind @returns {Promise<Field[]>} */
async function formFor({ book }, kind) {
  const { system } = book;
  if (!forms.has(system)) forms.set(system, book.ask('fields', { system }));
  try {
    return (await /** @type {NonNullable<ReturnType<typeof forms.get>>} */ (forms.get(system))).kinds[kind] ?? [];
  } catch (error) {
    forms.delete(system);
    throw error;
  }
}

/** @param {Desk} desk @param {string} kind @param {Field[]} fields @param {{id: string}} held @param {string} from */
function fieldsets(desk, kind, fields, held, from) {
  const keep = keeper(desk, kind, held, from);
  const row = desk.book.rows.get(held.id);
  const first = FIRST[/** @type {keyof typeof FIRST} */ (kind)];
  const early = first.flatMap((key) => fields.find((field) => field.key === key) ?? []);
  const late = fields.filter(({ key }) => !first.includes(key));
  const given = (/** @type {Field} */ { key }) => (from && key === PREFILLED[/** @type {'entry'} */ (kind)] ? from : '');
  const made = (/** @type {Field} */ field) => control(desk, field, row?.data.values[field.key] ?? given(field), keep);
  return [
    ...early.map(made),
    make('details', {}, make('summary', {}, 'More of it'), ...late.map(made)),
  ];
}

/**
 * Keeps one field at a time; the first one kept begins a new record.
 * @param {Desk} desk @param {string} kind @param {{id: string}} held @param {string} from
 */
function keeper(desk, kind, held, from) {
  const begun = PREFILLED[/** @type {'entry'} */ (kind)];
  let queue = Promise.resolve();
  return (/** @type {Field} */ field, /** @type {string} */ text, /** @type {HTMLElement} */ place) => {
    const work = async () => {
      const fresh = !held.id;
      const id = held.id || freshId(kind);
      const texts = { ...(fresh && from && begun ? { [begun]: from } : {}), [field.key]: text };
      const kept = () => {
        held.id = id;
        if (fresh) history.replaceState(null, '', `#record=${id}`);
      };
      mark(place, '');
      const good = await desk.attempt(() => desk.book.edit(kind, id, texts, kept).catch((error) => {
        if (error instanceof TypedError) mark(place, error.message);
        throw error;
      }));
      if (good) desk.say(`Kept: ${field.label}.`);
    };
    queue = queue.then(work);
    return queue;
  };
}

/** @param {HTMLElement} place @param {string} words */
function mark(place, words) {
  const error = /** @type {HTMLElement} */ (place.querySelector('.error'));
  error.hidden = !words;
  error.textContent = words ? `Error: ${words}` : '';
  place.classList.toggle('wrong', Boolean(words));
  place.querySelector('input, select, textarea')?.setAttribute('aria-invalid', String(Boolean(words)));
}

/** @param {Desk} desk @param {Field} field @param {string} text @param {ReturnType<typeof keeper>} keep */
function control({ book }, field, text, keep) {
  const id = `nb-${field.key}`;
  const disabled = book.store.trouble === 'newer';
  const told = { id, name: field.key, 'data-kept': text, 'aria-describedby': `${id}-hint ${id}-error`, disabled };
  const place = make('div', { className: 'field', 'data-field': field.key });
  const input = inputFor(book, field, text, told);
  input.addEventListener('change', () => keep(field, input.value, place));
  const unit = field.unit ? ` (${field.unit})` : '';
  place.append(
    make('label', { htmlFor: id }, `${field.label}${unit}`),
    make('p', { className: 'hint', id: `${id}-hint` }, field.hint),
    make('p', { className: 'error', id: `${id}-error`, hidden: true }),
    input,
  );
  return place;
}

/** @param {import('./book.js').Book} book @param {Field} field @param {string} text @param {Record<string, any>} told */
function inputFor(book, field, text, told) {
  const options = field.shape === 'record'
    ? field.kinds.flatMap((kind) => book.of(kind).map(({ id, shown }) => ({ value: id, label: shown.name || `${kind} without a name` })))
    : field.options;
  if (field.shape === 'choice' || field.shape === 'record') {
    const strange = text && !options.some(({ value }) => value === text) ? [{ value: text, label: 'one that is not here' }] : [];
    const all = [{ value: '', label: 'not told' }, ...options, ...strange];
    const select = make('select', { className: 'picked', ...told }, ...all.map(({ value, label }) => make('option', { value }, label)));
    select.value = text;
    return select;
  }
  if (field.shape === 'lines') return make('textarea', { className: 'typed', rows: 3, value: text, ...told });
  const type = field.shape === 'day' ? 'date' : 'text';
  return make('input', { type, className: 'typed', value: text, autocomplete: 'off', ...told });
}

/** What was changed on two devices, each with a way to settle it. @param {Desk} desk @param {Row} row */
function settle(desk, row) {
  return row.shown.conflicts.map(({ field, text }) => make(
    'p',
    { className: 'nb-mark' },
    `${text} `,
    button('Leave it so', () => desk.attempt(() => field === 'deleted'
      ? desk.book.change([row.id], async (rows) => {
        const { changed } = await desk.book.ask('restore', { records: desk.book.records(rows), ...desk.book.stamp() });
        return changed;
      })
      : desk.book.edit(row.kind, row.id, { [field]: row.data.values[field] ?? '' }))),
  ));
}

/** @param {Desk} desk @param {Row} row */
function acts(desk, row) {
  const line = make('p', { className: 'buttons nb-ways' });
  if (row.kind === 'bow' || row.kind === 'cord' || row.kind === 'hand') {
    const { kind } = row;
    const now = chosen()[kind]?.id === row.id;
    line.append(button(now ? 'The sheets use it' : 'Use it on the sheets', () => desk.attempt(async () => {
      await choose(desk.book, kind, now ? '' : row.id);
      desk.say(now ? 'The sheets do not use it any more.' : `Every sheet now opens for ${row.shown.name || 'it'}.`);
      desk.redraw();
    })));
  }
  if (row.kind === 'string') line.append(link('At the range', `#range=${row.id}`));
  if (row.kind === 'bow') {
    if (desk.book.where('string', 'bow', row.id).length > 1) line.append(link('Compare its strings', `#compare=${row.id}`));
    line.append(link('Save or send this bow', `#export=${row.id}`));
  }
  const plan = row.kind === 'string' ? row.data.values.plan ?? '' : '';
  const sheet = /^v\d+\/([a-z-]+)/.exec(plan)?.[1];
  if (sheet) line.append(link('Its plan', `../worksheets/${sheet}/${location.protocol === 'file:' ? 'index.html' : ''}#${plan}`));
  return line;
}

/** @param {Desk} desk @param {Row} row */
function belongings({ book, go }, row) {
  const parts = [];
  if (row.kind === 'bow') parts.push(['Its strings', book.where('string', 'bow', row.id), 'Add a string of it', `new=string+${row.id}`]);
  if (row.kind === 'bow' || row.kind === 'string') {
    const day = (/** @type {any} */ line) => line.data.values.on ?? '';
    const lines = book.where('entry', 'about', row.id).sort((one, two) => day(two).localeCompare(day(one)));
    parts.push(['Day by day', lines, 'Add a dated line', `new=entry+${row.id}`]);
  }
  return parts.map(([title, rows, add, hash]) => make(
    'section',
    {},
    make('h3', {}, /** @type {string} */ (title)),
    make('ul', { className: 'nb-list' }, .../** @type {Row[]} */ (rows).map((each) => item(book, each))),
    make('p', { className: 'buttons' }, button(/** @type {string} */ (add), () => go(/** @type {string} */ (hash)))),
  ));
}

/** @param {Desk} desk @param {Row} row */
async function remove(desk, row) {
  if (await desk.attempt(() => desk.book.remove(row))) {
    if (chosen()[/** @type {'bow'} */ (row.kind)]?.id === row.id) await choose(desk.book, /** @type {'bow'} */ (row.kind), '');
    desk.go('');
  }
}
