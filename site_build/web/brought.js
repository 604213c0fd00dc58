/**
 * What comes into a worksheet from elsewhere: values carried from another worksheet, or a link somebody sent. A link
 * never touches what the reader had: it is shown, and kept only when the reader says so.
 * @module
 */
import { carriedFor, carryTyped, carryWorked, drop } from './carry.js';
import { keep, kept } from './store.js';

/** @typedef {import('./page.js').Sheet} Sheet */

/** The worksheet whose numbers the guides follow before all others'. */
const BENCH = 'string';

export class Brought {
  /** Whether the sheet shows what a link brought. */
  linked = false;

  /** @param {Sheet} sheet */
  constructor(sheet) {
    this.sheet = sheet;
    this.box = sheet.part('.brought');
    for (const [name, act] of Object.entries({ forget: this.forget, back: this.back, keep: this.keep })) {
      sheet.part(`.${name}`).addEventListener('click', () => act.call(this));
    }
  }

  /** @param {string} words @param {string[]} buttons of those in the box, the ones that fit */
  say(words, ...buttons) {
    this.box.hidden = !words;
    this.sheet.part('.brought-text').textContent = words;
    for (const button of this.box.querySelectorAll('button')) button.hidden = !buttons.some((name) => button.classList.contains(name));
  }

  /** Put carried values into the form. @returns {boolean} whether there were any that change it */
  carry() {
    const { form } = this.sheet;
    const carried = this.fitting();
    const now = form.read();
    const early = form.keys().filter((key) => now[key] !== form.first[key]);
    const news = Object.entries(carried).filter(([key, { text }]) => now[key] !== text && !early.includes(key));
    for (const [key, { text }] of news) form.put(key, text);
    for (const key of early) this.set(key);
    const told = Object.entries(carried).filter(([key, { from }]) => from !== this.sheet.title && !early.includes(key));
    const list = told.map(([key, { text, from }]) => `${form.label(key)} ${form.shown(key, text)} (${from})`);
    this.say(list.length ? `Carried from your other worksheets: ${list.join(', ')}.` : '', 'forget');
    return news.length + early.length > 0;
  }

  /**
   * What is carried and fits here: no sum goes where this worksheet works the number out itself, nor where the field is
   * usually left to the sums; a field left open elsewhere is left open here, or keeps its usual measure.
   */
  fitting() {
    const { form, element } = this.sheet;
    const own = [...element.querySelectorAll('.working > table [data-row]')].map((row) => row.getAttribute('data-row') ?? '');
    const left = form.keys().filter((key) => !/\d/.test(form.first[key] ?? ''));
    const carried = Object.entries(carriedFor(form.keys(), [...own, ...left]));
    return Object.fromEntries(carried.flatMap(([key, { text, from }]) => {
      const here = form.fitted(key, text);
      return here === undefined ? [] : [[key, { text: here, from }]];
    }));
  }

  /** @param {any} reply to the ask that opens a link */
  open(reply) {
    const here = reply?.worksheet === this.sheet.id;
    this.linked = here;
    const notes = (reply?.notes ?? ['This link could not be opened.']).join(' ');
    if (!here) {
      const other = reply?.worksheet ? `This link belongs to another worksheet: ${reply.worksheet}.` : '';
      this.say(`${notes} ${other} The usual measures are shown.`.trim());
      return;
    }
    for (const [key, text] of Object.entries(reply.inputs)) this.sheet.form.put(key, text);
    this.say(`These measures came with a link. Your own are kept as they were. ${notes}`.trim(), 'back', 'keep');
  }

  /** Note that the reader has set a field. @param {string} key */
  set(key) {
    const { form, title } = this.sheet;
    if (this.linked || !form.keys().includes(key)) return;
    if (key === 'hand') keep('hand', form.read()[key]);
    carryTyped(key, form.withUnit(key), title); // left open counts too, see `fitting`
  }

  /** Note an answer, for the worksheets that ask for it and the guides that show it. @param {any} outcome */
  worked(outcome) {
    if (this.linked || !Object.keys(carriedFor(this.sheet.form.keys())).length) return;
    const results = outcome.rows.filter((/** @type {any} */ row) => row.role === 'result');
    carryWorked(Object.fromEntries(results.map((/** @type {any} */ { key, shown }) => [key, shown])), this.sheet.title);
    const own = kept('own')?.values ?? {};
    for (const { key, both } of outcome.rows) {
      if (this.sheet.id === BENCH || own[key]?.from !== BENCH) own[key] = { ...both, from: this.sheet.id };
    }
    keep('own', { values: own });
  }

  forget() {
    drop(this.sheet.form.keys());
    this.say('');
    this.sheet.usual();
  }

  back() {
    this.linked = false;
    history.replaceState(null, '', location.pathname + location.search);
    this.say('');
    this.sheet.usual();
  }

  keep() {
    this.linked = false;
    history.replaceState(null, '', location.pathname + location.search);
    const now = this.sheet.form.read();
    for (const key of Object.keys(now)) if (now[key] !== this.sheet.form.first[key]) this.set(key);
    this.say('');
    this.sheet.answer();
  }
}
