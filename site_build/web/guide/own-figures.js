/**
 * Draws the figures of a guide again with the reader's own numbers, once Python is up: where a step tells a number that
 * its figure shows. The figure of the build stays until then, and comes back when the reader wants it.
 * @module
 */
import { client } from '../worker/client.js';
import { keep as keepPlain, kept as keptPlain } from '../storage.js';
import { kept, opened, who } from '../active-string.js';

/** @typedef {{text: string, from: string}} Told a number as printed or typed, and the worksheet it is from */
/** @typedef {{figure: string, hand: string, system: string, numbers: Record<string, string>, ident: string}} Ask */
/** @typedef {{element: HTMLElement, ident: string, built: Node[], shown: string}} Figure with what the build drew, and the
 *   ask whose drawing it shows now */

/** Figures found so far, kept in mind because making along takes them out of their step. @type {Map<HTMLElement, Figure>} */
const figures = new Map();
/** Drawings by the ask that they answer. @type {Map<string, string>} */
const drawings = new Map();
let count = 0;
/** How often drawing was begun: only the newest goes on. */
let turn = 0;

/** @param {string} key @param {boolean} metric @returns {Told | undefined} a result of a worksheet, else what was typed */
function told(key, metric) {
  const found = kept('own')?.values?.[key];
  const result = typeof found === 'string' ? found : found?.[metric ? 'mm' : 'in'];
  const typed = kept('typed')?.[key];
  const text = typeof result === 'string' ? result : typed?.text;
  const from = (typeof result === 'string' ? kept('worked')?.[key] : typed)?.from;
  return typeof text === 'string' && text ? { text, from: typeof from === 'string' ? from : '' } : undefined;
}

/** Those of this page whose step tells a number that they show. */
function find() {
  for (const element of figures.keys()) if (!element.isConnected) figures.delete(element);
  for (const step of document.querySelectorAll('.pt-step')) {
    const element = /** @type {HTMLElement | null} */ (step.querySelector('.pt-figure[data-shows]'));
    if (!element || figures.has(element)) continue;
    const shows = (element.dataset.shows ?? '').split(' ');
    if (!shows.some((key) => step.querySelector(`[data-own="${key}"]`))) continue;
    figures.set(element, { element, ident: `own-${++count}`, built: [...element.childNodes], shown: '' });
  }
  return [...figures.values()];
}

/** What to ask for a figure, and from which worksheets its numbers are. @param {Figure} figure */
function asked({ element: { dataset }, ident }) {
  const { hand = 'Z', units } = document.documentElement.dataset;
  const metric = units === 'metric';
  /** @type {Record<string, string>} */
  const numbers = {};
  const from = [];
  for (const key of (dataset.shows ?? '').split(' ')) {
    const number = told(key, metric);
    if (!number) continue;
    numbers[key] = number.text;
    from.push(number.from);
  }
  const any = Object.keys(numbers).some((key) => key !== 'lay_angle');
  /** @type {Ask} */
  const ask = { figure: dataset.figure ?? '', hand, system: metric ? 'metric' : 'inch', numbers, ident };
  return any ? { ask, from } : undefined;
}

/** Ask; a number that cannot be drawn is left out. @param {Ask} ask @returns {Promise<string>} nothing when nothing can be drawn */
async function drawn(ask) {
  const { svg = '', errors = [] } = (await client.ask(`figure ${ask.ident}`, ask)) ?? {};
  const wrong = errors.map(({ field }) => field).filter((field) => field in ask.numbers);
  const rest = Object.entries(ask.numbers).filter(([key]) => !wrong.includes(key));
  return wrong.length && rest.length ? drawn({ ...ask, numbers: Object.fromEntries(rest) }) : svg;
}

/**
 * Words with a button that chooses between the usual figures and the reader's own.
 * @param {string} className @param {string} words @param {boolean} usual whether the usual ones stand there now
 */
function line(className, words, usual) {
  const made = Object.assign(document.createElement('p'), { className, textContent: `${words} ` });
  const press = usual ? `Draw them with ${opened() ? 'its numbers' : 'my own numbers'}` : 'Show the usual figures';
  const button = Object.assign(document.createElement('button'), { type: 'button', textContent: press });
  button.addEventListener('click', () => {
    const along = /** @type {HTMLElement | null | undefined} */ (button.closest('dialog')?.querySelector('.along-next'));
    keepPlain('figures', usual ? null : 'usual');
    drawOwn();
    along?.focus();
  });
  made.append(button);
  return made;
}

/** Say at the top of the guide what is drawn. @param {string} words nothing takes the line away @param {boolean} usual */
function say(words, usual) {
  const old = document.querySelector('.pt-drawn');
  const focused = old?.contains(document.activeElement);
  const made = line('pt-drawn', words, usual);
  if (!words) old?.remove();
  else if (old) old.replaceWith(made);
  else document.querySelector('.pt-reader')?.after(made);
  if (focused) made.querySelector('button')?.focus();
}

/** Whose numbers are drawn. @param {string[]} titles of worksheets */
function source(titles) {
  if (opened()) return `the numbers of ${who(document.documentElement.dataset.units ?? '')}`;
  return `your own numbers from ${[...new Set(titles)].filter(Boolean).join(', ') || 'your worksheets'}`;
}

/** @param {string} words */
const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

/** Show what the build drew. @param {Figure} figure @param {string} [words] about it */
function putBack(figure, words) {
  figure.element.replaceChildren(...figure.built, ...(words ? [line('pt-drawn-here', words, true)] : []));
  figure.shown = '';
}

/** Draw what there is to draw, when the page has nothing else to do; to be called whenever something may have changed. */
export function drawOwn() {
  const mine = ++turn;
  const all = find();
  const wanted = all.flatMap((figure) => {
    const found = asked(figure);
    return found ? [{ figure, key: JSON.stringify(found.ask), ...found }] : [];
  });
  const usual = keptPlain('figures') === 'usual' && wanted.length > 0;
  const still = new Set(usual ? [] : wanted.map(({ key }) => key));
  for (const figure of all) if (!still.has(figure.shown)) putBack(figure, usual ? 'The usual figure.' : '');
  const from = source(wanted.flatMap((each) => each.from));
  if (usual) say('These are the usual figures.', true);
  if (usual || !wanted.length) return;
  if (!wanted.some(({ figure }) => figure.shown)) say('', false);
  (window.requestIdleCallback ?? setTimeout)(async () => {
    for (const { figure, key, ask, from: its } of wanted) {
      if (mine !== turn || figure.shown === key) continue;
      const svg = drawings.get(key) ?? (await drawn(ask));
      if (mine !== turn || !svg || !figure.element.isConnected) continue;
      drawings.set(key, svg);
      figure.element.innerHTML = svg;
      figure.element.append(line('pt-drawn-here', capital(`${source(its)}.`), false));
      figure.shown = key;
      say(`Drawn with ${from}.`, false);
    }
  });
}
