/**
 * Talks with Python's worker: starts it, keeps only the newest ask of each kind, and puts another worker in the place of
 * one that stopped, which is then asked the same. @module
 */

/** @typedef {{field: string, others: string[], text: string}} Complaint */
/** @typedef {{id: number, ok?: boolean, outcome?: any, inputs?: Record<string, string>, errors?: Complaint[],
 *   fault?: string, gaveUp?: boolean, fragment?: string, worksheet?: string | null, notes?: string[],
 *   done?: number, of?: number, svg?: string, html?: string, text?: string, name?: string}} Reply */
/** @typedef {Reply & {stage?: string, bytes?: number, plain?: boolean, working?: number, stopped?: string}} Heard */
/** @typedef {{id: number, text: string, stops: number, settle: (reply?: Reply) => void}} Ask */

const SILENCE_MS = 10_000;
/**
 * So long a slow device may take over what came, and a plain start over its first answer, for which it loads more.
 * What has still to come is asked for again much sooner.
 */
const SLOW_START_MS = 60_000;
/** After so many workers that stopped at the same ask it is given up. */
const STOPS = 3;
const WAITS_MS = [0, 1000, 2000, 4000, 8000, 8000, 15_000, 30_000];

export class Client {
  /** @type {Worker | undefined} */
  #worker;
  #last = 0;
  /** @type {Map<string, Ask>} */
  #asks = new Map();
  /** The ask that the worker is at. */
  #working = 0;
  /** Whether it still has to load what its first answer needs. */
  #loading = false;
  /** Bytes that came for this start, and the most that came for any. */
  #bytes = 0;
  #most = 0;
  /** Starts in a row that did not come to an end. */
  #failed = 0;
  /** Until nothing was heard for too long. */
  #silence = 0;
  /** Until the page says that the start takes long. */
  #patience = 0;
  /** Until the next start. */
  #again = 0;
  /** How far the start is: nothing was heard (`begin`), then `fetch`, `start`, `ready`; `again` after a stop. */
  stage = 'begin';
  /** Why there is no answer yet; nothing while all goes well. */
  trouble = '';
  /** Hears when it gets further. @type {(stage: string) => void} */
  onStage = () => {};
  /** Hears of trouble, and with nothing when it is over. @type {(trouble: string) => void} */
  onTrouble = () => {};

  /** @param {URL} url of the worker */
  constructor(url) {
    this.url = url;
  }

