/** The strings of one bow side by side: what differed, what it did. @module */
import { link, make } from './elements.js';

/** @typedef {import('./notebook.js').Desk} Desk */
/** @typedef {{strings: string[], parts: {title: string, lines: string[][]}[]}} Compared */

/** @param {Desk} desk @param {import('./store.js').Row} bow */
export function compareView(desk, bow) {
  const { book } = desk;
  const place = make('div', { className: 'wide', tabIndex: 0, role: 'region', 'aria-label': 'Strings side by side' });
  const fill = () => desk.attempt(async () => {
    const records = [...book.belonging(bow), ...book.of('cord'), ...book.of('hand')];
    place.replaceChildren(table(await book.ask('compare', { records: book.records(records), bow: bow.id })));
  });
  fill();
  return make('div', { refresh: fill }, make('p', { className: 'nb-back' }, link('Back to the bow', `#record=${bow.id}`)),
    make('h2', {}, `Strings of ${bow.shown.name || 'this bow'}`), place);
}

/** @param {Compared} compared */
function table({ strings, parts }) {
  if (!parts.length) return make('p', { className: 'hint' }, 'Nothing is written down of its strings yet.');
  const bodies = parts.map(({ title, lines }) => make('tbody', {},
    make('tr', {}, make('th', { scope: 'rowgroup', colSpan: strings.length + 1 }, make('strong', {}, title))),
    ...lines.map(([label = '', ...texts]) => make('tr', {},
      make('th', { scope: 'row' }, label), ...texts.map((text) => make('td', {}, text))))));
  const heads = ['What', ...strings].map((each) => make('th', { scope: 'col' }, each));
  return make('table', { className: 'list' }, make('thead', {}, make('tr', {}, ...heads)), ...bodies);
}
