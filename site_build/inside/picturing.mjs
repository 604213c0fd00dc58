/**
 * Starts Python from the two zips that `trim.mjs` wrote, uses the package, and writes what a browser needs to go on from
 * there: a picture of the memory, and the WebAssembly without the code that nothing reaches from then on. What all of
 * `asking.asks()` reaches is found by running it; how both are used is in `web/picture.js`. Called by `trimming.py` with
 * the folders of Pyodide, of the zips, and of the scripts that run inside.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { PAGE, asked, awaited, head } from '../web/picture.js';
import { unpack } from '../web/unpack.js';
import { needed, shortened } from './naming.mjs';
import { reached } from './reaching.mjs';
import { counted, lean, slim, wanted, watched } from './wasm.mjs';

process.on('uncaughtException', ({ message }) => { // alone: without it Node prints Pyodide's one long line
  console.error(message);
  process.exit(1);
});
const [, , runtime = '', folder = '', scripts = '', parser = ''] = process.argv;
const { parse } = await import(pathToFileURL(join(parser, 'dist/acorn.mjs')).href);
// the same commit makes the same picture, on whatever machine and day
process.argv[1] = 'python';
globalThis.Date = class extends Date {
  static now = () => 0;

  /** @param {[]} given */
  constructor(...given) {
    super(...(given.length ? given : /** @type {any} */ ([0])));
  }
};
performance.now = () => 0;
crypto.getRandomValues = (/** @type {any} */ array) => array.fill(0);
const { loadPyodide } = await import(pathToFileURL(join(runtime, 'pyodide.mjs')).href);
const published = readFileSync(join(runtime, 'pyodide.asm.wasm'));
const glue = readFileSync(join(runtime, 'pyodide.asm.mjs'), 'utf8');
const usual = WebAssembly.instantiate;
let script = await import(pathToFileURL(join(runtime, 'pyodide.asm.mjs')).href);
const PAGE_BYTES = 65536;
const PLACE = 96 * 1024 * 1024; // far above what Python uses
const EMPTY_ZIP = join(folder, 'empty.zip');
writeFileSync(EMPTY_ZIP, Buffer.from('UEsFBgAAAAAAAAAAAAAAAAAAAAAAAA==', 'base64'));

/**
 * Start Python.
 * @param {Uint8Array} module @param {object} options
 * @param {(memory: WebAssembly.Memory) => void} [made] sees the memory before anything runs
 * @returns {Promise<any>}
 */
async function begun(module, options, made = () => {}) {
  /** @type {any} */ (WebAssembly).instantiate = async (/** @type {any} */ _, /** @type {any} */ imports) => {
    WebAssembly.instantiate = usual;
    const whole = await WebAssembly.instantiate(module, imports);
    made(/** @type {WebAssembly.Memory} */ (whole.instance.exports.memory));
    return whole;
  };
  return loadPyodide({ indexURL: join(runtime, '/'), createPyodideModule: script.default, ...options });
}

/** @param {Uint8Array} module @param {Uint8Array} snapshot @param {(memory: WebAssembly.Memory) => void} [made] */
function resumed(module, snapshot, made) {
  return begun(module, { stdLibURL: EMPTY_ZIP, _loadSnapshot: snapshot }, made);
}

/** All from the zips, then everything used once. @param {Uint8Array} module */
async function settled(module) {
  const python = await begun(module, { stdLibURL: join(folder, 'library.zip'), _makeSnapshot: true, env: { PYTHONHASHSEED: '0' } });
  unpack(python.FS, readFileSync(join(folder, 'package.zip')), '/package');
  python.FS.mkdirTree('/build/site_build/inside');
  python.FS.writeFile('/build/site_build/inside/using.py', readFileSync(join(scripts, 'using.py')));
  python.runPython(readFileSync(join(scripts, 'settling.py'), 'utf8'));
  clear(python._module);
  return python;
}

/**
 * Write noughts over what was given back: the allocator (dlmalloc) keeps the length of each piece before it, whether
 * it is used in the second bit of that, and of a free one what it needs in the first words.
 * @param {any} module Emscripten's
 */
