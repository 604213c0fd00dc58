/** What a reader has set or done, kept on the device; where nothing can be kept it lasts as long as the page. @module */

const PREFIX = 'plied-true:';
/** What could not be kept on the device. @type {Map<string, string>} */
const here = new Map();

/** @param {string} key @returns {string} empty when nothing is kept there */
export function kept(key) {
  const found = here.get(key);
  if (found !== undefined) return found;
  try {
    return localStorage.getItem(PREFIX + key) ?? '';
  } catch {
    return '';
  }
}

/** @param {string} key @param {string} text empty to forget */
export function keep(key, text) {
  try {
    if (text) localStorage.setItem(PREFIX + key, text);
    else localStorage.removeItem(PREFIX + key);
    here.delete(key);
  } catch {
    here.set(key, text);
  }
}

/** What is kept as JSON, or nothing when it is not what was kept. @param {string} key @returns {any} */
export function keptObject(key) {
  try {
    const found = JSON.parse(kept(key) || 'null');
    return typeof found === 'object' && !Array.isArray(found) ? found : null;
  } catch {
    return null;
  }
}
