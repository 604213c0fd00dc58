/** The notebook of this page: its records in mind, asks to Python about them, and changes that are kept. @module */
import { client } from './shared.js';
import { NotKeptError, StaleError, Store } from './store.js';
import { keptUnits } from '../storage.js';

/** @typedef {import('./store.js').Row} Row */
/** @typedef {import('./store.js').Given} Given */

const TRIES = 8;
const STOPPED = 'The sums stopped, so nothing was kept. Do it again.';

/** Raised for what was typed: `errors` tell where and what. */
export class TypedError extends Error {
  /** @param {import('../worker/client.js').Complaint[]} errors */
  constructor(errors) {
    super(errors.map(({ text }) => text).join(' '));
    this.errors = errors;
  }
}

export class Book {
  /** @type {Map<string, Row>} */
  rows = new Map();
  /** Hears that something is another now. */
  onChange = () => {};
  #asked = 0;

  /** @param {Store} store @param {string} device */
  constructor(store, device) {
    this.store = store;
    this.device = device;
    store.onChange = () => this.load().then(() => this.onChange());
  }

  /** Let go of the store: this page is shown no more. */
  leave() {
    this.store.leave();
  }

  static async open() {
    const store = await Store.open();
    const book = new Book(store, await store.device().catch(() => 'nobody'));
    await book.load();
    return book;
  }

  async load() {
    try {
      this.rows = new Map((await this.store.rows()).map((row) => [row.id, row]));
    } catch {
      this.store.trouble ||= 'nowhere';
    }
  }

  /** Those of a kind that are not deleted, by name. @param {string} kind */
  of(kind) {
    const found = [...this.rows.values()].filter((row) => row.kind === kind && !row.shown.deleted);
    const order = new Intl.Collator(undefined, { numeric: true }).compare;
    return found.sort((one, two) => order(one.shown.name, two.shown.name) || order(one.id, two.id));
  }

  /** Those of a kind whose text under a name is this. @param {string} kind @param {string} name @param {string} text */
  where(kind, name, text) {
    return this.of(kind).filter(({ data }) => data.values[name] === text);
  }

  get system() {
    return localSystem();
  }

  /** Ask Python. @param {string} way @param {object} more @returns {Promise<any>} */
  async ask(way, more) {
    const reply = /** @type {any} */ (await client.ask(`notebook ${++this.#asked}`, { notebook: way, ...more }));
    if (reply?.errors) throw new TypedError(reply.errors);
    if (!reply?.ok) throw new NotKeptError(STOPPED);
    return reply;
  }

  /** What Python is told with every change. */
  stamp() {
    return { now: new Date().toISOString(), device: this.device, system: this.system };
  }

  /**
   * Change records: read them, have Python decide, keep it all at once; again where another tab was quicker.
   * @param {string[]} ids @param {(rows: Row[]) => Promise<Given[]>} decide
   * @param {{what: string, way: 'restore' | 'put back'}} [undo] @param {() => void} [kept] called before anything is shown
   */
  async change(ids, decide, undo, kept) {
    for (let tries = 1; ; tries++) {
      const rows = await this.store.get(ids);
      const given = await decide(rows);
      try {
        await this.store.commit(given, rows, undo);
        await this.load();
        kept?.();
        this.onChange();
        return given;
      } catch (error) {
        if (!(error instanceof StaleError) || tries === TRIES) throw error;
      }
    }
  }

  /**
   * Change some texts of a record, or begin it.
   * @param {string} kind @param {string} id @param {Record<string, string>} texts @param {() => void} [kept]
   */
  edit(kind, id, texts, kept) {
    return this.change([id], async ([row]) => {
      const record = row ? { kind, data: row.data } : { kind, id };
      return [(await this.ask('edit', { record, texts, ...this.stamp() })).record];
    }, undefined, kept);
  }

  /** Delete a record and what belongs to it alone. @param {Row} row */
  remove(row) {
    const ids = this.belonging(row).map(({ id }) => id);
    const more = ids.length > 1 ? ` and ${ids.length - 1} that belong to it` : '';
    const undo = /** @type {const} */ ({ what: `Deleted: ${row.shown.name || row.kind}${more}.`, way: 'restore' });
    return this.change(ids, async (rows) => (await this.ask('delete', { records: plain(rows), ...this.stamp() })).changed, undo);
  }

  /** A record with the strings of a bow and the dated lines about them. @param {Row} row @returns {Row[]} */
  belonging(row) {
    const strings = row.kind === 'bow' ? this.where('string', 'bow', row.id) : [];
    const about = [row, ...strings];
    return [...about, ...about.flatMap(({ id }) => this.where('entry', 'about', id))];
  }

  /** What can be taken back. @returns {Promise<import('./store.js').Undo | null>} */
  async undoable() {
    return (await this.store.meta('undo').catch(() => null)) ?? null;
  }

  /** Take back the last import or deletion. @returns {Promise<string>} what happened */
  async undo() {
    const undo = await this.undoable();
    if (!undo) return 'There is nothing to take back.';
    const turns = new Map(undo.after.map(({ id, turn }) => [id, turn]));
    const now = await this.store.get([...turns.keys()]);
    const same = now.filter(({ id, turn }) => turns.get(id) === turn);
    const since = now.length - same.length;
    if (undo.way === 'restore') {
      const { changed } = await this.ask('restore', { records: plain(same), ...this.stamp() });
      await this.store.commit(changed, same);
    } else {
      const ids = new Set(same.map(({ id }) => id));
      const back = undo.before.filter(({ id }) => ids.has(id));
      const known = new Set(undo.before.map(({ id }) => id));
      await this.store.commit(back, same, undefined, [...ids].filter((id) => !known.has(id)));
    }
    await this.load();
    this.onChange();
    return since ? `Taken back, but for ${since} that were changed since.` : 'Taken back.';
  }

  /** All records, as Python takes them. @param {Iterable<Row>} [rows] */
  records(rows = this.rows.values()) {
    return plain([...rows]);
  }
}

/** @param {Row[]} rows */
const plain = (rows) => rows.map(({ kind, data }) => ({ kind, data }));

const localSystem = () => (keptUnits() === 'metric' ? 'metric' : 'inch');
