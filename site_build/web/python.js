/**
 * Starts Python: from the snapshot of its memory, or plainly from the files, where that did not work. The files are those
 * of `site_build/runtime.py`. @module
 */
import { awaited } from './snapshot.js';
import { unpack } from './unpack.js';

const EMPTY_ZIP = 'data:application/zip;base64,UEsFBgAAAAAAAAAAAAAAAAAAAAAAAA==';
const IMPORT = 'import sys\nsys.path.insert(0, "/calculations")\nfrom calc.bridge import handle\nhandle';

/**
 * What `manifest.json` holds.
 * @typedef {{calc: string, library: string, wasm: string, script: string, snapshot: string, sum: string, integrity: string,
 *   head: number, lock: object}} Start
 */
/**
 * What is on its way already; with the snapshot of the memory, if that is to be used.
 * @typedef {{runtime: URL, start: Start, compiled: Promise<WebAssembly.Module>, snapshot?: Promise<ArrayBuffer>,
 *   glue: Promise<any>, script: Promise<any>}} Way
 */

/** @param {Response | Promise<Response>} asked */
export async function whole(asked) {
  const response = await asked;
  if (!response.ok) throw new Error(`${response.url} could not be fetched: ${response.status}`);
  return response;
}

/**
 * Hand out the WebAssembly that is compiling since the first lines, in the place of what Pyodide would fetch. Pyodide
 * would go on without it where something fails here, and never come to an end: so what is returned fails as well.
 * @param {Promise<WebAssembly.Module>} compiled
 * @param {string} address where Pyodide looks for it
 * @param {(exports: any) => Promise<void>} [made] has its turn before anything runs
 * @returns {Promise<never>}
 */
function handOver(compiled, address, made = async () => {}) {
  const { fetch } = self;
  const { instantiateStreaming } = WebAssembly;
  self.fetch = async (asked, ...more) => (String(asked) === address ? new Response() : fetch(asked, ...more));
  return new Promise((_, fail) => {
    compiled.catch(fail);
    WebAssembly.instantiateStreaming = async (_source, imports) => {
      self.fetch = fetch;
      WebAssembly.instantiateStreaming = instantiateStreaming;
      try {
        const module = await compiled;
        const instance = await WebAssembly.instantiate(module, imports);
        await made(instance.exports);
        return { module, instance };
      } catch (error) {
        fail(error);
        throw error;
      }
    };
  });
}

/**
 * @param {Way} way
 * @param {(stage: string) => void} tell how far it is
 * @returns {Promise<(text: string) => string>} what answers asks
 */
export async function begin({ runtime, start, compiled, snapshot, glue, script }, tell) {
  const { loadPyodide } = await glue;
  const options = {
    indexURL: runtime.href,
    packageBaseUrl: runtime.href,
    lockFileContents: JSON.stringify(start.lock),
    createPyodideModule: (await script).default,
  };
  const address = new URL('pyodide.asm.wasm', runtime).href;
  if (snapshot) {
    const { snapshot: empty, arrived } = awaited(start.head);
    const failed = handOver(compiled, address, async (exports) => arrived(new Uint8Array(await snapshot), exports));
    tell('compile');
    const python = await Promise.race([failed, loadPyodide({ ...options, stdLibURL: EMPTY_ZIP, _loadSnapshot: empty })]);
    return python.globals.get('handle');
  }
  const failed = handOver(compiled, address);
  const { calc, library } = start;
  const archive = whole(fetch(new URL(calc, runtime))).then((found) => found.arrayBuffer());
  tell('compile');
  const python = await Promise.race([failed, loadPyodide({ ...options, stdLibURL: new URL(library, runtime).href })]);
  tell('import');
  unpack(python.FS, new Uint8Array(await archive), '/calculations');
  return python.runPython(IMPORT);
}
