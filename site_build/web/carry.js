/**
 * Carries what a reader has set from worksheet to worksheet: what was typed by the name of its field, and answers that
 * another worksheet asks for under the same name. Kept in this browser only.
 * @module
 */
import { keep, kept } from './store.js';

/** @typedef {{text: string, from: string}} Carried */

/** @returns {Record<string, Carried>} */
const typed = () => kept('typed') ?? {};
/** @returns {Record<string, Carried>} */
const worked = () => kept('worked') ?? {};

/**
 * What is carried for these fields; what was typed goes before what was worked out.
 * @param {string[]} keys @param {string[]} [answered] fields that take no sum of another worksheet
 */
export function carriedFor(keys, answered = []) {
  const sums = Object.entries(worked()).filter(([key, { text }]) => !answered.includes(key) && parseFloat(text) !== 0);
  const all = { ...Object.fromEntries(sums), ...typed() };
  return Object.fromEntries(keys.flatMap((key) => (all[key] ? [[key, all[key]]] : [])));
}

/** @param {string} key @param {string} text with its unit @param {string} from the worksheet's title */
export function carryTyped(key, text, from) {
  keep('typed', { ...typed(), [key]: { text, from } });
}

/** @param {Record<string, string>} results as shown, by key @param {string} from the worksheet's title */
export function carryWorked(results, from) {
  const told = Object.entries(results).map(([key, text]) => [key, { text, from }]);
  keep('worked', { ...worked(), ...Object.fromEntries(told) });
}

/** Forget these fields. @param {string[]} keys */
export function drop(keys) {
  for (const [name, all] of Object.entries({ typed: typed(), worked: worked() })) {
    for (const key of keys) delete all[key];
    keep(name, Object.keys(all).length ? all : null);
  }
}
