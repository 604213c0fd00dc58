/** Make along: a guide one step a screen, for a phone propped on the bench and hands full of wax. @module */
import { letSleep, stayAwake } from './along-awake.js';
import { setMoving } from './along-motion.js';
import { keep, keptObject } from './along-store.js';
import { NAMES, standing, wholeTurns } from './along-sums.js';

const BUZZ = { reached: [120, 80, 120], apart: [40] };

/** @param {string} tag @param {string} name of its class @param {string} [text] */
function made(tag, name, text = '') {
  return Object.assign(document.createElement(tag), { className: name, textContent: text });
}

/** @param {string} name @param {string} text @param {() => void} press */
function button(name, text, press) {
  const element = /** @type {HTMLButtonElement} */ (made('button', name, text));
  element.type = 'button';
  element.addEventListener('click', press);
  return element;
}

export class Along {
  /**
   * @param {HTMLElement[]} steps the guide's own
   * @param {string} guide its name @param {number} bundles
   */
  constructor(steps, guide, bundles) {
    this.steps = steps;
    this.key = `along:${guide}`;
    this.bundles = bundles;
    const found = keptObject(this.key) ?? {};
    this.at = Math.max(0, steps.findIndex((step) => step.dataset.step === found.step));
    /** @type {Record<string, number[]>} */
    this.counts = typeof found.counts === 'object' && found.counts ? found.counts : {};
    /** @type {[HTMLElement, Comment][]} what was borrowed from the page, and where it goes back to */
    this.borrowed = [];
    this.dialog = /** @type {HTMLDialogElement} */ (made('dialog', 'along'));
    this.dialog.setAttribute('aria-label', 'Make along');
    this.where = made('p', 'along-where');
    this.awake = made('p', 'along-awake');
    this.picture = made('div', 'along-picture');
    this.say = made('p', 'along-say');
    this.more = made('div', 'along-more');
    this.next = button('along-next', '', () => this.go(1));
    this.back = button('along-back', 'Back', () => this.go(-1));
    const bar = made('header', 'along-bar');
    bar.append(this.back, this.where, button('along-close', 'Close', () => this.dialog.close()));
    const upper = made('div', 'along-upper');
    upper.append(bar, this.picture, this.say, this.more, this.awake);
    this.dialog.append(upper, this.next);
    this.dialog.addEventListener('close', () => this.left());
    this.dialog.addEventListener('keydown', (event) => this.pressed(event));
  }

  /** Whether somebody has begun. */
  get begun() {
    return this.at > 0 || Object.keys(this.counts).length > 0;
  }

  get step() {
    return /** @type {HTMLElement} */ (this.steps[this.at]);
  }

  async open() {
    (document.querySelector('article') ?? document.body).append(this.dialog);
    this.show();
    this.dialog.showModal();
    this.next.focus();
    const stays = await stayAwake();
    this.awake.textContent = stays ? 'The screen stays on.' : 'Set your device so that the screen stays on.';
  }

  /** @param {KeyboardEvent} event */
  pressed(event) {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const ways = { ArrowRight: 1, PageDown: 1, ArrowLeft: -1, PageUp: -1 };
    const way = /** @type {Record<string, number>} */ (ways)[event.key] ?? 0;
    const bundle = event.key.length === 1 ? NAMES.indexOf(event.key.toUpperCase()) : -1;
    if (!way && (bundle < 0 || bundle >= this.counters())) return;
    event.preventDefault();
    if (way) this.go(way);
    else this.tap(bundle, event.shiftKey ? -1 : 1);
  }

  /** @param {number} way */
  go(way) {
    if (this.at + way >= this.steps.length) {
      this.dialog.close();
      document.querySelector('.pt-check')?.scrollIntoView();
      return;
    }
    this.at = Math.max(0, this.at + way);
    this.remember();
    this.show();
  }

  remember() {
    keep(this.key, JSON.stringify({ step: this.step.dataset.step, counts: this.counts }));
  }

