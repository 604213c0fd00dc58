/** Make along: a guide one step a screen, for a phone propped on the bench and hands full of wax. @module */
import { letSleep, stayAwake } from './wake-lock.js';
import { Counter } from './turn-counter.js';
import { setMoving } from './figure-motion.js';
import { button, made } from './elements.js';
import { ReadAloud } from './read-aloud.js';
import { keepObject, keptObject } from './progress.js';
import { Borrowed, LIVING, PARTS, fit, plain, titleOf } from './step-view.js';
import { NAMES, turnsIn } from './counts.js';
import { kept, opened, who } from '../active-string.js';

export class Along {
  /**
   * @param {HTMLElement[]} steps the guide's own
   * @param {string} guide its name @param {number} bundles
   */
  constructor(steps, guide, bundles) {
    this.all = steps;
    this.key = '';
    this.at = 0;
    /** @type {Record<string, unknown>} turns by step */
    this.counts = {};
    this.steps = steps;
    this.guide = guide;
    this.bundles = bundles;
    this.borrowed = new Borrowed();
    this.dialog = /** @type {HTMLDialogElement} */ (made('dialog', 'along'));
    this.where = made('p', 'along-where');
    this.whose = made('p', 'along-whose');
    this.awake = made('p', 'along-awake');
    this.picture = made('div', 'along-picture');
    this.title = made('h2', 'along-now');
    this.say = made('div', 'along-say');
    this.next = button('along-next', '', () => this.go(1));
    this.back = button('along-back', 'Back', () => history.back());
    const bar = made('header', 'along-bar');
    const middle = made('div', 'along-middle');
    middle.append(this.where, this.whose);
    bar.append(this.back, middle, button('along-close', 'Close', () => this.dialog.close()));
    this.upper = made('div', 'along-upper');
    this.aloud = new ReadAloud();
    this.upper.append(bar, this.title, this.picture, this.say, this.aloud.button, this.awake);
    this.dialog.append(this.upper, this.next);
    this.dialog.addEventListener('close', () => this.left());
    this.dialog.addEventListener('keydown', (event) => this.pressed(event));
    this.moving = () => this.moved();
    this.fitting = () => fit(this.upper, this.say);
    this.take();
  }

  /** Take up what is kept of the string that is shown, and leave out steps that it does not need. */
  take() {
    const other = opened();
    this.key = `along:${this.guide}${other ? `:${other.id}` : ''}`;
    this.steps = this.all.filter((step) => getComputedStyle(step).display !== 'none');
    const found = keptObject(this.key) ?? {};
    this.at = Math.max(0, this.steps.findIndex((step) => step.dataset.step === found.step));
    this.counts = typeof found.counts === 'object' && found.counts ? found.counts : {};
    const known = other || kept('own');
    this.whose.textContent = known ? `For: ${who(document.documentElement.dataset.units ?? '')}` : 'No plan yet';
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
    this.take();
    if (location.hash) history.replaceState(history.state, '', location.pathname + location.search);
    for (const step of this.steps.slice(0, this.at + 1)) this.note(step); // those before it can be gone back to
    this.dialog.showModal();
    this.aloud.open();
    this.show();
    addEventListener('hashchange', this.moving); // another listener keeps popstate within a page to itself
    addEventListener('resize', this.fitting);
    this.next.focus();
    const stays = await stayAwake();
    this.awake.textContent = stays ? 'The screen stays on.' : 'Set your device so that the screen stays on.';
  }

  /** Give a step an entry of its own in the browser's history, so that going back leads to it. @param {HTMLElement} step */
  note(step) {
    history.pushState(null, '', `#${step.dataset.step}`);
  }

  /** The browser went back, or forward again; before the first step making along ends. */
  moved() {
    const to = this.steps.findIndex((step) => `#${step.dataset.step}` === location.hash);
    if (to < 0) {
      this.dialog.close();
      return;
    }
    this.at = to;
    this.remember();
    this.show();
    this.next.focus(); // the browser took the focus along to the page below
  }

