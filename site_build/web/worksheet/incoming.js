/**
 * What comes into a worksheet from elsewhere: values carried from another worksheet, or a string that came with a link or
 * from the club list. Such a string has a place of its own, see `active-string.js`; what the reader had is not touched.
 * @module
 */
import { carriedFor, carryTyped, carryWorked, drop as forgetCarried } from '../carried-values.js';
import { toldTo } from '../notebook/prefills.js';
import { keep as keepPlain, kept as keptPlain } from '../storage.js';
import {
  allOpened, cameBy, hasOwn, howItCame, keep, keepBeside, kept, leave, opened, showKept, showOpened, who,
} from '../active-string.js';

/** @typedef {import('./page.js').Sheet} Sheet */

/** The worksheet whose numbers the guides follow before all others'. */
const BENCH = 'string';

export class Brought {
  /** Whether the sheet shows what a link brought and nothing of it is kept: a list, or what could not be opened. */
  linked = false;
  /** Which string the sheet shows, as its link; nothing for the reader's own. */
  shows = '';

  /** @param {Sheet} sheet */
  constructor(sheet) {
    this.sheet = sheet;
    /** A list of many bows is no string: it has its own values. */
    this.apart = sheet.element.querySelector('progress') ? sheet.id : '';
    const acts = { forget: this.forget, back: this.back, keep: this.keep, take: this.take, leave: this.leave };
    for (const [name, act] of Object.entries(acts)) sheet.part(`.${name}`).addEventListener('click', () => act.call(this));
  }

  /** Show what belongs here now, if this tab has gone over to another string since the page was left. */
  comeBack() {
    if (this.astray) /^#v\d/.test(location.hash) ? this.sheet.begin() : this.sheet.usual();
  }

  /** Whether this tab has gone over to another string since, or the string was left elsewhere: nothing is kept then. */
  get astray() {
    return !this.apart && (opened()?.id ?? '') !== this.shows;
  }

  /** @param {'.brought' | '.sent'} box @param {string} words nothing hides it @param {string[]} buttons those that fit */
  say(box, words, ...buttons) {
    const element = this.sheet.part(box);
    element.hidden = !words;
    /** @type {HTMLElement} */ (element.querySelector(`${box}-text`)).textContent = words;
    for (const button of element.querySelectorAll('button')) button.hidden = !buttons.some((name) => button.classList.contains(name));
  }

  /** Put carried values into the form. @returns {boolean} whether there were any that change it */
  carry() {
    const { form, origins, title } = this.sheet;
    const other = this.apart ? null : opened();
    origins.forget();
    origins.whose = other?.how ?? 'own';
    this.shows = other?.id ?? '';
    this.linked = false;
    const carried = this.fitting();
    const now = form.read();
    const early = form.keys().filter((key) => now[key] !== form.first[key]);
    const here = Object.entries(carried).filter(([key]) => !early.includes(key));
    const news = here.filter(([key, { text }]) => now[key] !== text);
    for (const [key, { text }] of news) form.put(key, text);
    for (const [key, { from, how, typed, sure }] of here) {
      if (how) origins.note(key, how, how === 'notebook' ? from : '');
      else if (!typed) origins.note(key, 'worked', from, sure);
      else if (from === title) origins.note(key, 'typed');
      else origins.note(key, 'carried', from);
    }
    for (const key of early) this.set(key);
    const told = here.filter(([, { from, how }]) => !how && from !== title);
    const list = told.map(([key, { text, from }]) => `${form.label(key)} ${form.shown(key, text)} (${from})`);
    this.say('.brought', list.length ? `Carried from your other worksheets: ${list.join(', ')}.` : '', 'forget');
    this.tellWhose();
    return news.length + early.length > 0;
  }

  /** Say above the answer whose string this is, when it is not the reader's own. @param {string} [notes] about a link */
  tellWhose(notes = '') {
    const other = this.apart ? null : opened();
    const beside = hasOwn() ? '; your own values are kept as they were' : '';
    const left = other?.kept ? ' You kept it: it stands as you left it.' : '';
    const words = other ? `For: ${who(this.sheet.system)}. It came ${howItCame(other)}${beside}.${left} ` : '';
    const asked = other?.how === 'link' && !other.kept;
    if (words || notes) this.say('.sent', `${words}${notes}`.trim(), ...(asked || !hasOwn() ? ['keep'] : ['back', 'take']), 'leave');
    else this.say('.sent', '');
  }

