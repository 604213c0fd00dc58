/**
 * Talks with the worker: starts it, keeps only the newest ask of each kind, tries once more when it goes wrong. @module
 */
import { keep, kept } from './store.js';

/** @typedef {{field: string, others: string[], text: string}} Complaint */
/** @typedef {{id: number, ok?: boolean, outcome?: any, inputs?: Record<string, string>, errors?: Complaint[],
 *   fault?: string, stage?: string, fragment?: string, worksheet?: string | null, notes?: string[],
 *   done?: number, of?: number, svg?: string}} Reply */
/** @typedef {{id: number, text: string, tries: number, settle: (reply?: Reply) => void}} Ask */

const SILENCE_MS = 10_000;
const TRIES = 2;

export class Client {
  /** @type {Worker | undefined} */
  #worker;
  #last = 0;
  /** Whether a start went wrong: then the next takes the plain way. */
  #plain = false;
  #timer = 0;
  /** @type {Map<string, Ask>} */
  #asks = new Map();
  /** How far the start is. */
  stage = 'fetch';
  /** Hears when it gets further. @type {(stage: string) => void} */
  onStage = () => {};

  /** @param {URL} url of the worker */
  constructor(url) {
    this.url = url;
  }

  start() {
    if (this.#worker) return;
    this.stage = 'fetch';
    const { worker, heard } = begun();
    const usual = kept('offline') === 'off' ? 'quick' : 'keeping';
    this.#worker = worker ?? new Worker(this.url, { type: 'module', name: this.#plain ? 'plain' : usual });
    this.#worker.onmessage = ({ data }) => this.#hear(JSON.parse(data));
    this.#worker.onerror = ({ message }) => this.#restart(message || 'Python could not be fetched or started');
    for (const { text } of this.#asks.values()) this.#worker.postMessage(text);
    this.#listen();
    for (const data of heard) this.#hear(JSON.parse(data));
  }

  /** Let the worker go; what is asked waits for the next start. */
  rest() {
    clearTimeout(this.#timer);
    this.#worker?.terminate();
    this.#worker = undefined;
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
      this.#asks.set(key, { id, text, tries: 1, settle });
      if (this.#worker) this.#worker.postMessage(text);
      else this.start();
      this.#listen();
    });
  }

  /** @param {Reply} message */
  #hear(message) {
    if (message.stage && message.stage !== this.stage) {
      this.stage = message.stage;
      this.onStage(message.stage);
    }
    const [key = '', ask] = [...this.#asks].find(([, each]) => each.id === message.id) ?? [];
    if (message.fault && (ask ? ask.tries < TRIES : message.id === undefined)) return this.#restart(message.fault);
    if (ask && this.#asks.delete(key)) ask.settle(message);
    if (message.stage === 'ready' && this.#plain && !kept('spare')) {
      keep('spare', true); // what the plain way needs is wanted without signal too
      dispatchEvent(new Event('plied-true:plain'));
    }
    if (this.stage === 'ready' && !this.#asks.size) dispatchEvent(new Event('plied-true:ready')); // for what can wait
    this.#listen();
  }

  /** Expect a sign of life, while one is due. */
  #listen() {
    clearTimeout(this.#timer);
    if (!this.#worker || (this.stage === 'ready' && !this.#asks.size)) return;
    this.#timer = window.setTimeout(() => this.#restart(`no answer for ${SILENCE_MS / 1000} s`), SILENCE_MS);
  }

  /** @param {string} fault */
  #restart(fault) {
    this.rest();
    this.#plain = true;
    for (const [key, ask] of [...this.#asks]) {
      if (++ask.tries > TRIES && this.#asks.delete(key)) ask.settle({ id: ask.id, fault });
    }
    if (this.#asks.size) this.start();
    this.#listen();
  }
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
