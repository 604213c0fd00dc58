/**
 * Brings the files of Python's runtime: from where `sw.js` keeps them on this device, else fetched and held to the hash
 * that the build wrote, since a wrong byte could make a wrong number. What comes damaged is fetched once more, past what
 * the browser had at hand. How they are named is said in `site_build/runtime/bundle.py`.
 * @module
 */

export const RUNTIME = new URL('../runtime/', import.meta.url);
const HASH = /-([0-9a-f]{16})\./;

/** What is still to come, and how much came: by this a page tells a slow connection from one that brings nothing. */
export const coming = { files: 0, bytes: 0, changed: () => {} };

/** @param {string} name @returns {Promise<Response | undefined>} */
async function kept(name) {
  const { href } = new URL(name, RUNTIME);
  return Promise.resolve(self.caches?.match(`${href}?kept=${HASH.exec(name)?.[1]}`)).catch(() => undefined);
}

/** @param {string} name @param {RequestInit} how @returns {Promise<Response>} */
async function fetched(name, how) {
  const response = await fetch(new URL(name, RUNTIME), how);
  if (!response.ok) throw new Error(`${name} could not be fetched: ${response.status}`);
  return response;
}

/** Read to the end, and count. @param {Response} response @returns {Promise<ArrayBuffer>} */
async function read(response) {
  const counted = new TransformStream({
    transform(chunk, out) {
      coming.bytes += chunk.length;
      out.enqueue(chunk);
    },
  });
  return new Response(response.body?.pipeThrough(counted)).arrayBuffer();
}

/** @param {string} name @param {ArrayBuffer} bytes @param {string} integrity */
async function check(name, bytes, integrity) {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  if (integrity !== `sha256-${btoa(String.fromCharCode(...digest))}`) throw new Error(`${name} came damaged`);
}

/**
 * Use a file that may be used before all of it is here; what comes of it counts only if all of it is as it was built.
 * @template T @param {string} name @param {string} integrity
 * @param {(response: Response) => Promise<T>} use @param {RequestInit} [how] @returns {Promise<T>}
 */
async function checked(name, integrity, use, how) {
  coming.files += 1;
  try {
    if (!self.crypto.subtle) return use(await fetched(name, { ...how, integrity })); // not without TLS: the browser checks it
    const response = await fetched(name, { ...how });
    const copy = read(response.clone());
    return (await Promise.all([use(response), copy.then((bytes) => check(name, bytes, integrity))]))[0];
  } finally {
    coming.files -= 1;
    coming.changed();
  }
}

/** @param {string} name @param {string} integrity @returns {Promise<ArrayBuffer>} */
export async function bytesOf(name, integrity) {
  const here = await kept(name);
  const use = (/** @type {Response} */ response) => response.arrayBuffer();
  return here ? use(here) : checked(name, integrity, use).catch(() => checked(name, integrity, use, { cache: 'reload' }));
}

/** @param {string} name @param {string} integrity @returns {Promise<WebAssembly.Module>} compiled while it comes */
export async function moduleOf(name, integrity) {
  const here = await kept(name);
  if (here) return WebAssembly.compileStreaming(here);
  const bytes = (/** @type {Response} */ response) => response.arrayBuffer();
  return checked(name, integrity, (response) => WebAssembly.compileStreaming(response))
    .catch(async () => WebAssembly.compile(await checked(name, integrity, bytes, { cache: 'reload' })));
}

/** @param {string} name @param {string} integrity @returns {Promise<any>} what a script exports */
export async function scriptOf(name, integrity) {
  const bytes = await bytesOf(name, integrity);
  const { FOLDER } = /** @type {any} */ (self); // the folder to carry, see `folder-worker.js`
  return FOLDER ? FOLDER.run(new TextDecoder().decode(bytes)) : import(URL.createObjectURL(new Blob([bytes], { type: 'text/javascript' })));
}
