/**
 * Starts Python from the two zips that `trim.mjs` wrote, uses the package, and writes a snapshot of the memory: a
 * browser goes on from there (`web/worker/snapshot.js`). Pyodide's WebAssembly and script stay as they are published. Called
 * by `snapshot.py` with the folders of Pyodide, of the zips, and of the scripts that run inside.
 */
import nodeCrypto from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { PAGE, awaited, headOf, lengthened } from '../../web/worker/snapshot.js';
import { unpack } from '../../web/worker/unzip.js';

process.on('uncaughtException', ({ message }) => { // alone: without it Node prints Pyodide's one long line
  console.error(message);
  process.exit(1);
});
const [, , runtime = '', folder = '', scripts = ''] = process.argv;
// the same commit makes the same snapshot, on whatever machine and day
process.argv[1] = 'python';
globalThis.Date = class extends Date {
  static now = () => 0;

  /** @param {[]} given */
  constructor(...given) {
    super(...(given.length ? given : /** @type {any} */ ([0])));
  }
};
performance.now = () => 0;
crypto.getRandomValues = nodeCrypto.randomFillSync = (/** @type {any} */ array) => array.fill(0);
const { loadPyodide } = await import(pathToFileURL(join(runtime, 'pyodide.mjs')).href);
const ASK = '{"v": 1, "id": 1, "worksheet": "string", "system": "inch", "inputs": {}}';
const EMPTY_ZIP = join(folder, 'empty.zip');
writeFileSync(EMPTY_ZIP, Buffer.from('UEsFBgAAAAAAAAAAAAAAAAAAAAAAAA==', 'base64'));

/** All from the zips, then everything used once. @returns {Promise<any>} Python */
async function used() {
  const options = { stdLibURL: join(folder, 'library.zip'), _makeSnapshot: true, env: { PYTHONHASHSEED: '0' } };
  const python = await loadPyodide({ indexURL: join(runtime, '/'), ...options });
  unpack(python.FS, readFileSync(join(folder, 'package.zip')), '/package');
  python.FS.mkdirTree('/build/site_build/runtime/in_pyodide');
  for (const name of ['lines.py', 'using.py']) {
    python.FS.writeFile(`/build/site_build/runtime/in_pyodide/${name}`, readFileSync(join(scripts, name)));
  }
  python.runPython(readFileSync(join(scripts, 'before_snapshot.py'), 'utf8'));
  clearFree(python._module);
  return python;
}

/**
 * Write zeros over free memory, so that it compresses: the allocator (dlmalloc) keeps the length of each piece before
 * it, whether it is used in the second bit of that, and of a free one what it needs in the first words.
 * @param {any} module Emscripten's
 */
function clearFree(module) {
  const words = new Uint32Array(module.HEAPU8.buffer);
  const end = module._sbrk(0);
  let at = module.___heap_base;
  while (at < end) {
    const told = words[at / 4 + 1] ?? 0;
    const length = told & ~7;
    if (length < 16 || at + length > end) throw new Error('the memory is not laid out as it was: see whether `clearFree` is still right');
    if (!(told & 2)) words.fill(0, at / 4 + (length < 256 ? 4 : 8), (at + length) / 4);
    at += length;
  }
}

/**
 * Start Python from a snapshot.
 * @param {Uint8Array} snapshot @param {(exports: any) => void} seen has its turn before anything runs @returns {Promise<any>}
 */
function begun(snapshot, seen) {
  const { instantiate } = WebAssembly;
  /** @type {any} */ (WebAssembly).instantiate = async (/** @type {any} */ bytes, /** @type {any} */ imports) => {
    WebAssembly.instantiate = instantiate;
    const made = /** @type {any} */ (await instantiate(bytes, imports));
    seen(made.instance.exports);
    return made;
  };
  return loadPyodide({ indexURL: join(runtime, '/'), stdLibURL: EMPTY_ZIP, _loadSnapshot: snapshot });
}

/**
 * The snapshot as `web/worker/snapshot.js` reads it: only the pages that are not as the WebAssembly lays them out.
 * @param {Uint8Array} whole as Pyodide makes it @param {Uint8Array} fresh memory
 */
function differing(whole, fresh) {
  const head = headOf(whole);
  const memory = whole.subarray(head.length);
  const page = (/** @type {Uint8Array} */ bytes, /** @type {number} */ nth) => Buffer.from(bytes.subarray(nth * PAGE, (nth + 1) * PAGE));
  const none = Buffer.alloc(PAGE);
  const count = memory.length / PAGE;
  const before = Array.from({ length: count }, (_, nth) => (nth * PAGE < fresh.length ? page(fresh, nth) : none));
  const laid = (before.findLastIndex((each) => !each.equals(none)) + 1) * PAGE;
  const found = before.flatMap((each, nth) => (each.equals(page(memory, nth)) ? [] : [nth]));
  const told = Uint32Array.of(memory.length, laid, found.length, ...found);
  const stored = found.map((nth) => page(memory, nth).map((byte, at) => byte ^ (before[nth]?.[at] ?? 0)));
  return Buffer.concat([head, Buffer.from(told.buffer), ...stored]);
}

const python = await used();
const whole = python.makeMemorySnapshot();
let fresh = new Uint8Array();
await begun(whole.slice(), ({ memory }) => {
  fresh = new Uint8Array(memory.buffer.slice(0));
  lengthened(memory, whole.length - headOf(whole).length); // Pyodide does not, where the memory grew before it was kept
});
const kept = differing(whole, fresh);

// as a page does it
const { snapshot, arrived } = awaited(headOf(whole).length);
const resumed = await begun(snapshot, (exports) => arrived(kept, exports));
const [one, other] = [python, resumed].map((each) => each.globals.get('handle')(ASK));
if (one !== other) throw new Error('from its snapshot Python answers otherwise than before: see whether `web/worker/snapshot.js` is still right');
writeFileSync(join(folder, 'snapshot'), kept);
