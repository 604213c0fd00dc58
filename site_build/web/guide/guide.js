/** Brings a guide to life: the reader's hand, units and own numbers, timers, the kit list, making along. @module */
import { Along } from './make-along.js';
import { bindMotion, goOnMoving } from './figure-motion.js';
import { keep, kept } from './progress.js';
import { makersIn, needed, ownText } from './counts.js';
import { bindTimer } from './timer.js';
import { carryTyped } from '../carried-values.js';
import { bindDrawings, bringOtherHand } from './drawings.js';
import { drawOwn } from './own-figures.js';
import { allOpened, howItCame, kept as keptOfString, opened, showKept, who } from '../active-string.js';

const HANDS = ['Z', 'S'];
const UNITS = ['inch', 'metric'];

/** @param {ParentNode} root @param {string} selector @returns {HTMLElement[]} */
const all = (root, selector) => [...root.querySelectorAll(selector)].map((each) => /** @type {HTMLElement} */ (each));

/** Let the whole page follow the reader's hand and units. */
function follow() {
  const { dataset } = document.documentElement;
  const hand = (opened() && keptOfString('typed')?.hand?.text) || kept('hand');
  const units = kept('units') ?? dataset.speaks;
  dataset.hand = HANDS.includes(hand) ? hand : 'Z';
  if (UNITS.includes(units)) dataset.units = units;
  else delete dataset.units;
  for (const input of /** @type {NodeListOf<HTMLInputElement>} */ (document.querySelectorAll('.pt-reader input'))) {
    const set = input.name === 'pt-hand' ? dataset.hand : dataset.units ?? '';
    input.checked = input.value === set;
  }
  fillOwn(dataset.units ?? '');
  if (dataset.hand === 'S') bringOtherHand(goOnMoving);
  for (const figure of all(document, '.pt-figure')) goOnMoving(figure);
}

/** Put the reader's own numbers where a guide has a place for them. @param {string} units */
function fillOwn(units) {
  const found = keptOfString('own');
  const own = typeof found === 'object' && !Array.isArray(found) ? found : null;
  let any = false;
  resetOwn();
  for (const place of all(document, '.pt-own')) {
    const text = ownText(own, place.dataset.own ?? '', units);
    if (!text) continue;
    place.textContent = text;
    place.classList.add('is-own');
    any = true;
  }
  for (const row of all(document, '.pt-numbers > div')) {
    const text = ownText(own, row.dataset.own ?? '', units);
    const number = /** @type {HTMLElement} */ (row.querySelector('dd'));
    number.textContent = text;
    row.hidden = !text;
    if (text && row.parentElement) row.parentElement.hidden = false;
  }
  for (const step of all(document, '.pt-step[data-count]')) {
    step.dataset.wanted = ownText(own, step.dataset.count ?? '', 'inch');
  }
  const strands = Number(own?.values?.strands?.in);
  const bundles = Number(own?.values?.bundles?.in ?? document.querySelector('.pt-along-start')?.getAttribute('data-bundles'));
  document.documentElement.toggleAttribute('data-single', strands > 0 && strands === bundles);
  for (const note of all(document, '.pt-has-own')) tellWhose(note, units, any, own);
  drawOwn();
}

/** What the build wrote in the place of an own number. @type {WeakMap<HTMLElement, Node[]>} */
const usual = new WeakMap();

/** Put back what stood there without own numbers: another string may have fewer. */
function resetOwn() {
  for (const place of all(document, '.pt-own')) {
    const before = usual.get(place);
    if (!before) usual.set(place, [...place.childNodes]);
    else place.replaceChildren(...before);
    place.classList.remove('is-own');
  }
  for (const list of all(document, '.pt-numbers')) list.hidden = true;
}

/**
 * Say whose string the steps are about, how much of it is known, and offer the others.
 * @param {HTMLElement} note @param {string} units @param {boolean} any own numbers @param {any} own
 */