  /**
   * What is carried and fits here: no sum goes where this worksheet works the number out itself, nor where the field is
   * usually left to the sums; a field left open elsewhere is left open here, or keeps its usual measure.
   */
  fitting() {
    const { form, element } = this.sheet;
    const rows = element.querySelectorAll('.working > table [data-row], .others [data-row]');
    const own = [...rows].map((row) => row.getAttribute('data-row') ?? '');
    const left = form.keys().filter((key) => !form.isChoice(key) && !/\d/.test(form.first[key] ?? ''));
    const carried = carriedFor(form.keys(), [...own, ...left], this.apart);
    for (const [key, each] of Object.entries(this.apart || opened() ? {} : toldTo(this.sheet.id))) {
      if (!carried[key]?.typed) carried[key] = { ...each, how: 'notebook', typed: true };
    }
    Object.assign(carried, carried.hand ? {} : this.ownHand());
    return Object.fromEntries(Object.entries(carried).flatMap(([key, each]) => {
      const here = form.fitted(key, each.text);
      return here === undefined ? [] : [[key, { ...each, text: here }]];
    }));
  }

  /** What stands in the form as the notebook has it. */
  told() {
    const { id, origins } = this.sheet;
    return Object.fromEntries(Object.entries(toldTo(id)).filter(([key]) => origins.of(key).kind === 'notebook'));
  }

  /**
   * The hand this reader lays in, for a string that says nothing of it.
   * @returns {Record<string, import('../carried-values.js').Carried & {typed: boolean}>}
   */
  ownHand() {
    const text = keptPlain('hand');
    const known = !this.apart && typeof text === 'string' && this.sheet.form.keys().includes('hand');
    return known ? { hand: { text, from: this.sheet.title, typed: true } } : {};
  }

  /** @param {any} reply to the ask that opens a link @param {string} link */
  open(reply, link) {
    const { form, id, title, origins } = this.sheet;
    const before = allOpened().find((each) => each.id === link);
    if (before?.kept) {
      showKept(link);
      form.element.reset();
      this.carry();
      return;
    }
    origins.forget();
    this.say('.brought', '');
    const here = reply?.worksheet === id;
    const notes = (reply?.notes ?? ['This link could not be opened.']).join(' ');
    if (!here) {
      const other = reply?.worksheet ? `This link belongs to another worksheet: ${reply.worksheet}.` : '';
      this.linked = true;
      form.element.reset();
      this.say('.sent', `${notes} ${other} The usual measures are shown.`.replace(/ +/g, ' '), 'leave');
      return;
    }
    const how = cameBy(link);
    const given = /** @type {string[]} */ (reply.given ?? []);
    const damaged = notes && !given.length;
    const unsaid = damaged || given.includes('hand') ? {} : this.ownHand();
    this.linked = Boolean(this.apart || damaged);
    if (!this.linked) {
      const typed = Object.fromEntries(given.map((key) => [key, { text: reply.inputs[key], from: title, how }]));
      showOpened({ id: link, name: reply.name ?? '', how, typed });
      this.shows = link;
      this.linked = this.astray; // this browser keeps nothing
    }
    origins.whose = how;
    for (const [key, text] of Object.entries(reply.inputs)) form.put(key, unsaid[key]?.text ?? text);
    for (const key of given) origins.note(key, how);
    if (unsaid.hand) origins.note('hand', 'typed');
    if (damaged) this.say('.sent', notes, 'leave');
    else if (!this.linked) this.tellWhose(notes);
    else {
      const list = this.apart ? 'This list came with a link.' : 'This came with a link.';
      const own = this.apart ? keptPlain(`typed:${this.apart}`) : hasOwn();
      this.say('.sent', `${list}${own ? ' Your own is kept as it was.' : ''} ${notes}`.trim(), own ? 'take' : 'keep', 'leave');
    }
  }

