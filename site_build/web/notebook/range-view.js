/** A string at the range: what it reads now, the turns to what is wanted, whether it has settled. One hand, bright sun. @module */
import { button, link, make, today } from './elements.js';
import { letSleep, stayAwake } from './shared.js';
import { freshId } from './store.js';

/** @typedef {import('./notebook.js').Desk} Desk */
/** @typedef {import('./store.js').Row} Row */
/** @typedef {{on: string, shots: string, height: string, value: number}} Reading */

const STEPS = { inch: 1 / 16, metric: 1 };
const PAUSE_MS = 350;

/** The only string that is kept, or which of several; none: what to do without. @param {Desk} desk */
export function atTheRange(desk) {
  const strings = desk.book.of('string');
  if (strings.length === 1 && strings[0]) return rangeView(desk, strings[0]);
  const lines = strings.map(({ id, data, shown }) => {
    const bow = desk.book.rows.get(data.values.bow ?? '')?.shown.name;
    return make('li', {}, link([bow, shown.name].filter(Boolean).join(': ') || 'Without a name', `#range=${id}`));
  });
  return make(
    'div',
    {},
    make('h2', {}, 'At the range'),
    lines.length
      ? make('p', {}, 'Which string is it?')
      : make('p', {}, 'No string is kept here yet. ', link('Tune the string in your hand', '../worksheets/tune/'), ', or ',
        link('plan one', '../worksheets/string/'), ' and put it down there.'),
    make('ul', { className: 'nb-list' }, ...lines),
  );
}

/** @param {Desk} desk @param {Row} row */
export function rangeView(desk, row) {
  if (row.kind !== 'string') return undefined;
  const { book } = desk;
  const { system } = book;
  const bow = book.rows.get(row.data.values.bow ?? '');
  const wanted = make('strong', { className: 'nb-large' });
  const read = make('input', { id: 'nb-read', className: 'typed nb-large', inputMode: 'text', autocomplete: 'off' });
  const shots = make('input', { id: 'nb-shots', className: 'typed', inputMode: 'numeric', autocomplete: 'off' });
  const turns = make('p', { className: 'nb-turns', role: 'status' });
  const settling = make('p', { className: 'nb-settling' });
  const chart = make('div', { className: 'nb-chart' });
  let pause = 0;
  let asked = 0;
  const fill = async () => {
    const mine = ++asked;
    const entries = book.where('entry', 'about', row.id);
    const about = [row, ...(bow ? [bow] : []), ...entries];
    const told = await book.ask('range', { records: book.records(about), string: row.id, read: read.value.trim(), system });
    if (mine !== asked) return;
    const { unreadable } = bow?.shown ?? { unreadable: [] };
    wanted.textContent = told.wanted || '?';
    turns.textContent = told.why || [told.turns, told.between && `(${told.between})`].filter(Boolean).join(' ') || unreadable.join(' ');
    settling.textContent = told.settling;
    chart.replaceChildren(...(told.readings.length ? [chartOf(told.readings, system)] : []));
    const nock = told.nock_height && `Nocking point ${told.nock_height}`;
    extras.textContent = [nock, told.served_diameter && `serving ${told.served_diameter}`].filter(Boolean).join(', ');
  };
  const soon = () => {
    clearTimeout(pause);
    pause = window.setTimeout(() => desk.attempt(fill), PAUSE_MS);
  };
  const step = (/** @type {number} */ way) => {
    read.value = stepped(read.value || wanted.textContent || '', way, system);
    soon();
  };
  const write = () => desk.attempt(async () => {
    if (!read.value.trim()) return desk.say('Type what it reads now.');
    await book.edit('entry', freshId('entry'), { about: row.id, on: today(), brace_height: read.value, shots: shots.value });
    desk.say(`Written down: ${read.value}.`);
    return undefined;
  });
  const extras = make('p', { className: 'nb-words' });
  const awake = make('input', { type: 'checkbox', id: 'nb-awake', onchange: async () => {
    if (!awake.checked) return letSleep();
    if (!(await stayAwake())) desk.say('This browser does not keep the screen on.');
    return undefined;
  } });
  addEventListener('hashchange', letSleep, { once: true });
  read.addEventListener('input', soon);
  desk.attempt(fill);
  return make(
    'div',
    { className: 'nb-range', refresh: () => desk.attempt(fill) },
    make('p', {}, link('Back to the string', `#record=${row.id}`)),
    make('h1', {}, bow?.shown.name || row.shown.name || 'String'),
    make('p', { className: 'nb-wanted' }, 'Wanted ', wanted),
    make('label', { htmlFor: 'nb-read' }, 'It reads now'),
    make('div', { className: 'nb-step' }, button('−', () => step(-1), 'nb-big'), read, button('+', () => step(1), 'nb-big')),
    turns,
    make('div', { className: 'nb-write' },
      make('label', { htmlFor: 'nb-shots' }, 'Shots so far'), shots, button('Write it down', write, 'nb-do')),
    settling,
    chart,
    extras,
    make('p', {}, make('label', { className: 'radio', htmlFor: 'nb-awake' }, awake, ' Keep the screen on')),
  );
}

/** A length a step on: sixteenths of an inch, or millimetres. @param {string} text @param {number} way @param {'inch' | 'metric'} system */
export function stepped(text, way, system) {
  const found = /^\s*(\d+(?:[.,]\d+)?)?(?:\s*(\d+)\/(\d+))?\s*([a-z]*)/i.exec(text);
  const unit = found?.[4] || (system === 'metric' ? 'mm' : 'in');
  const metric = unit !== 'in';
  const number = Number((found?.[1] ?? '0').replace(',', '.')) + (found?.[2] ? Number(found[2]) / Number(found[3]) : 0);
  const by = metric ? (unit === 'cm' ? 0.1 : 1) : STEPS.inch;
  const next = Math.max(0, Math.round(number / by) * by + way * by);
  return metric ? `${Number(next.toFixed(1))} ${unit}` : `${sixteenths(next)} in`;
}

/** @param {number} inches */
function sixteenths(inches) {
  const whole = Math.floor(inches);
  let top = Math.round((inches - whole) * 16);
  let bottom = 16;
  while (top && top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  return [whole || !top ? `${whole}` : '', top ? `${top}/${bottom}` : ''].filter(Boolean).join(' ');
}

/** The last readings as points, with their words beneath. @param {Reading[]} readings @param {string} system */
function chartOf(readings, system) {
  const values = readings.map(({ value }) => value);
  const least = system === 'metric' ? 3 : 1 / 8;
  const middle = (Math.min(...values) + Math.max(...values)) / 2;
  const half = Math.max(least, Math.max(...values) - middle);
  const at = (/** @type {number} */ index) => 20 + (index * 260) / Math.max(1, readings.length - 1);
  const up = (/** @type {number} */ value) => 40 - (30 * (value - middle)) / half;
  const points = values.map((value, index) => `${at(index)},${up(value)}`);
  const words = readings.map(({ height, shots, on }) => `${height} ${shots ? `after ${shots} shots` : `on ${on}`}`).join(', ');
  const figure = make('figure', {});
  figure.innerHTML = `<svg viewBox="0 0 300 80" aria-hidden="true"><polyline points="${points.join(' ')}"/>${points.map((point) => {
    const [x, y] = point.split(',');
    return `<circle cx="${x}" cy="${y}" r="5"/>`;
  }).join('')}</svg>`;
  figure.append(make('figcaption', {}, `Last readings: ${words}.`));
  return figure;
}