function clear(module) {
  const words = new Uint32Array(module.HEAPU8.buffer);
  const end = module._sbrk(0);
  let at = module.___heap_base;
  while (at < end) {
    const told = words[at / 4 + 1] ?? 0;
    const length = told & ~7;
    if (length < 16 || at + length > end) throw new Error('the memory is not laid out as it was: see whether `clear` is still right');
    if (!(told & 2)) words.fill(0, at / 4 + (length < 256 ? 4 : 8), (at + length) / 4);
    at += length;
  }
}

/** @param {any} python @param {string[]} asks @returns {string[]} */
function answers(python, asks) {
  const handle = python.globals.get('handle');
  return asks.map((text) => handle(text));
}

// all is used, and asked, in a module that tells which code that takes
const count = counted(published);
const seen = watched(published, PLACE, Math.ceil((PLACE + count) / PAGE_BYTES));
/** @param {any} python @returns {number[]} the functions called since the last time */
const called = (python) => {
  const marks = python._module.HEAPU8.subarray(PLACE, PLACE + count);
  const found = [...marks.keys()].filter((nth) => marks[nth]);
  marks.fill(0);
  return found;
};
const python = await settled(seen);
const first = python.makeMemorySnapshot().subarray(0, PLACE); // without the marks
const before = called(python);
const later = await resumed(seen, first);
python.FS.writeFile('/asking.py', readFileSync(join(scripts, 'asking.py')));
const asks = JSON.parse(python.runPython('import sys\nsys.path.append("/")\nimport asking\nasking.asks()'));
const expected = answers(later, asks);
const used = called(later);

// the picture is of a module without the names that nobody asks for, since functions get their addresses by these
const loader = readFileSync(join(runtime, 'pyodide.mjs'), 'utf8');
const named = slim(published, [...before, ...used], needed(glue + loader));
const compiled = new WebAssembly.Module(named);
const short = shortened(glue, new Set(WebAssembly.Module.exports(compiled).map(({ name }) => name)));
const imports = new Set(WebAssembly.Module.imports(compiled).filter(({ kind }) => kind === 'function').map(({ name }) => name));
writeFileSync(join(folder, 'python.mjs'), reached(short, imports, wanted(named, [...before, ...used]), [loader], parse));
script = await import(pathToFileURL(join(folder, 'python.mjs')).href);
const whole = (await settled(named)).makeMemorySnapshot();
const module = lean(named, used, Math.floor(whole.length / PAGE_BYTES));
const kept = await differing();
const { picture, arrived } = awaited(head(kept).length);
const quick = await resumed(module, picture, (memory) => arrived(kept, memory));
const wrong = answers(quick, asks).findIndex((text, nth) => text !== expected[nth]);
if (wrong >= 0) throw new Error(`the picture of the memory answers otherwise: ${asks[wrong]}`);
writeFileSync(join(folder, 'memory'), kept);
writeFileSync(join(folder, 'python.wasm'), module);

/**
 * The pages of the memory that are not as the WebAssembly lays them out, or that it has changed by the time when
 * Pyodide puts a picture over them. @returns {Promise<Uint8Array>} as `web/picture.js` has it
 */
async function differing() {
  const before = head(whole);
  const memory = whole.subarray(before.length);
  /** @type {number[]} */
  const found = [];
  /** @type {Uint8Array} */
  let fresh;
  /** @type {WebAssembly.Memory} */
  let held;
  const now = () => new Uint8Array(held.buffer);
  const put = () => {
    for (let page = 0; page * PAGE < memory.length; page += 1) {
      const [first, later, wanted] = [fresh, now(), memory].map((each) => Buffer.from(each.buffer, each.byteOffset + page * PAGE, PAGE));
      if (first && later && wanted && !(first.equals(wanted) && later.equals(wanted))) found.push(page);
    }
    now().set(memory);
  };
  await resumed(module, asked(head(whole.slice()), put), (made) => {
    held = made;
    fresh = now().slice();
  });
  const pages = found.map((page) => memory.subarray(page * PAGE, (page + 1) * PAGE));
  return Buffer.concat([before, Buffer.from(Uint32Array.of(found.length, ...found).buffer), ...pages]);
}