function tellWhose(note, units, any, own) {
  const other = opened();
  const others = allOpened().filter(({ id }) => id !== other?.id);
  note.hidden = !any && !other && !others.length;
  const { own: mine = 0, of = 0 } = own?.counted ?? {};
  const few = mine < of ? ` ${mine} of its ${of} values ${other ? 'came with it' : 'are yours'}, the others are the example's.` : '';
  const came = other ? ` It came ${howItCame(other)}; your own plan is kept as it was.` : '';
  note.replaceChildren(any || other ? `For: ${who(units)}.${came}${few} ` : 'No numbers of your own stand here yet. ');
  if (other) note.append(showing('Show my own'));
  for (const each of others) note.append(showing(`Show ${who(units, each)}`, each.id));
}

/** @param {string} words @param {string} [id] of the string that a press shows; nothing for the reader's own */
function showing(words, id) {
  const button = Object.assign(document.createElement('button'), { type: 'button', textContent: words });
  button.addEventListener('click', () => {
    showKept(id);
    follow();
    for (const start of all(document, '.pt-along-start')) tellStart(start);
  });
  return button;
}

/** @param {HTMLElement} form */
function bindReader(form) {
  form.hidden = false;
  form.addEventListener('change', ({ target }) => {
    const { name, value } = /** @type {HTMLInputElement} */ (target);
    const ofString = name === 'pt-hand' && (opened() || keptOfString('typed')?.hand);
    if (ofString) carryTyped('hand', value, document.title, '');
    if (!ofString || !opened()) keep(name.replace('pt-', ''), value);
    follow();
  });
}

/** @param {HTMLElement} kit */
function bindKit(kit) {
  const heads = /** @type {HTMLElement} */ (kit.querySelector('.pt-heads'));
  const input = /** @type {HTMLInputElement} */ (kit.querySelector('input'));
  heads.hidden = false;
  input.addEventListener('input', () => {
    const makers = makersIn(input.value);
    input.setAttribute('aria-invalid', String(!makers));
    if (!makers) return;
    for (const count of all(kit, '.pt-count')) count.textContent = String(needed(makers, count.dataset));
    for (const said of all(kit, '.pt-for')) said.textContent = String(makers);
  });
}

/** @param {HTMLElement} start */
function bindAlong(start) {
  const guide = start.dataset.guide ?? '';
  const along = new Along(all(document, '.pt-step'), guide, Number(start.dataset.bundles));
  makings.set(start, along);
  start.querySelector('button')?.addEventListener('click', () => along.open());
  tellStart(start);
  start.hidden = false;
}

/** @type {WeakMap<HTMLElement, Along>} */
const makings = new WeakMap();

/** Say where making along begins or goes on, for the string that is shown. @param {HTMLElement} start */
function tellStart(start) {
  const along = makings.get(start);
  const press = start.querySelector('button');
  if (!along || !press) return;
  along.take();
  press.textContent = along.begun ? `Make along: go on at step ${along.at + 1}` : 'Make along';
}

const bound = new WeakSet();

/** @param {string} selector @param {(element: HTMLElement) => void} bindOne */
function once(selector, bindOne) {
  for (const element of all(document, selector)) {
    if (bound.has(element)) continue;
    bound.add(element);
    bindOne(element);
  }
}

function bind() {
  once('.pt-reader', bindReader);
  once('.pt-kit', bindKit);
  once('.pt-figure', (figure) => {
    bindDrawings(figure);
    bindMotion(figure);
  });
  once('.pt-timer', (place) => bindTimer(place, `timer:${place.dataset.key}`));
  follow();
  once('.pt-along-start', bindAlong);
}

addEventListener('beforeprint', () => {
  for (const each of /** @type {NodeListOf<HTMLDetailsElement>} */ (document.querySelectorAll('.pt-case'))) each.open = true;
});
addEventListener('storage', follow);
addEventListener('online', follow);
const pages = /** @type {any} */ (window).document$;
if (pages) pages.subscribe(bind);
else bind();
