/** What a reader has set or done: kept on the device, and where nothing can be kept as long as the page lasts. @module */
import { keep as write, kept as read } from '../storage.js';

/** What could not be kept on the device. @type {Map<string, string>} */
const here = new Map();

/** @param {string} key @returns {string} empty when no text is kept there */
export function kept(key) {
  const found = here.get(key) ?? read(key);
  return typeof found === 'string' ? found : '';
}

/** @param {string} key @param {string} text empty to forget */
export function keep(key, text) {
  here.delete(key);
  write(key, text || null);
  if (kept(key) !== text) here.set(key, text);
}

/** What is kept with names and values, or nothing. @param {string} key @returns {any} */
export function keptObject(key) {
  const found = read(key);
  return typeof found === 'object' && !Array.isArray(found) ? found : null;
}

/** @param {string} key @param {object} value */
export const keepObject = (key, value) => write(key, value);
