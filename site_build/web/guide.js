/** Brings a guide to life: the reader's hand, units and own numbers, timers, the kit list, making along. @module */
import { Along } from './along.js';
import { bindMotion, goOnMoving } from './along-motion.js';
import { keep, kept, keptObject } from './along-store.js';
import { makersIn, needed, ownText } from './along-sums.js';
import { bindTimer } from './along-timer.js';
import { bindDrawings, bringOtherHand } from './drawings.js';
import { drawOwn } from './own.js';

const HANDS = ['Z', 'S'];
const UNITS = ['inch', 'metric'];

/** @param {ParentNode} root @param {string} selector @returns {HTMLElement[]} */
const all = (root, selector) => [...root.querySelectorAll(selector)].map((each) => /** @type {HTMLElement} */ (each));

/** Let the whole page follow the reader's hand and units. */
function follow() {
  const { dataset } = document.documentElement;
  const hand = kept('hand');
  const units = kept('units');
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
  const own = keptObject('own');
  let any = false;
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
  for (const note of all(document, '.pt-has-own')) note.hidden = !any;
  drawOwn();
}

/** @param {HTMLElement} form */
function bindReader(form) {
  form.hidden = false;
  form.addEventListener('change', ({ target }) => {
    const { name, value } = /** @type {HTMLInputElement} */ (target);
    keep(name.replace('pt-', ''), value);
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
  const press = /** @type {HTMLElement} */ (start.querySelector('button'));
  if (along.begun) press.textContent = `Make along: go on at step ${along.at + 1}`;
  press.addEventListener('click', () => along.open());
  start.hidden = false;
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