  /** Note that the reader has set a field. @param {string} key */
  set(key) {
    const { form, title, origins } = this.sheet;
    if (!form.keys().includes(key)) return;
    origins.note(key, 'typed');
    if (this.linked || this.astray) return;
    if (key === 'hand' && !opened() && !this.apart) keepPlain('hand', form.read()[key]);
    carryTyped(key, form.withUnit(key), title, this.apart); // left open counts too, see `fitting`
  }

  /** Note an answer, for the worksheets that ask for it and the guides that show it. @param {any} outcome */
  worked(outcome) {
    const { form, id, title, origins } = this.sheet;
    if (this.linked || this.apart || this.astray) return;
    if (!opened() && !Object.keys({ ...carriedFor(form.keys(), [], ''), ...toldTo(id) }).length) return;
    const counted = origins.count();
    const results = outcome.rows.filter((/** @type {any} */ row) => row.role === 'result');
    const shown = Object.fromEntries(results.map((/** @type {any} */ row) => [row.key, row.shown]));
    carryWorked({ ...shown, ...outcome.known }, title, counted.check.length === 0);
    const { sheets = {} } = kept('own') ?? {};
    delete sheets[id]; // the latest comes last
    const values = Object.fromEntries(outcome.rows.map((/** @type {any} */ row) => [row.key, row.both]));
    sheets[id] = { values, asked: this.asked(outcome), counted };
    keep('own', { sheets, values: merged(sheets), counted: sheets[BENCH]?.counted });
  }

  /** What an answer was asked with, in one system of units, so that two sheets can be seen to speak of one string. @param {any} outcome */
  asked({ rows }) {
    const { form } = this.sheet;
    const typed = rows.filter((/** @type {any} */ row) => row.source === 'input' && form.keys().includes(row.key));
    const chosen = form.keys().filter((key) => key !== 'hand' && form.isChoice(key));
    const now = form.read();
    return {
      ...Object.fromEntries(chosen.map((key) => [key, now[key]])),
      ...Object.fromEntries(typed.map((/** @type {any} */ row) => [row.key, row.both.in])),
    };
  }

  forget() {
    forgetCarried(this.sheet.form.keys(), this.apart);
    this.sheet.usual();
  }

  /** Take the link out of the address. */
  drop() {
    history.replaceState(null, '', location.pathname + location.search);
  }

  /** Show the reader's own again. */
  back() {
    this.drop();
    showKept();
    this.sheet.usual();
  }

  /** Forget what came. */
  leave() {
    const other = this.linked || this.apart ? null : opened();
    this.drop();
    if (other) leave(other.id);
    this.sheet.usual();
  }

  /** Keep what came: beside the reader's own, where they have any. */
  keep() {
    if (this.linked || !hasOwn()) return this.take();
    this.drop();
    keepBeside(this.shows);
    this.tellWhose();
  }

  /** Make what came the reader's own. */
  take() {
    const { form, origins } = this.sheet;
    const other = this.apart ? null : opened();
    const set = form.keys().filter((key) => origins.of(key).kind !== 'example' && origins.of(key).kind !== 'open');
    this.drop();
    if (other) leave(other.id);
    this.linked = false;
    this.shows = '';
    this.say('.sent', '');
    origins.whose = 'own';
    for (const [key, { text, from }] of Object.entries(other?.typed ?? {})) carryTyped(key, text, from, '');
    for (const key of set) this.set(key);
    this.sheet.answer();
  }
}

/**
 * One string's numbers from the sheets that worked some out: the bench sheet's first, then those of sheets that were not
 * asked about another string than it was.
 * @param {Record<string, {values: Record<string, object>, asked: Record<string, string>}>} sheets
 */
export function merged(sheets) {
  const bench = sheets[BENCH];
  /** @type {Record<string, object>} */
  const all = {};
  for (const [id, { values, asked }] of Object.entries(sheets)) {
    if (bench && Object.keys(asked).some((key) => key in bench.asked && asked[key] !== bench.asked[key])) continue;
    for (const [key, both] of Object.entries(values)) all[key] = { ...both, from: id };
  }
  for (const [key, both] of Object.entries(bench?.values ?? {})) all[key] = { ...both, from: BENCH };
  return all;
}