  start() {
    if (this.#worker) return;
    clearTimeout(this.#again);
    const { worker, heard } = begun();
    // after a start that failed, the other way is tried
    const plain = wantsPlain() !== (this.#failed % 2 === 1);
    try {
      this.#worker = worker ?? new Worker(this.url, { type: 'module', name: plain ? 'plain' : '' });
    } catch (error) {
      return this.#troubled(`no worker: ${error}`);
    }
    this.#worker.onmessage = ({ data }) => this.#hear(JSON.parse(data));
    this.#worker.onerror = ({ message }) => this.#stopped(message || 'the worker could not be fetched or started');
    for (const { text } of this.#asks.values()) this.#worker.postMessage(text);
    this.#bytes = 0;
    this.#working = 0;
    this.#loading = false;
    this.#listen();
    this.#patience = window.setTimeout(() => this.#troubled('the start takes long'), SILENCE_MS);
    for (const data of heard) this.#hear(JSON.parse(data));
  }

  /** Start now where the next start is waited for. */
  retry() {
    if (this.stage === 'again') this.start();
  }

  /** Let the worker go; what is asked waits for the next start. */
  rest() {
    for (const timer of [this.#silence, this.#patience, this.#again]) clearTimeout(timer);
    if (this.#worker) {
      this.#worker.onmessage = null; // what it said last may still be under way, and would be taken for the next one's
      this.#worker.onerror = null;
      this.#worker.terminate();
    }
    this.#worker = undefined;
    this.stage = 'begin';
  }

  /**
   * Ask; a newer ask under the same key makes this one settle with nothing.
   * @param {string} key
   * @param {object} message
   * @returns {Promise<Reply | undefined>}
   */
  ask(key, message) {
    this.#asks.get(key)?.settle();
    const id = ++this.#last;
    const text = JSON.stringify({ v: 1, id, ...message });
    return new Promise((settle) => {
      this.#asks.set(key, { id, text, stops: 0, settle });
      if (this.#worker) this.#worker.postMessage(text);
      else this.start();
      this.#listen();
    });
  }

  /** @param {Heard} message */
  #hear(message) {
    const { stage = this.stage, bytes = this.#bytes, plain = this.#loading, working, stopped } = message;
    if (stopped !== undefined) return this.#stopped(stopped);
    if (working) this.#working = working;
    this.#loading = plain && message.id === undefined;
    if (message.stage && stage === this.stage && bytes === this.#bytes) return; // alive, but no further
    if (bytes > this.#most) this.#patient();
    this.#bytes = bytes;
    this.#most = Math.max(this.#most, bytes);
    if (stage !== this.stage) this.#reach(stage);
    const [key = '', ask] = [...this.#asks].find(([, each]) => each.id === message.id) ?? [];
    if (ask && this.#asks.delete(key)) ask.settle(message);
    if (this.stage === 'ready' && !this.#asks.size) dispatchEvent(new Event('plied-true:ready')); // for what can wait
    this.#listen();
  }

  /** @param {string} stage */
  #reach(stage) {
    this.stage = stage;
    if (stage === 'ready') {
      this.#failed = 0;
      clearTimeout(this.#patience);
      this.#troubled('');
    }
    this.onStage(stage);
  }

  /** More came than ever before: the start is slow, not stuck. */
  #patient() {
    clearTimeout(this.#patience);
    this.#troubled('');
    this.#patience = window.setTimeout(() => this.#troubled('the start takes long'), SILENCE_MS);
  }

  /** @param {string} trouble */
  #troubled(trouble) {
    if (trouble === this.trouble) return;
    this.trouble = trouble;
    this.onTrouble(trouble);
  }

  /** Expect to hear how it goes on, while that is due. */
  #listen() {
    clearTimeout(this.#silence);
    if (!this.#worker || (this.stage === 'ready' && !this.#asks.size)) return;
    const most = this.stage === 'start' || this.#loading ? SLOW_START_MS : SILENCE_MS;
    this.#silence = window.setTimeout(() => this.#stopped(`nothing was heard for ${most / 1000} s`, true), most);
  }

  /** The worker is of no more use: put another in its place. @param {string} why @param {boolean} [long] it took too long */
  #stopped(why, long = false) {
    console.warn(`Python is started again: ${why}`);
    const started = this.stage === 'ready';
    this.rest();
    this.stage = 'again';
    if (started) this.#count();
    else if (++this.#failed > 1 || long) this.#troubled(why);
    if (!started || this.#asks.size) {
      this.onStage(this.stage);
      const wait = WAITS_MS[Math.min(Math.max(this.#failed - 1, 0), WAITS_MS.length - 1)];
      if (wait) this.#again = window.setTimeout(() => this.start(), wait);
      else this.start();
    }
  }

  /** Count the stop to the ask that the worker was at; give that up after too many. */
  #count() {
    for (const [key, ask] of this.#asks) {
      if (ask.id === this.#working && ++ask.stops >= STOPS && this.#asks.delete(key)) ask.settle({ id: ask.id, gaveUp: true });
    }
  }
}

/** Whether the address asks for a start without the snapshot of the memory. */
function wantsPlain() {
  return new URLSearchParams(location.search).has('plain');
}

/** The worker that the page's head began, if it did, and what it has said: once. @returns {{worker?: Worker, heard: string[]}} */
function begun() {
  const { pliedTrue = { heard: [] } } = /** @type {any} */ (window);
  delete (/** @type {any} */ (window).pliedTrue);
  return pliedTrue;
}

/** The one that all of a page shares: a device has room for one Python. */
export const client = new Client(new URL('worker.js', import.meta.url));

// A browser keeps a page that was left, for going back, and would keep a Python with each.
addEventListener('pagehide', () => client.rest());
addEventListener('pageshow', ({ persisted }) => {
  if (persisted && document.querySelector('[data-worksheet]')) (window.requestIdleCallback ?? setTimeout)(() => client.start());
});
// What could not be fetched may be there now.
addEventListener('online', () => client.retry());
