/**
 * Starts Python: from the picture of its memory, or plainly from the files, where that did not work. The files are those
 * of `site_build/runtime.py`. @module
 */
import { awaited } from './picture.js';
import { unpack } from './unpack.js';

const EMPTY_ZIP = 'data:application/zip;base64,UEsFBgAAAAAAAAAAAAAAAAAAAAAAAA==';
const IMPORT = 'import sys\nsys.path.insert(0, "/calculations")\nfrom calc.bridge import handle\nhandle';

/**
 * What `manifest.json` holds.
 * @typedef {{calc: string, library: string, wasm: string, script: string, memory: string, sum: string, integrity: string,
 *   head: number, lock: object}} Start
 */
/**
 * What is on its way already; with the picture of the memory, if that is to be used.
 * @typedef {{runtime: URL, start: Start, compiled: Promise<WebAssembly.Module>, memory?: Promise<ArrayBuffer>,
 *   glue: Promise<any>, script: Promise<any>}} Way
 */

/** @param {Response | Promise<Response>} asked */
export async function whole(asked) {
  const response = await asked;
  if (!response.ok) throw new Error(`${response.url} could not be fetched: ${response.status}`);
  return response;
}

/**
 * Hand out the WebAssembly that is compiling since the first lines, in the place of what Pyodide would fetch.
 * @param {Promise<WebAssembly.Module>} compiled
 * @param {string} address where Pyodide looks for it
 * @param {(memory: WebAssembly.Memory) => Promise<void>} [made] has its turn before anything runs
 */
function handOver(compiled, address, made = async () => {}) {
  const { fetch } = self;
  const { instantiateStreaming } = WebAssembly;
  self.fetch = async (asked, ...more) => (String(asked) === address ? new Response() : fetch(asked, ...more));
  WebAssembly.instantiateStreaming = async (_source, imports) => {
    self.fetch = fetch;
    WebAssembly.instantiateStreaming = instantiateStreaming;
    const module = await compiled;
    const instance = await WebAssembly.instantiate(module, imports);
    await made(/** @type {WebAssembly.Memory} */ (instance.exports.memory));
    return { module, instance };
  };
}

/** Settles only when one of these fails, as it does. @param {Promise<any>[]} all @returns {Promise<any>} */
async function failed(...all) {
  await Promise.all(all);
  return new Promise(() => {});
}

/**
 * @param {Way} way
 * @param {(stage: string) => void} tell how far it is
 * @returns {Promise<(text: string) => string>} what answers asks
 */
export async function begin({ runtime, start, compiled, memory, glue, script }, tell) {
  const { loadPyodide } = await glue;
  const options = {
    indexURL: runtime.href,
    packageBaseUrl: runtime.href,
    lockFileContents: JSON.stringify(start.lock),
    createPyodideModule: (await script).default,
  };
  const address = new URL('pyodide.asm.wasm', runtime).href;
  if (memory) {
    const { picture, arrived } = awaited(start.head);
    handOver(compiled, address, async (place) => arrived(new Uint8Array(await memory), place));
    tell('compile');
    const python = await Promise.race([
      loadPyodide({ ...options, stdLibURL: EMPTY_ZIP, _loadSnapshot: picture }),
      failed(compiled, memory), // Pyodide would go on without them, and never come to an end
    ]);
    return python.globals.get('handle');
  }
  handOver(compiled, address);
  const { calc, library } = await (await whole(fetch(new URL('manifest.json', runtime)))).json();
  const archive = whole(fetch(new URL(calc, runtime))).then((found) => found.arrayBuffer());
  tell('compile');
  const python = await loadPyodide({ ...options, stdLibURL: new URL(library, runtime).href });
  tell('import');
  unpack(python.FS, new Uint8Array(await archive), '/calculations');
  return python.runPython(IMPORT);
}
