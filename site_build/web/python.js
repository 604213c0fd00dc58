/**
 * Starts Python: from a picture of its memory that this device took on an earlier visit, else from the files. The files
 * are those of `site_build/runtime.py`. @module
 */
import { picture, take } from './picture.js';
import { unpack } from './unpack.js';

const EMPTY_ZIP = 'data:application/zip;base64,UEsFBgAAAAAAAAAAAAAAAAAAAAAAAA==';

/** Nothing that a module makes on its way in is garbage. */
const IMPORT = ['import gc, sys', 'sys.path.insert(0, "/calculations")', 'gc.disable()', 'from calc import bridge', 'gc.enable()',
  'bridge.handle'].join('\n');

/** @typedef {{handle: (text: string) => string, keep: () => Promise<void>}} Python */
/** @typedef {{runtime: URL, compiled: Promise<WebAssembly.Module>, manifest: Promise<Response>, glue: Promise<any>}} Way */

/** @param {Response | Promise<Response>} asked */
async function whole(asked) {
  const response = await asked;
  if (!response.ok) throw new Error(`${response.url} could not be fetched: ${response.status}`);
  return response;
}

/**
 * Hand out the WebAssembly that is compiling since the first lines, whatever address is asked for.
 * @param {Promise<WebAssembly.Module>} compiled
 */
function handOver(compiled) {
  const usual = WebAssembly.instantiateStreaming;
  WebAssembly.instantiateStreaming = async (_source, imports) => {
    WebAssembly.instantiateStreaming = usual;
    const ready = await compiled;
    return { module: ready, instance: await WebAssembly.instantiate(ready, imports) };
  };
}

/**
 * @param {Way} way what is on its way already
 * @param {(stage: string) => void} tell how far it is
 * @param {boolean} plain neither use nor take a picture
 * @returns {Promise<Python>}
 */
export async function begin({ runtime, compiled, manifest, glue }, tell, plain) {
  const kept = picture();
  const { calc, library, key, lock } = await (await whole(manifest)).json();
  const options = { indexURL: runtime.href, packageBaseUrl: runtime.href, lockFileContents: JSON.stringify(lock) };
  const memory = await kept(plain ? '' : key);
  handOver(compiled);
  if (memory) {
    tell('compile');
    const { loadPyodide } = await glue;
    const python = await loadPyodide({ ...options, stdLibURL: EMPTY_ZIP, _loadSnapshot: memory });
    tell('import');
    return { handle: python.runPython('from calc import bridge; bridge.handle'), keep: async () => {} };
  }
  const archive = whole(fetch(new URL(calc, runtime))).then((found) => found.arrayBuffer());
  tell('compile');
  const { loadPyodide } = await glue;
  const stdLibURL = new URL(library, runtime).href;
  const python = await loadPyodide({ ...options, stdLibURL, _makeSnapshot: !plain });
  tell('import');
  unpack(python.FS, new Uint8Array(await archive), '/calculations');
  const handle = python.runPython(IMPORT);
  return { handle, keep: plain ? async () => {} : once(() => take(python, key)) };
}

/** @param {() => Promise<void>} act */
function once(act) {
  let done = false;
  return async () => {
    if (!done) await ((done = true), act());
  };
}
