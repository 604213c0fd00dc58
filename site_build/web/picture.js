/**
 * A picture of Python's memory, taken on this device and kept for later visits under the key of what was loaded. About
 * half of the memory's pages hold nothing but noughts: only the others are kept, as they are, since unpacking would take
 * longer than reading. First come two numbers, the bytes of the whole memory and how many pages there are, then where
 * each page belongs, then the pages.
 * @module
 */

const PICTURES = 'plied-true-memory';
const PAGE = 4096;
const WORDS = PAGE / 4;

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
  return kept && { key: request.url.split('/').at(-1), memory: kept.arrayBuffer().then(spread, () => undefined) };
}

/** @param {ArrayBuffer} kept @returns {Uint8Array | undefined} the memory, if all of it is there */
export function spread(kept) {
  const [bytes = 0, count = 0] = new Uint32Array(kept, 0, 2);
  const head = 4 * (2 + count);
  if (!count || kept.byteLength !== head + count * PAGE) return undefined;
  const memory = new Uint8Array(Math.ceil(bytes / PAGE) * PAGE);
  new Uint32Array(kept, 8, count).forEach((page, nth) => {
    memory.set(new Uint8Array(kept, head + nth * PAGE, PAGE), page * PAGE);
  });
  return memory.subarray(0, bytes);
}

/** @param {Uint8Array} memory @returns {Blob} what `spread` reads */
export function gathered(memory) {
  const padded = new Uint8Array(Math.ceil(memory.length / PAGE) * PAGE);
  padded.set(memory);
  const words = new Uint32Array(padded.buffer);
  const full = [];
  for (let page = 0; page * WORDS < words.length; page += 1) {
    if (words.subarray(page * WORDS, (page + 1) * WORDS).some(Boolean)) full.push(page);
  }
  const pages = full.map((page) => padded.subarray(page * PAGE, (page + 1) * PAGE));
  return new Blob([Uint32Array.of(memory.length, full.length, ...full), ...pages]);
}

/**
 * Take a picture of Python's memory with every worksheet used once.
 * @param {any} python @param {string} key
 */
export async function take(python, key) {
  try {
    const cache = await caches.open(PICTURES);
    python.runPython('import gc\nfrom calc.warming import warm\nwarm(1)\ngc.collect()');
    const kept = gathered(python.makeMemorySnapshot());
    await cache.put(`/${key}`, new Response(kept, { headers: { 'content-length': String(kept.size) } }));
  } catch {
    // no room, or not allowed: the next start takes the plain way again
  }
}
