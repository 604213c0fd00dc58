/**
 * Asks the same again after an answer. Chromium makes fast code of the WebAssembly where it is used
 * most, and keeps that for later visits only once there is a million bytes of it: one answer takes a quarter of that, so
 * that each visit would make its own. About thirty answers are enough. Other browsers keep none, or keep it anyway.
 * @module
 */

const PAUSE_MS = 1000;
/** Between two asks: a new one of the reader's waits for one at most, and code that is made beside them is done sooner. */
const GAP_MS = 30;
const TIMES = 50;
const ENOUGH_MS = 4000;

/** @param {number} ms @returns {Promise<void>} */
const after = (ms) => new Promise((settle) => setTimeout(settle, ms));

/**
 * Practise once for each browser and each place that the WebAssembly comes from, since code is kept for that place.
 * @param {Cache} cache where this is noted
 * @param {{wasm: string, note: string}} addresses of the WebAssembly, and what every note begins with
 * @param {() => void} ask what was asked last
 */
export async function practise(cache, { wasm, note }, ask) {
  const { brands } = /** @type {any} */ (navigator).userAgentData ?? {};
  if (!brands) return;
  const place = (await cache.match(wasm, { ignoreSearch: true })) ? 'kept' : 'fetched';
  const noted = `${note}?practised=${encodeURIComponent(JSON.stringify([place, brands]))}`;
  if (await cache.match(noted)) return;
  await after(PAUSE_MS);
  for (let times = 0, taken = 0; times < TIMES && taken < ENOUGH_MS; times += 1) {
    await after(GAP_MS);
    const begun = performance.now();
    ask();
    taken += performance.now() - begun;
  }
  await cache.put(noted, new Response());
}
