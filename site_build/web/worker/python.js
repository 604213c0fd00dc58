/**
 * Starts Python: from the snapshot of its memory, or plainly from its library and the package. The files are those of
 * `site_build/runtime/bundle.py`. @module
 */
import { RUNTIME } from './runtime-files.js';
import { awaited } from './snapshot.js';
import { unpack } from './unzip.js';

const EMPTY_ZIP = Uint8Array.from([0x50, 0x4b, 5, 6, ...Array(18).fill(0)]);
const IMPORT = 'import sys\nsys.path.insert(0, "/calculations")\nfrom calc.bridge import handle\nhandle';
const WASM = new URL('pyodide.asm.wasm', RUNTIME).href;
const LIBRARY = new URL('library.zip', RUNTIME).href;

/**
 * What is on its way already: Pyodide's module and its two scripts; and the snapshot, or both zips.
 * @typedef {{module: Promise<WebAssembly.Module>, loader: Promise<any>, script: Promise<any>,
 *   snapshot?: Promise<ArrayBuffer>, library?: Promise<ArrayBuffer>, calc?: Promise<ArrayBuffer>}} Way
 */

/**
 * Run Pyodide with what is here already in the place of what it would fetch. It would go on without its WebAssembly
 * where something fails in here, and never come to an end: so that failure ends all of it.
 * @param {Promise<WebAssembly.Module>} module
 * @param {Promise<ArrayBuffer | Uint8Array>} library
 * @param {(exports: any) => Promise<void>} made has its turn before anything runs
 * @param {() => Promise<any>} load
 */
async function handingOver(module, library, made, load) {
  const { fetch } = self;
  const { instantiateStreaming } = WebAssembly;
  /** @type {Promise<never>} */
  const failed = new Promise((_, fail) => {
    self.fetch = async (asked, ...more) => {
      if (String(asked) === WASM) return new Response();
      return String(asked) === LIBRARY ? new Response(/** @type {any} */ (await library)) : fetch(asked, ...more);
    };
    WebAssembly.instantiateStreaming = async (_source, imports) => {
      try {
        const compiled = await module;
        const instance = await WebAssembly.instantiate(compiled, imports);
        await made(instance.exports);
        return { module: compiled, instance };
      } catch (error) {
        fail(error);
        throw error;
      }
    };
    module.catch(fail);
    library.catch(fail);
  });
  try {
    return await Promise.race([failed, load()]);
  } finally {
    self.fetch = fetch;
    WebAssembly.instantiateStreaming = instantiateStreaming;
  }
}

/**
 * @param {Way} way
 * @param {{head: number, lock: object}} start what `manifest.json` holds
 * @returns {Promise<(text: string) => string>} what answers asks
 */
export async function begin({ module, loader, script, snapshot, library, calc }, start) {
  const [{ loadPyodide }, { default: createPyodideModule }] = await Promise.all([loader, script]);
  const options = {
    indexURL: RUNTIME.href,
    packageBaseUrl: RUNTIME.href,
    lockFileContents: JSON.stringify(start.lock),
    stdLibURL: LIBRARY,
    createPyodideModule,
  };
  if (snapshot) {
    const { snapshot: empty, arrived } = awaited(start.head);
    const made = async (/** @type {any} */ exports) => arrived(new Uint8Array(await snapshot), exports);
    const none = Promise.resolve(EMPTY_ZIP);
    const python = await handingOver(module, none, made, () => loadPyodide({ ...options, _loadSnapshot: empty }));
    return python.globals.get('handle');
  }
  if (!library || !calc) throw new Error('nothing to start from');
  const python = await handingOver(module, library, async () => {}, () => loadPyodide(options));
  unpack(python.FS, new Uint8Array(await calc), '/calculations');
  return python.runPython(IMPORT);
}
