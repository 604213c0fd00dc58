/** Counts turns for each bundle as they are tapped, and says when the bundles differ and when it is enough. @module */
import { button, made } from './elements.js';
import { keep, kept } from './progress.js';
import { NAMES, counted, halves, standing } from './counts.js';

const BUZZ = { reached: [120, 80, 120], apart: [40] };

/** What was kept, when it is a count for each bundle. @param {unknown} found @param {number} bundles @returns {number[]} */
function sound(found, bundles) {
  const good = Array.isArray(found) && found.length === bundles && found.every((each) => Number.isInteger(2 * each) && each >= 0);
  return good ? [...found] : Array(bundles).fill(0);
}

export class Counter {
  /**
   * @param {number} bundles @param {number} wanted turns, 0 when not known
   * @param {unknown} found what was kept of it @param {(counts: number[]) => void} changed
   */
  constructor(bundles, wanted, found, changed) {
    this.counts = sound(found, bundles);
    this.wanted = wanted;
    this.changed = changed;
    this.element = made('div', 'along-counter');
    this.taps = this.counts.map((_, bundle) => button('along-tap', '', () => this.tap(bundle, 1)));
    this.verdict = made('p', 'along-verdict');
    this.verdict.setAttribute('role', 'status');
    for (const [bundle, tap] of this.taps.entries()) this.element.append(tap, this.less(bundle));
    this.element.append(this.verdict);
    if ('vibrate' in navigator) this.element.append(this.buzzer());
    this.tell();
  }

  /** @param {number} bundle */
  less(bundle) {
    const one = button('along-less', '−1', () => this.tap(bundle, -1));
    one.setAttribute('aria-label', `−1 for ${this.counts.length > 1 ? NAMES[bundle] : 'the count'}`);
    return one;
  }

  buzzer() {
    const words = () => `Buzz: ${kept('buzz') || 'on'}`;
    const one = button('along-buzz', words(), () => {
      keep('buzz', kept('buzz') ? '' : 'off');
      one.textContent = words();
    });
    return one;
  }

  /** @param {number} bundle @param {number} more */
  tap(bundle, more) {
    this.counts[bundle] = counted(this.counts[bundle] ?? 0, more, this.wanted);
    this.changed(this.counts);
    const state = this.tell();
    if ((state === 'reached' || state === 'apart') && !kept('buzz')) navigator.vibrate?.(BUZZ[state]);
  }

  /** Say how the count stands. */
  tell() {
    const { state, words } = standing(this.counts, this.wanted);
    this.verdict.textContent = words;
    this.verdict.dataset.state = state;
    for (const [bundle, tap] of this.taps.entries()) {
      const name = this.counts.length > 1 ? NAMES[bundle] ?? '' : 'Turn';
      tap.replaceChildren(made('span', 'along-name', name), made('span', 'along-number', halves(this.counts[bundle] ?? 0)));
    }
    return state;
  }
}
