/** A picture of Python's memory, taken on this device and kept for later visits under the key of what was loaded. @module */

const PICTURES = 'plied-true-memory';

/**
 * Begin to read the newest picture; older ones go.
 * @returns {(key: string) => Promise<Uint8Array | undefined>} waits for it: nothing if there is none for this key, or it is
 *   not whole, and then there is none for the next start either
 */
export function picture() {
  const found = newest().catch(() => undefined); // nothing may be kept here
  return async (key) => {
    const held = await found;
    const memory = held?.key === key ? await held.memory : undefined;
    if (!memory && held) globalThis.caches.delete(PICTURES).catch(() => {});
    return memory;
  };
}

async function newest() {
  const cache = await caches.open(PICTURES);
  const [request, ...older] = [...(await cache.keys())].reverse();
  for (const each of older) await cache.delete(each);
  const kept = request && (await cache.match(request));
  if (!kept?.body) return undefined;
  const body = kept.body.pipeThrough(new DecompressionStream('gzip'));
  const memory = new Response(body).arrayBuffer().then((bytes) => new Uint8Array(bytes), () => undefined);
  return { key: request.url.split('/').at(-1), memory };
}

/**
 * Take a picture of Python's memory with every worksheet used once.
 * @param {any} python @param {string} key
 */
export async function take(python, key) {
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
