/** What the notebook's script takes from the script of every page: see `bring.js`. @module */

/** @type {import('./bring.js').Shared} */
export const shared = /** @type {any} */ (window).pliedTrueShared;
export const { client, keep, kept, stayAwake, letSleep, chosen } = shared;
