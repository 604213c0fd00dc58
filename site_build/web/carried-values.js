/**
 * Carries what a reader has set from worksheet to worksheet: what was typed by the name of its field, and answers that
 * another worksheet asks for under the same name. Kept in this browser only, for each string apart; a list of many bows
 * takes nothing from the sheets of one, and gives them nothing.
 * @module
 */
import { keep as keepPlain, kept as keptPlain } from './storage.js';
import { keep, kept } from './active-string.js';

/** @typedef {import('./active-string.js').Carried} Carried */

/** @param {string} apart id of a list of many bows, else nothing @returns {Record<string, Carried>} */
const typed = (apart) => (apart ? keptPlain(`typed:${apart}`) : kept('typed')) ?? {};
/** @param {string} apart @returns {Record<string, Carried>} */
const worked = (apart) => (apart ? {} : kept('worked') ?? {});

/** @param {string} apart @param {Record<string, Carried>} all */
function keepTyped(apart, all) {
  const some = Object.keys(all).length ? all : null;
  if (apart) keepPlain(`typed:${apart}`, some);
  else keep('typed', some);
}

/**
 * What is carried for these fields; what was typed goes before what was worked out.
 * @param {string[]} keys @param {string[]} answered fields that take no sum of another worksheet @param {string} apart
 */
export function carriedFor(keys, answered, apart) {
  const sums = Object.entries(worked(apart)).filter(([key, { text }]) => !answered.includes(key) && parseFloat(text) !== 0);
  const set = typed(apart);
  /** @type {Record<string, Carried & {typed: boolean}>} */
  const all = {};
  for (const [key, each] of sums) all[key] = { ...each, typed: false };
  for (const [key, each] of Object.entries(set)) all[key] = { ...each, typed: true };
  return Object.fromEntries(keys.flatMap((key) => (all[key] ? [[key, all[key]]] : [])));
}

/** @param {string} key @param {string} text with its unit @param {string} from the worksheet's title @param {string} apart */
export function carryTyped(key, text, from, apart) {
  keepTyped(apart, { ...typed(apart), [key]: { text, from } });
}

/**
 * @param {Record<string, string>} results as shown, and texts found out, by key
 * @param {string} from the worksheet's title @param {boolean} sure whether all that matters to them is the reader's own
 */
export function carryWorked(results, from, sure) {
  const told = Object.entries(results).map(([key, text]) => [key, { text, from, sure }]);
  keep('worked', { ...worked(''), ...Object.fromEntries(told) });
}

/** Forget these fields. @param {string[]} keys @param {string} apart */
export function drop(keys, apart) {
  keepTyped(apart, without(typed(apart), keys));
  if (!apart) keep('worked', without(worked(''), keys));
}

/** @param {Record<string, Carried>} all @param {string[]} keys */
function without(all, keys) {
  return Object.fromEntries(Object.entries(all).filter(([key]) => !keys.includes(key)));
}
