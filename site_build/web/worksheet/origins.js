/**
 * Where each value of a form is from: the example, another worksheet, a link, the club list, the reader's own hand. Tells
 * how many are the reader's, and which of the others the answer hangs on most.
 * @module
 */

/** @typedef {'example' | 'open' | 'typed' | 'carried' | 'worked' | 'link' | 'club' | 'notebook'} Kind */
/** @typedef {{kind: Kind, from: string, sure: boolean}} Origin */

/** @type {Record<Kind, string>} */
const WORDS = {
  example: 'Example',
  open: 'Left open',
  typed: 'Typed',
  carried: 'Carried from',
  worked: 'Worked out on',
  link: 'From a link',
  club: 'From the club list',
  notebook: 'From the notebook:',
};
/** What is said of values that are this string's own. */
const OWN = { own: 'are yours', link: 'came with the link', club: 'came from the club list' };
const NAMED = 4;

export class Origins {
  /** @type {Map<string, Origin>} */
  #all = new Map();
  /** Whose string it is: the reader's own, or how it came. @type {'own' | 'link' | 'club'} */
  whose = 'own';

  /** @param {import('./form.js').Form} form @param {HTMLElement} place where it is told @param {string[]} matters strongest first */
  constructor(form, place, matters) {
    this.form = form;
    this.place = place;
    this.matters = matters;
  }

  /** @param {string} key @param {Kind} kind @param {string} [from] a worksheet's title @param {boolean} [sure] */
  note(key, kind, from = '', sure = false) {
    this.#all.set(key, { kind, from, sure });
  }

  forget() {
    this.#all.clear();
  }

  /** @param {string} key @returns {Origin} */
  of(key) {
    const { kind, from, sure } = this.#all.get(key) ?? { kind: 'example', from: '', sure: false };
    const open = kind === 'example' && this.form.isOpen(key);
    return { kind: open ? 'open' : kind, from, sure };
  }

  /** Whether a value may be counted on as this string's own. @param {Origin} origin */
  static own({ kind, sure }) {
    return kind === 'worked' ? sure : kind !== 'example' && kind !== 'open';
  }

  /** How many values there are, how many of them are this string's own, and which others matter, strongest first. */
  count() {
    const keys = this.form.keys().filter((key) => this.of(key).kind !== 'open');
    const own = keys.filter((key) => Origins.own(this.of(key)));
    const check = this.matters.filter((key) => keys.includes(key) && !own.includes(key));
    return { of: keys.length, own: own.length, check };
  }

  /** In one sentence, without the fields to check. */
  words() {
    const { of, own, check } = this.count();
    if (!own) return `All ${of} values are the example's.`;
    const rest = check.length || own === of ? '' : ` The answer hardly hangs on the other ${of - own}.`;
    return `${own === of ? `All ${of}` : `${own} of ${of}`} values ${OWN[this.whose]}.${rest}`;
  }

  /** Write at every field where its value is from, and beside the answer what to check first. */
  show() {
    for (const key of this.form.keys()) {
      const { kind, from } = this.of(key);
      this.form.tellOrigin(key, kind, `${WORDS[kind]}${from ? ` ${from}` : ''}.`);
    }
    const { of, own, check } = this.count();
    const whose = own ? `The answer, ${own} of ${of} values ${OWN[this.whose].replace('are ', '')}:` : 'The example’s answer:';
    /** @type {Element} */ (this.form.element.querySelector('.brief-whose')).textContent = whose;
    const links = check.slice(0, NAMED).flatMap((key, at) => {
      const link = document.createElement('a');
      const label = this.form.label(key);
      Object.assign(link, { href: `#${this.form.control(key)?.id}`, onclick: () => this.form.go(key) });
      link.textContent = label.charAt(0).toLowerCase() + label.slice(1);
      return at ? [', ', link] : [link];
    });
    const more = check.length > NAMED ? ` and ${check.length - NAMED} more` : '';
    this.place.replaceChildren(this.words(), ...(links.length ? [' Check first: ', ...links, `${more}.`] : []));
  }
}
