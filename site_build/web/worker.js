/**
 * Runs the calculation package in Python, beside the page. Takes the asks of `calc/bridge.py` as JSON text and posts
 * its replies as they are; on the way up it posts `{"v": 1, "stage": "fetch" | "compile" | "import" | "ready", "ms": …}`,
 * and again every second as a sign of life. What takes longest is under way before anything else: the WebAssembly and,
 * but for a worker with the name `plain` and a site that has none yet, the snapshot of the memory. One with the name
 * `keeping` leaves the snapshot on the device; `quick` leaves nothing.
 * `site_build/runtime.py` writes `START`, which is also in `manifest.json`, above this text.
 * @module
 */
import { begin, whole } from './python.js';

const begun = performance.now();
const runtime = new URL('../runtime/', import.meta.url);
const root = new URL('../../', import.meta.url);

/** Whoever waits for it hears of a failure. @template T @param {Promise<T>} promise */
function under(promise) {
  promise.catch(() => {});
  return promise;
}

/** The snapshot of the memory, while it is to be kept and is only here. @type {ArrayBuffer | undefined} */
let fetched;

/**
 * The snapshot of the memory: from where `sw.js` keeps it, which is several times as fast as by way of that, else fetched
 * and held to its checksum, since a wrong byte could make a wrong number.
 * @returns {Promise<ArrayBuffer>}
 */
async function loadSnapshot() {
  const { href } = new URL(start.snapshot, runtime);
  const kept = await Promise.resolve(self.caches?.match(`${href}?kept=${start.sum}`)).catch(() => undefined);
  if (kept) return kept.arrayBuffer();
  const bytes = await (await whole(fetch(href, { integrity: start.integrity }))).arrayBuffer();
  if (self.name === 'keeping') fetched = bytes;
  return bytes;
}

/** @type {import('./python.js').Start} */
// @ts-expect-error - stands above in the built file
const start = START;
const way = {
  runtime,
  start,
  compiled: under(WebAssembly.compileStreaming(fetch(new URL(start.wasm, runtime)))),
  snapshot: self.name === 'plain' || !start.snapshot ? undefined : under(loadSnapshot()),
  glue: under(import(new URL('pyodide.mjs', runtime).href)),
  script: under(import(new URL(start.script, runtime).href)), // the glue asks for it next
};

/** Newest ask of each kind, as JSON text. @type {Map<string, string>} */
const asked = new Map();
/** @type {((text: string) => string) | undefined} */
let python;
let stage = 'fetch';

/** @param {string} [next] */
function tell(next = stage) {
  stage = next;
  self.postMessage(JSON.stringify({ v: 1, stage, ms: Math.round(performance.now() - begun) }));
}

async function run() {
  const beat = setInterval(tell, 1000);
  tell();
  python = await begin(way, tell);
  clearInterval(beat);
  delete way.snapshot;
  tell('ready');
  answerAll();
}

function answerAll() {
  for (const [key, text] of python ? asked : []) {
    asked.delete(key);
    self.postMessage(python?.(text));
    if (fetched) leave(fetched).catch(() => {}); // no room, or not allowed
    fetched = undefined;
  }
}

/** Leave the snapshot where `sw.js` would: for the next visit, which may come sooner than that does. @param {ArrayBuffer} bytes */
async function leave(bytes) {
  const key = `${new URL(start.snapshot, runtime).href}?kept=${start.sum}`;
  const cache = await caches.open(`plied-true-site ${root.pathname}`);
  await cache.put(key, new Response(bytes));
  const others = (await cache.keys()).filter(({ url }) => url !== key);
  if (!others.every(({ url }) => url.includes('/snapshot-'))) return; // `sw.js` tidies up
  for (const old of others) await cache.delete(old);
}

self.onmessage = ({ data: text }) => {
  const { worksheet, convert, share, open, part, line, figure, ident } = JSON.parse(text);
  asked.set(worksheet ?? [convert, share, open, part, line, figure, ident].join(), text);
  setTimeout(answerAll); // an ask that waits behind this one replaces it first
};

run().catch((error) => self.postMessage(JSON.stringify({ v: 1, fault: String(error) })));
