/** Make along: a guide one step a screen, for a phone propped on the bench and hands full of wax. @module */
import { letSleep, stayAwake } from './along-awake.js';
import { Counter } from './along-counter.js';
import { setMoving } from './along-motion.js';
import { button, made } from './along-parts.js';
import { keepObject, keptObject } from './along-store.js';
import { NAMES, wholeTurns } from './along-sums.js';

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
    /** @type {Record<string, unknown>} */
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
    if (!way && (bundle < 0 || bundle >= (this.counter?.counts.length ?? 0))) return;
    event.preventDefault();
    if (way) this.go(way);
    else this.counter?.tap(bundle, event.shiftKey ? -1 : 1);
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
    keepObject(this.key, { step: this.step.dataset.step, counts: this.counts });
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
    this.counter = this.counting();
    if (this.counter) this.more.prepend(this.counter.element);
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

  /** The counter of this step, if it has one. */
  counting() {
    const { count, counters, step = '', wanted = '' } = this.step.dataset;
    if (!count) return undefined;
    return new Counter(Number(counters ?? this.bundles), wholeTurns(wanted), this.counts[step], (counts) => {
      this.counts[step] = counts;
      this.remember();
    });
  }
}
