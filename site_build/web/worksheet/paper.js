/** What goes on paper or to another phone's camera: square codes of links, and the cards of strings. @module */

import { opened } from '../active-string.js';
import { chosen } from '../notebook/prefills.js';
import { keep, kept } from '../storage.js';

/** @typedef {import('./page.js').Sheet} Sheet */
/** @typedef {{inputs: Record<string, string>, name: string, link: string, code: string[]}} Card */

const RIM = 4;
const FORMS = {
  page: 'One card a page',
  pocket: 'Four pocket cards a page',
  strip: 'Marking strip in true size',
  pegs: 'Pegs that step the strands, in true size',
  gauges: 'Loop gauges in true size',
};
const POSTS = { posts: 'Strip for the two posts, in true size' };
const PACK = { pack: 'All of the afternoon: lists, labels, timetable, cards' };
const PAPERS = { A4: 'A4', Letter: 'US Letter' };

/** Rows of 1 for dark and 0 for light; none where a code cannot be made, as in a page opened from a folder.
 * @param {string} link @returns {Promise<string[]>} */
async function rowsOf(link) {
  if (!link || location.protocol === 'file:') return [];
  /** @type {typeof import('./square-code.js')} */
  const { squareCode } = await import(new URL('square-code.js', import.meta.url).href);
  return squareCode(link).map((row) => row.map(Number).join(''));
}

/** Show a link as a square code, dark on white whatever the page's colours. @param {HTMLElement} figure @param {string} link */
export async function showCode(figure, link) {
  const rows = await rowsOf(link);
  const size = rows.length + 2 * RIM;
  const way = rows.flatMap((row, y) => [...row].map((dark, x) => (dark === '1' ? `M${x + RIM} ${y + RIM}h1v1h-1z` : ''))).join('');
  figure.innerHTML = `<svg viewBox="0 0 ${size} ${size}" role="img" aria-label="Square code of the link"><path d="${way}"/></svg>`;
  figure.append(Object.assign(document.createElement('figcaption'), { textContent: 'Point the other phone’s camera at it.' }));
  figure.hidden = false;
  figure.scrollIntoView({ block: 'nearest' });
}

/** Offer the cards of a sheet's strings, where it has any. @param {Sheet} sheet @param {() => Promise<string>} linkTo */
export function offerCards(sheet, linkTo) {
  sheet.element.querySelector('.card')?.addEventListener('click', async () => {
    const strings = sheet.element.querySelector('progress') ? await ofList(sheet) : [await ofSheet(sheet, await linkTo())];
    if (strings.length) new CardDialog(sheet, strings).show();
  });
}

/** @param {Sheet} sheet @param {string} link @returns {Promise<Card>} */
async function ofSheet(sheet, link) {
  return { inputs: sheet.form.read(), name: stringName(), link, code: await rowsOf(link) };
}

/** What paper and texts call the string that is shown: the one that came, or the bow of the notebook that it is for. */
export const stringName = () => opened()?.name ?? chosen().bow?.name ?? '';

/** Every string of a list. @param {Sheet} sheet */
async function ofList(sheet) {
  /** @type {Card[]} */
  const cards = [];
  const asked = { line: sheet.id, system: sheet.system, inputs: sheet.form.read() };
  for (;;) {
    const reply = await sheet.wait(`line ${cards.length}`, { ...asked, at: cards.length });
    if (!reply?.fragment) break;
    const link = new URL(`../${reply.worksheet}/#${reply.fragment}`, location.href).href;
    cards.push({ inputs: reply.inputs ?? {}, name: reply.name ?? '', link, code: await rowsOf(link) });
  }
  sheet.settle();
  return cards;
}

/** Shows cards as they will be printed, and prints them. */
class CardDialog {
  /** @param {Sheet} sheet @param {Card[]} strings */
  constructor(sheet, strings) {
    this.sheet = sheet;
    this.strings = strings;
    this.html = '';
    this.frame = Object.assign(document.createElement('iframe'), { title: 'As it will be printed' });
    this.words = Object.assign(document.createElement('p'), { className: 'hint' });
    this.words.setAttribute('role', 'status');
    const forms = sheet.id === 'endless' ? POSTS : sheet.element.querySelector('progress') ? { ...PACK, ...FORMS } : FORMS;
    this.form = choice('How', forms, Object.keys(forms)[0] ?? '');
    this.paper = choice('Paper', PAPERS, kept('paper') ?? 'A4');
    this.name = Object.assign(document.createElement('input'), { className: 'typed', value: strings[0]?.name ?? '' });
    const named = label('For (a bow’s name is enough)', this.name);
    named.hidden = strings.length > 1;
    const bar = Object.assign(document.createElement('p'), { className: 'buttons' });
    const close = button('Close', () => this.dialog.close());
    bar.append(button('Print', () => this.print()), button('Save as a file', () => this.save()), close);
    this.dialog = Object.assign(document.createElement('dialog'), { className: 'cards' });
    this.dialog.setAttribute('aria-label', sheet.id === 'endless' ? 'Strip to print' : 'Cards to print');
    const asked = Object.assign(document.createElement('div'), { className: 'asked' });
    asked.append(this.form.label, this.paper.label, named);
    this.dialog.append(asked, bar, this.words, this.frame);
    this.dialog.addEventListener('change', () => this.draw());
    this.dialog.addEventListener('close', () => this.dialog.remove());
  }

  async show() {
    this.sheet.element.append(this.dialog);
    this.dialog.showModal();
    await this.draw();
  }

  async draw() {
    keep('paper', this.paper.select.value);
    const [first, ...more] = this.strings;
    const strings = first && !more.length ? [{ ...first, name: this.name.value }] : this.strings;
    this.words.textContent = 'Drawing …';
    const { id, system, form } = this.sheet;
    const how = { paper: this.paper.select.value, form: this.form.select.value };
    const asked = { card: id, system, inputs: form.read(), ...how, strings };
    const reply = await this.sheet.wait('card', asked);
    this.sheet.settle();
    this.html = reply?.html ?? '';
    this.words.textContent = this.html ? '' : (reply?.errors?.[0]?.text ?? 'This could not be drawn.');
    this.frame.srcdoc = this.html;
  }

  print() {
    this.frame.contentWindow?.focus();
    this.frame.contentWindow?.print();
  }

  save() {
    const href = URL.createObjectURL(new Blob([this.html], { type: 'text/html' }));
    const names = { pack: 'club-afternoon', posts: 'posts' };
    const download = `${names[/** @type {keyof typeof names} */ (this.form.select.value)] ?? 'string-cards'}.html`;
    Object.assign(document.createElement('a'), { href, download }).click();
    setTimeout(() => URL.revokeObjectURL(href), 60_000);
  }
}

/** @param {string} words @param {() => void} act */
function button(words, act) {
  const made = Object.assign(document.createElement('button'), { type: 'button', className: 'plain', textContent: words });
  made.addEventListener('click', act);
  return made;
}

/** @param {string} words @param {HTMLElement} field */
function label(words, field) {
  const made = document.createElement('label');
  made.append(words, field);
  return made;
}

/** @param {string} words @param {Record<string, string>} options @param {string} chosen */
function choice(words, options, chosen) {
  const select = document.createElement('select');
  select.className = 'typed';
  for (const [value, shown] of Object.entries(options)) select.append(new Option(shown, value, false, value === chosen));
  return { select, label: label(words, select) };
}