  show() {
    this.giveBack();
    const { step } = this;
    const title = step.querySelector('h3')?.lastChild?.textContent?.trim() ?? '';
    const after = this.steps[this.at + 1]?.querySelector('h3')?.lastChild?.textContent?.trim();
    this.where.textContent = `${this.at + 1} of ${this.steps.length}`;
    this.back.disabled = this.at === 0;
    this.next.replaceChildren(made('span', 'along-word', after ? 'Next' : 'Done'), made('span', 'along-title', after ?? 'To the check'));
    this.say.replaceChildren(...[...(step.querySelector('.pt-say')?.childNodes ?? [])].map((node) => node.cloneNode(true)));
    for (const mark of this.say.querySelectorAll('.pt-from')) mark.remove();
    for (const link of this.say.querySelectorAll('a')) link.replaceWith(...link.childNodes);
    this.dialog.setAttribute('aria-label', `Make along: ${title}`);
    const cautions = [...step.querySelectorAll('.pt-caution')].map((each) => each.cloneNode(true));
    this.picture.replaceChildren();
    this.more.replaceChildren(...cautions);
    const figure = this.borrow('.pt-figure', this.picture);
    if (figure?.querySelector('.pt-motion')) setMoving(figure, true);
    this.borrow('.pt-numbers:not([hidden])', this.more);
    this.borrow('.pt-timer', this.more);
    this.dialog.classList.toggle('bare', !this.picture.hasChildNodes());
    if (this.counters()) this.more.prepend(this.counter());
  }

  /** Move a part of the step over here: a copy would have its ids twice. @param {string} selector @param {HTMLElement} into */
  borrow(selector, into) {
    const part = /** @type {HTMLElement | null} */ (this.step.querySelector(selector));
    if (!part) return null;
    const place = document.createComment('');
    part.replaceWith(place);
    into.append(part);
    this.borrowed.push([part, place]);
    return part;
  }

  giveBack() {
    for (const [part, place] of this.borrowed) {
      if (part.querySelector('.pt-motion')) setMoving(part, false);
      place.replaceWith(part);
    }
    this.borrowed = [];
  }

  left() {
    this.giveBack();
    letSleep();
    this.dialog.remove();
    this.step.scrollIntoView();
    this.step.querySelector('h3')?.setAttribute('tabindex', '-1');
    this.step.querySelector('h3')?.focus({ preventScroll: true });
  }

  /** How many counters this step has. */
  counters() {
    const { count, counters } = this.step.dataset;
    return count ? Number(counters ?? this.bundles) : 0;
  }

  /** The counts of this step. @returns {number[]} */
  counted() {
    const found = this.counts[this.step.dataset.step ?? ''];
    const sound = Array.isArray(found) && found.length === this.counters() && found.every((each) => Number.isInteger(each) && each >= 0);
    return sound ? found : Array(this.counters()).fill(0);
  }

  counter() {
    const row = made('div', 'along-counter');
    this.taps = this.counted().map((_, bundle) => button('along-tap', '', () => this.tap(bundle, 1)));
    const less = this.counted().map((_, bundle) => {
      const name = this.counters() > 1 ? NAMES[bundle] : 'the count';
      const one = button('along-less', '−1', () => this.tap(bundle, -1));
      one.setAttribute('aria-label', `−1 for ${name}`);
      return one;
    });
    this.verdict = made('p', 'along-verdict');
    this.verdict.setAttribute('role', 'status');
    row.append(...this.taps.flatMap((tap, bundle) => [tap, /** @type {HTMLElement} */ (less[bundle])]), this.verdict);
    this.tell();
    return row;
  }

  /** @param {number} bundle @param {number} more */
  tap(bundle, more) {
    const counts = [...this.counted()];
    counts[bundle] = Math.max(0, (counts[bundle] ?? 0) + more);
    this.counts[this.step.dataset.step ?? ''] = counts;
    this.remember();
    const state = this.tell();
    if (state === 'reached' || state === 'apart') navigator.vibrate?.(BUZZ[state]);
  }

  /** Say how the count stands. */
  tell() {
    const counts = this.counted();
    const wanted = wholeTurns(this.step.dataset.wanted ?? '');
    const { state, words } = standing(counts, wanted);
    const row = /** @type {HTMLElement} */ (this.verdict);
    row.textContent = words;
    row.dataset.state = state;
    for (const [bundle, tap] of (this.taps ?? []).entries()) {
      const name = counts.length > 1 ? NAMES[bundle] ?? '' : 'Turn';
      tap.replaceChildren(made('span', 'along-name', name), made('span', 'along-number', String(counts[bundle])));
    }
    return state;
  }
}
