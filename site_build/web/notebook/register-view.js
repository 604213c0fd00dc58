/** The register of a club's equipment: what is to be looked at, first what is overdue; a look is one press, or a list to tick. @module */
import { button, link, make, today } from './elements.js';
import { keep, kept } from './shared.js';
import { freshId } from './store.js';

/** @typedef {import('./notebook.js').Desk} Desk */
/** @typedef {{bow: string, name: string, string: string, string_name: string, wanted: string, read: string, read_on: string,
 *   shots: string, looked_on: string, due: string, overdue: boolean, past: boolean}} Line */

const HEADS = ['Bow', 'Look at it by', 'String', 'Brace height wanted', 'Read', 'Shots since', 'Looked over'];
/** What is looked at, as the guide to care has it. */
const PARTS = ['strands', 'loops', 'serving', 'brace height', 'nocks'];

/** @param {Desk} desk */
export function registerView(desk) {
  const { book } = desk;
  const every = make('input', { id: 'nb-every', className: 'typed', value: kept('look-every') ?? '30 d', autocomplete: 'off' });
  const place = make('div', { className: 'wide', tabIndex: 0, role: 'region', 'aria-label': 'Register' });
  const tick = make('div', { className: 'nb-tick' });
  const fill = () => desk.attempt(async () => {
    const wanted = [...book.rows.values()].filter(({ kind }) => ['bow', 'string', 'entry'].includes(kind));
    const { lines } = await book.ask('register', { records: book.records(wanted), today: today(), every: every.value });
    keep('look-every', every.value);
    place.replaceChildren(table(desk, lines, tick));
  });
  every.addEventListener('change', fill);
  fill();
  return make(
    'div',
    { className: 'nb-register', refresh: fill },
    make('p', { className: 'nb-back' }, link('Back to all', '#')),
    make('h2', {}, 'Register'),
    make('div', { className: 'field nb-every' }, make('label', { htmlFor: 'nb-every' }, 'Look at each string every'),
      make('p', { className: 'hint' }, 'As your club has chosen. A bow or string with a time of its own keeps it.'), every),
    tick,
    place,
    make('p', {}, `As of ${today()}. A string in doubt is not shot: ask a qualified bowyer. The rules of your club come first.`),
    make('p', { className: 'buttons' }, button('Print', () => print())),
  );
}

/** @param {Desk} desk @param {Line[]} lines @param {HTMLElement} tick */
function table(desk, lines, tick) {
  if (!lines.length) return make('p', { className: 'hint' }, 'No bow yet.');
  const rows = lines.map((line) => make('tr', { className: line.past || line.overdue ? 'nb-late' : '' },
    make('th', { scope: 'row' }, link(line.name, `#record=${line.bow}`)),
    make('td', {}, line.due, ...(line.past ? [make('strong', {}, ' Retire it')] : line.overdue ? [make('strong', {}, ' Overdue')] : [])),
    make('td', {}, line.string ? link(line.string_name, `#record=${line.string}`) : 'none'),
    make('td', {}, line.wanted),
    make('td', {}, line.read ? `${line.read} on ${line.read_on}` : ''),
    make('td', {}, line.shots),
    make('td', {}, line.looked_on),
    make('td', { className: 'nb-acts' }, ...(line.string ? [button('Look it over', () => look(desk, line, tick))] : []))));
  return make('table', { className: 'list' },
    make('thead', {}, make('tr', {}, ...HEADS.map((head) => make('th', { scope: 'col' }, head)), make('td', { className: 'nb-acts' }))),
    make('tbody', {}, ...rows));
}

/** A list to tick, which writes a dated line. @param {Desk} desk @param {Line} line @param {HTMLElement} place */
function look(desk, line, place) {
  const ticks = PARTS.map((part) => make('input', { type: 'checkbox', value: part }));
  const found = make('input', { id: 'nb-found', className: 'typed', autocomplete: 'off' });
  const write = () => desk.attempt(async () => {
    const looked = ticks.filter(({ checked }) => checked).map(({ value }) => value);
    if (!looked.length) return desk.say('Tick what you looked at.');
    const written = { about: line.string, on: today(), looked: looked.join(', '), found: found.value || 'nothing' };
    await desk.book.edit('entry', freshId('entry'), written);
    desk.say(`Written down for ${line.name}.`);
    place.replaceChildren();
    return undefined;
  });
  place.replaceChildren(make('fieldset', {},
    make('legend', {}, `${line.name}: what did you look at?`),
    make('p', { className: 'hint' }, link('How to look at a string', '../guides/care/')),
    ...ticks.map((input) => make('label', { className: 'radio' }, input, ` ${input.value}`)),
    make('label', { htmlFor: 'nb-found' }, 'Found'), found,
    make('p', { className: 'buttons' }, button('Write it down', write, 'nb-do'))));
  ticks[0]?.focus();
}
