/**
 * The notebook's page: which view is shown, what is said of a change, and how it is taken back. The first module of a script
 * of its own, see `bring.js`.
 * @module
 */
import { Book, TypedError } from './book.js';
import { button, make } from './elements.js';
import { compareView } from './compare-view.js';
import { exportView, importView } from './files-view.js';
import { listView } from './list-view.js';
import { atTheRange, rangeView } from './range-view.js';
import { recordView } from './record-view.js';
import { registerView } from './register-view.js';
import { bindPicker } from './picker.js';
import { refreshChosen } from './chosen.js';
import { shared } from './shared.js';
import { whenStill } from '../still.js';
import { NotKeptError, StaleError } from './store.js';

/**
 * @typedef {{book: Book, say: (words: string) => void, attempt: (work: () => Promise<any>) => Promise<boolean>,
 *   go: (hash: string) => void, redraw: () => void}} Desk
 */

const TROUBLE = {
  newer: 'A newer version of this site has opened this notebook. It can be read here, not changed. Reload the page to get that version.',
  nowhere:
    'This browser keeps nothing for this page, perhaps because the window is private. What you write is gone when you leave. '
    + 'Save it as a file.',
};

export class Notebook {
  /** @param {HTMLElement} place @param {Book} book */
  constructor(place, book) {
    this.place = place;
    this.book = book;
    this.trouble = make('p', { className: 'nb-trouble' });
    this.trouble.hidden = true;
    this.status = make('p', { className: 'nb-status', role: 'status' });
    this.taken = make('p', { className: 'nb-undo' });
    this.view = make('div', { className: 'nb-view' });
    place.replaceChildren(this.trouble, this.status, this.taken, this.view);
    place.hidden = false;
    book.onChange = () => this.changed();
    /** @type {Desk} */
    this.desk = {
      book,
      say: (words) => this.say(words),
      attempt: (work) => this.attempt(work),
      go: (hash) => (location.hash = hash),
      redraw: () => this.show(),
    };
    this.show();
    this.offerUndo();
  }

  /** @param {string} words */
  say(words) {
    this.status.textContent = words;
  }

  /** Do what may fail, and say so. @param {() => Promise<any>} work @returns {Promise<boolean>} whether it went well */
  async attempt(work) {
    try {
      await work();
      await this.offerUndo();
      return true;
    } catch (error) {
      const stale = error instanceof StaleError;
      if (!(stale || error instanceof NotKeptError || error instanceof TypedError)) throw error;
      this.say(stale ? 'Another tab changed some of this meanwhile, so nothing was kept. Do it again.' : error.message);
      return false;
    }
  }

  async offerUndo() {
    const undo = await this.book.undoable();
    this.taken.replaceChildren(...(undo ? [`${undo.what} `, button('Take it back', () => this.undo())] : []));
  }

  undo() {
    return this.attempt(async () => this.say(await this.book.undo()));
  }

  /** Another tab, or this one, changed something. A view that somebody types in refreshes what is round that. */
  async changed() {
    refreshChosen(this.book);
    await whenStill();
    this.tellTrouble();
    const { refresh } = /** @type {any} */ (this.view.firstElementChild) ?? {};
    if (refresh) refresh();
    else this.show();
  }

  tellTrouble() {
    const words = TROUBLE[/** @type {keyof typeof TROUBLE} */ (this.book.store.trouble)] ?? '';
    this.trouble.hidden = !words;
    this.trouble.textContent = words;
  }

  show() {
    this.tellTrouble();
    const [way = '', id = ''] = location.hash.slice(1).split('=');
    const row = this.book.rows.get(id);
    const views = {
      record: () => row && recordView(this.desk, row.kind, row),
      new: () => recordView(this.desk, id.split('+')[0] ?? '', undefined, id.split('+')[1] ?? ''),
      range: () => (row ? rangeView(this.desk, row) : atTheRange(this.desk)),
      register: () => registerView(this.desk),
      compare: () => row && compareView(this.desk, row),
      import: () => importView(this.desk),
      export: () => exportView(this.desk, row),
    };
    const found = views[/** @type {keyof typeof views} */ (way)]?.();
    const around = /** @type {HTMLElement} */ (this.place.closest('.md-container'));
    this.place.dataset.view = around.dataset.notebook = found ? way : 'list'; // not `:has`, which would style all anew at each change
    if (found && way === 'range') around.dataset.mdColorScheme = 'sun';
    else delete around.dataset.mdColorScheme;
    this.view.replaceChildren(found || listView(this.desk));
  }
}

/** @type {Notebook | undefined} */
let shown;

async function bindPage() {
  const place = /** @type {HTMLElement | null} */ (document.querySelector('.pt-notebook'));
  if (!place || place === shown?.place) return;
  const book = await Book.open();
  if (!place.isConnected || place === shown?.place) return book.leave();
  shown?.book.leave();
  shown = new Notebook(place, book);
}

addEventListener('hashchange', () => {
  if (!shown?.place.isConnected) return;
  shown.say('');
  shown.show();
  shown.place.scrollIntoView();
});
shared.made = { bindPage, bindPicker };