  /** @param {KeyboardEvent} event */
  pressed(event) {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const ways = { ArrowRight: 1, PageDown: 1, ArrowLeft: -1, PageUp: -1 };
    const way = /** @type {Record<string, number>} */ (ways)[event.key] ?? 0;
    const bundle = event.key.length === 1 ? NAMES.indexOf(event.key.toUpperCase()) : -1;
    if (!way && (bundle < 0 || bundle >= (this.counter?.counts.length ?? 0))) return;
    event.preventDefault();
    if (way > 0) this.go(1);
    else if (way) this.goBack();
    else this.counter?.tap(bundle, event.shiftKey ? -1 : 1);
  }

  /** One step on. @param {number} way */
  go(way) {
    if (this.at + way >= this.steps.length) {
      this.finished = true;
      this.dialog.close();
      return;
    }
    this.at += way;
    this.remember();
    this.note(this.step);
    this.show();
  }

  /** One step back, as the browser's own way back. */
  goBack() {
    if (this.at > 0) history.back();
  }

  remember() {
    keepObject(this.key, { step: this.step.dataset.step, counts: this.counts });
  }

  show() {
    this.borrowed.giveBack();
    const { step } = this;
    const title = titleOf(step);
    const after = titleOf(this.steps[this.at + 1]);
    this.where.textContent = `${this.at + 1} of ${this.steps.length}`;
    this.title.textContent = title;
    this.next.replaceChildren(made('span', 'along-word', after ? 'Next' : 'Done'), made('span', 'along-title', after || 'To the check'));
    this.dialog.setAttribute('aria-label', `Make along: ${title}`);
    this.picture.replaceChildren();
    const drawn = /** @type {HTMLElement | null} */ (step.querySelector('.pt-figure'));
    const figure = this.borrowed.borrow(drawn && getComputedStyle(drawn).display !== 'none' ? drawn : null, this.picture);
    if (figure?.querySelector('.pt-motion')) setMoving(figure, true);
    this.dialog.classList.toggle('bare', !figure);
    this.counter = this.counting();
    this.say.replaceChildren(...(this.counter ? [this.counter.element] : []));
    for (const part of /** @type {NodeListOf<HTMLElement>} */ (step.querySelectorAll(PARTS))) {
      if (part.matches(LIVING)) this.borrowed.borrow(part, this.say);
      else if (getComputedStyle(part).display !== 'none') this.say.append(plain(part));
    }
    this.upper.scrollTop = 0;
    fit(this.upper, this.say);
    const read = [...this.say.children].filter((part) => part !== this.counter?.element && !part.matches('.pt-timer'));
    // biome-ignore lint/performance/useDomNodeTextContent: what is hidden, for the other hand or units, is not read
    this.aloud.say([title, ...read.map((part) => /** @type {HTMLElement} */ (part).innerText)].join('. '));
  }

  left() {
    this.borrowed.giveBack();
    this.aloud.close();
    letSleep();
    this.dialog.remove();
    removeEventListener('hashchange', this.moving);
    removeEventListener('resize', this.fitting);
    if (!document.contains(this.step)) return; // another page has come
    if (!location.hash) return this.land();
    addEventListener('hashchange', () => this.land(), { once: true });
    history.go(-this.at - 1);
  }

  /** Go to the place on the page where making stopped. */
  land() {
    if (this.finished) document.querySelector('.pt-check')?.scrollIntoView();
    else this.step.scrollIntoView();
    this.finished = false;
    this.step.querySelector('h3')?.setAttribute('tabindex', '-1');
    this.step.querySelector('h3')?.focus({ preventScroll: true });
  }

  /** The counter of this step, if it has one. */
  counting() {
    const { count, counters, step = '', wanted = '' } = this.step.dataset;
    if (!count) return undefined;
    return new Counter(Number(counters ?? this.bundles), turnsIn(wanted), this.counts[step], (counts) => {
      this.counts[step] = counts;
      this.remember();
    });
  }
}
