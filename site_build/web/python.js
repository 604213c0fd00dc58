/**
 * Starts Python: from a picture of its memory that this device took on an earlier visit, else from the files. The files
 * are those of `site_build/runtime.py`. @module
 */

const runtime = new URL('../runtime/', import.meta.url);
const compiled = WebAssembly.compileStreaming(fetch(new URL('pyodide.asm.wasm', runtime)));
compiled.catch(() => {}); // whoever waits for it hears of it
const manifest = fetched('manifest.json').then((found) => found.json());
const module = manifest.then(({ pyodide }) => import(new URL(pyodide, runtime).href));
const PICTURES = 'plied-true-memory';
const EMPTY_ZIP = 'data:application/zip;base64,UEsFBgAAAAAAAAAAAAAAAAAAAAAAAA==';

/** @typedef {{handle: (text: string) => string, keep: () => Promise<void>}} Python */

/** @param {string} name */
async function fetched(name) {
  const response = await fetch(new URL(name, runtime));
  if (!response.ok) throw new Error(`${name} could not be fetched: ${response.status}`);
  return response;
}

/** Hand out the WebAssembly that is compiling since the first line, whatever address is asked for. */
function handOver() {
  const usual = WebAssembly.instantiateStreaming;
  WebAssembly.instantiateStreaming = async (_source, imports) => {
    WebAssembly.instantiateStreaming = usual;
    const ready = await compiled;
    return { module: ready, instance: await WebAssembly.instantiate(ready, imports) };
  };
}

/** @param {string} key @returns {Promise<Uint8Array | undefined>} */
async function picture(key) {
  try {
    const cache = await caches.open(PICTURES);
    for (const { url } of await cache.keys()) if (!url.endsWith(key)) await cache.delete(url);
    const found = await cache.match(`/${key}`);
    const body = found?.body?.pipeThrough(new DecompressionStream('gzip'));
    return body && new Uint8Array(await new Response(body).arrayBuffer());
  } catch {
    return undefined; // nothing may be kept here, or nothing whole was
  }
}

/**
 * @param {(stage: string) => void} tell how far it is
 * @param {boolean} plain neither use nor take a picture
 * @returns {Promise<Python>}
 */
export async function begin(tell, plain) {
  const { calc, library, key, lock } = await manifest;
  const options = { indexURL: runtime.href, packageBaseUrl: runtime.href, lockFileContents: JSON.stringify(lock) };
  const memory = plain ? undefined : await picture(key);
  if (plain) globalThis.caches?.delete(PICTURES).catch(() => {});
  handOver();
  if (memory) {
    tell('compile');
    const { loadPyodide } = await module;
    const python = await loadPyodide({ ...options, stdLibURL: EMPTY_ZIP, _loadSnapshot: memory });
    tell('import');
    return { handle: python.runPython('from calc import bridge; bridge.handle'), keep: async () => {} };
  }
  const archive = fetched(calc).then((found) => found.arrayBuffer());
  tell('compile');
  const { loadPyodide } = await module;
  const stdLibURL = new URL(library, runtime).href;
  const python = await loadPyodide({ ...options, stdLibURL, _makeSnapshot: !plain });
  tell('import');
  python.unpackArchive(await archive, 'zip', { extractDir: '/calculations' });
  python.runPython('import sys; sys.path.insert(0, "/calculations")');
  tell('import');
  const handle = python.runPython('from calc import bridge; bridge.handle');
  return { handle, keep: plain ? async () => {} : once(() => take(python, key)) };
}

/** @param {() => Promise<void>} act */
function once(act) {
  let done = false;
  return async () => {
    if (!done) await ((done = true), act());
  };
}

/**
 * Take a picture of Python's memory with every worksheet used once, and keep it for later visits.
 * @param {any} python @param {string} key
 */
async function take(python, key) {
  try {
    const cache = await caches.open(PICTURES);
    python.runPython('import gc\nfrom calc.warming import warm\nwarm(1)\ngc.collect()');
    const memory = new Response(python.makeMemorySnapshot());
    const packed = memory.body?.pipeThrough(new CompressionStream('gzip'));
    await cache.put(`/${key}`, new Response(await new Response(packed).blob()));
  } catch {
    // no room, or not allowed: the next start takes the plain way again
  }
}
