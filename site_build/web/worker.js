/**
 * Runs the calculation package in Python, beside the page. Takes the asks of `calc/bridge.py` as JSON text and posts
 * its replies as they are; on the way up it posts `{"v": 1, "stage": "fetch" | "compile" | "import" | "ready", "ms": …}`,
 * and again every second as a sign of life. A worker with the name `plain` keeps and uses no picture of its memory.
 * What takes longest is under way before anything else.
 * @module
 */
import { begin } from './python.js';

const begun = performance.now();
const runtime = new URL('../runtime/', import.meta.url);

/** Whoever waits for it hears of a failure. @template T @param {Promise<T>} promise */
function under(promise) {
  promise.catch(() => {});
  return promise;
}

const way = {
  runtime,
  compiled: under(WebAssembly.compileStreaming(fetch(new URL('pyodide.asm.wasm', runtime)))),
  manifest: under(fetch(new URL('manifest.json', runtime))),
  glue: under(import(new URL('pyodide.mjs', runtime).href)),
  more: under(import(new URL('pyodide.asm.mjs', runtime).href)), // the glue asks for it next
};

/** Newest ask of each kind, as JSON text. @type {Map<string, string>} */
const asked = new Map();
/** @type {import('./python.js').Python | undefined} */
let python;
let stage = 'fetch';
let idle = 0;

/** @param {string} [next] */
function tell(next = stage) {
  stage = next;
  self.postMessage(JSON.stringify({ v: 1, stage, ms: Math.round(performance.now() - begun) }));
}

async function start() {
  const beat = setInterval(tell, 1000);
  tell();
  python = await begin(way, tell, self.name === 'plain');
  clearInterval(beat);
  tell('ready');
  answerAll();
}

function answerAll() {
  clearTimeout(idle);
  for (const [key, text] of python ? asked : []) {
    asked.delete(key);
    self.postMessage(python?.handle(text));
  }
  idle = setTimeout(() => python?.keep(), 3000);
}

self.onmessage = ({ data: text }) => {
  const { worksheet, convert, share, open, part, line, figure, ident } = JSON.parse(text);
  asked.set(worksheet ?? [convert, share, open, part, line, figure, ident].join(), text);
  setTimeout(answerAll); // an ask that waits behind this one replaces it first
};

start().catch((error) => self.postMessage(JSON.stringify({ v: 1, fault: String(error) })));
