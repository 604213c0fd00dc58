/**
 * Where the notebook's records lie: the browser's own database, on this device alone. Every change is one transaction, which
 * is there whole or not at all; a record that another tab changed meanwhile is not written over. Nothing is decided here.
 * @module
 */
// @ts-expect-error - esbuild joins it in; it is not installed beside these modules
import { openDB } from 'idb';

/** @typedef {{id: string, values: Record<string, string>}} Data */
/** @typedef {{field: string, text: string}} Conflict */
/** @typedef {{name: string, words: string, deleted: boolean, conflicts: Conflict[], unreadable: string[]}} Shown */
/** @typedef {{kind: string, data: Data, shown: Shown}} Given a record as Python gives it */
/** @typedef {Given & {id: string, turn: number}} Row a record as it is kept; `turn` counts how often it was written */
/** @typedef {{what: string, way: 'restore' | 'put back', before: Row[], after: {id: string, turn: number}[]}} Undo */

export const NAME = 'plied-true-notebook';
/** As that of a notebook's file: a site that does not know all texts of a record reads, and never writes. */
export const VERSION = 2;
const MANY = 50;

/** Raised when another tab wrote one of these records first. */
export class StaleError extends Error {}
/** Raised when nothing could be kept; its message is a sentence for the reader. */
export class NotKeptError extends Error {}

const WHY = {
  full: 'This device has no room left, so nothing was kept. Make room, then do it again.',
  newer: 'A newer version of this site has opened this notebook. It can be read here, not changed. Reload the page to get that version.',
  other: 'The browser refused to keep this. What was there before is as it was.',
};

export class Store {
  /** Why nothing can be written: nothing, `newer`, or `nowhere` where the browser keeps nothing. */
  trouble = '';
  /** The database, or nothing where the browser has none. @type {any} */
  #db;
  /** What is known where there is no database. @type {Map<string, Row>} */
  #rows = new Map();
  /** @type {Map<string, any>} */
  #meta = new Map();
  /** Hears that another tab wrote something. */
  onChange = () => {};
  /** @type {BroadcastChannel | undefined} */
  #others;
  /** Whether the browser was asked to keep this when it needs room. */
  #asked = false;

  /** @returns {Promise<Store>} never fails: where nothing can be kept, it says so in `trouble` */
  static async open() {
    const store = new Store();
    try {
      store.#db = await opened(store, VERSION);
    } catch (error) {
      if (/** @type {Error} */ (error).name === 'VersionError') {
        store.#db = await opened(store);
        store.trouble = 'newer';
      } else store.trouble = 'nowhere';
    }
    if ('BroadcastChannel' in window) {
      store.#others = new BroadcastChannel(NAME);
      store.#others.onmessage = () => store.onChange();
    }
    return store;
  }

  /** Let the database go, so that a newer version of the site can change it. @param {string} why */
  release(why) {
    this.#db?.close();
    this.trouble = why;
    this.onChange();
  }

  /** Let the database go and hear nothing more. */
  leave() {
    this.#db?.close();
    this.#others?.close();
    this.#others = undefined; // what is still being written is kept, and told to nobody
  }

  /** @returns {Promise<Row[]>} */
  async rows() {
    return this.#db ? this.#db.getAll('records') : [...this.#rows.values()];
  }

  /** @param {string[]} ids @returns {Promise<Row[]>} those that are there */
  async get(ids) {
    if (!this.#db) return ids.flatMap((id) => this.#rows.get(id) ?? []);
    const { store } = this.#db.transaction('records');
    return (await Promise.all(ids.map((id) => store.get(id)))).filter(Boolean);
  }

  /** @param {string} name @returns {Promise<any>} */
  async meta(name) {
    return this.#db ? this.#db.get('meta', name) : this.#meta.get(name);
  }

  /** The name of this device in stamps, made once. */
  async device() {
    const found = await this.meta('device');
    if (found) return found;
    const made = freshId('').slice(0, 10);
    if (!this.trouble) await this.#db.put('meta', made, 'device');
    this.#meta.set('device', made);
    return made;
  }

  /**
   * Write records that were worked out from rows as they were read, all or none.
   * @param {Given[]} given @param {Row[]} read @param {Omit<Undo, 'after' | 'before'>} [undo] how this is taken back
   * @param {string[]} [removed] ids of rows to take away
   */
  async commit(given, read, undo, removed = []) {
    if (this.trouble === 'newer') throw new NotKeptError(WHY.newer);
    const turns = new Map(read.map(({ id, turn }) => [id, turn]));
    const rows = given.map(({ kind, data, shown }) => ({ id: data.id, kind, data, shown, turn: (turns.get(data.id) ?? 0) + 1 }));
    const note = undo && { ...undo, before: read, after: rows.map(({ id, turn }) => ({ id, turn })) };
    if (this.#db) await this.#write(rows, turns, note, removed);
    else {
      for (const row of rows) this.#rows.set(row.id, row);
      for (const id of removed) this.#rows.delete(id);
      this.#meta.set('undo', note);
    }
    this.#others?.postMessage('changed');
    if (!this.#asked) this.persist();
    this.#asked = true;
  }

  /** @param {Row[]} rows @param {Map<string, number>} turns @param {Undo | undefined} undo @param {string[]} removed */
  async #write(rows, turns, undo, removed) {
    const touched = [...rows.map(({ id }) => id), ...removed];
    const change = this.#db.transaction(['records', 'meta'], 'readwrite', { durability: 'strict' });
    const done = change.done.catch((/** @type {unknown} */ error) => error);
    const records = change.objectStore('records');
    try {
      const there = touched.length > MANY ? await records.getAll() : await Promise.all(touched.map((id) => records.get(id)));
      const now = new Map(there.filter(Boolean).map((/** @type {Row} */ { id, turn }) => [id, turn]));
      if (touched.some((id) => (now.get(id) ?? 0) !== (turns.get(id) ?? 0))) throw new StaleError();
      for (const row of rows) records.put(row).catch(() => {}); // what fails, fails the whole: see `done`
      for (const id of removed) records.delete(id).catch(() => {});
      change.objectStore('meta').put(undo ?? null, 'undo').catch(() => {});
      change.commit();
    } catch (error) {
      try {
        change.abort();
      } catch {
        // it is over already
      }
      await done;
      if (error instanceof StaleError) throw error;
      throw refused(error);
    }
    const failed = await done;
    if (failed) throw refused(failed);
  }

  /** Ask the browser not to clear this when it needs room. @returns {Promise<boolean>} whether it promised */
  async persist() {
    try {
      return (await navigator.storage.persisted()) || (await navigator.storage.persist());
    } catch {
      return false;
    }
  }
}

/** @param {unknown} error */
function refused(error) {
  const name = /** @type {Error | undefined} */ (error)?.name;
  return new NotKeptError(name === 'QuotaExceededError' ? WHY.full : WHY.other, { cause: error });
}

/** @param {Store} store @param {number} [version] nothing opens it as it is */
function opened(store, version) {
  return openDB(NAME, version, {
    upgrade(/** @type {any} */ db, /** @type {number} */ before) {
      if (before) return;
      db.createObjectStore('records', { keyPath: 'id' });
      db.createObjectStore('meta');
    },
    blocking: () => store.release('newer'),
    terminated: () => store.release('nowhere'),
  });
}

/** An id that nothing else has. @param {string} kind */
export function freshId(kind) {
  const bytes = crypto.getRandomValues(new Uint8Array(8));
  return [kind, [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('')].filter(Boolean).join('-');
}
