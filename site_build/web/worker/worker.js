/**
 * Runs the calculation package in Python, beside the page. Takes the asks of `calc/bridge.py` as JSON text and posts
 * its replies as they are, and before each `{"v": 1, "working": id}`. On the way up it posts
 * `{"v": 1, "stage": "fetch" | "start" | "ready", "bytes": …}`, with the bytes that came so far, and again every second.
 * When it is ready it says whether it started `plain`: then its first answer takes longer.
 * A start that cannot go on, and a Python that stopped, is told as `{"v": 1, "stopped": why}`: then this worker is of no
 * more use. A worker with the name `plain`, and one of a site that has none yet, starts without the snapshot of the memory.
 * `site_build/runtime/bundle.py` writes `START`, which is also in `manifest.json`, above this text.
 * @module
 */
import { begin } from './python.js';
import { bytesOf, coming, moduleOf, scriptOf } from './runtime-files.js';

/** @type {any} */
// @ts-expect-error - stands above in the built file
const start = START;
const plain = self.name === 'plain' || !start.snapshot;

/** Begin at once; whoever waits for it hears of a failure. @template T
 * @param {(name: string, integrity: string) => Promise<T>} how @param {string} part @returns {Promise<T>} */
function under(how, part) {
  const promise = how(start[part], start.integrity[part]);
  promise.catch(() => {});
  return promise;
}

/** What takes longest is under way before anything else. @type {import('./python.js').Way} */
const way = {
  module: under(moduleOf, 'wasm'),
  ...(plain ? { library: under(bytesOf, 'library'), calc: under(bytesOf, 'calc') } : { snapshot: under(bytesOf, 'snapshot') }),
  script: under(scriptOf, 'script'),
  loader: under(scriptOf, 'loader'),
};

/** Newest ask of each kind, as JSON text. @type {Map<string, string>} */
const asked = new Map();
/** @type {((text: string) => string) | undefined} */
let python;

/** @param {object} message */
function post(message) {
  self.postMessage(JSON.stringify({ v: 1, ...message }));
}

function tell() {
  post({ stage: coming.files ? 'fetch' : 'start', bytes: coming.bytes });
}

async function run() {
  const beat = setInterval(tell, 1000);
  coming.changed = tell;
  python = await begin(way, start).finally(() => clearInterval(beat));
  coming.changed = () => {};
  delete way.snapshot;
  if (!plain) console.info(`Python went on from the snapshot of its memory, ${start.snapshot}; ?plain in the address starts without it.`);
  post({ stage: 'ready', plain });
  answerAll();
}

function answerAll() {
  for (const [key, text] of python ? asked : []) {
    asked.delete(key);
    post({ working: JSON.parse(text).id });
    try {
      self.postMessage(python?.(text));
    } catch (error) { // not an error of Python, which is answered: Python itself stopped
      python = undefined;
      return post({ stopped: String(error) });
    }
  }
}

self.onmessage = ({ data: text }) => {
  const { id, notebook, worksheet, convert, share, open, part, line, figure, card, text: answer, ident } = JSON.parse(text);
  const kind = worksheet ?? [convert, share, open, part, line, figure, card, answer, ident].join();
  asked.set(notebook ? `notebook ${id}` : kind, text);
  setTimeout(answerAll); // an ask that waits behind this one replaces it first
};

run().catch((error) => post({ stopped: String(error) }));
