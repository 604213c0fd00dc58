/** What a reader has set or done, kept on the device; everything works when nothing can be kept. @module */

const PREFIX = 'plied-true:';

/** @param {string} key @returns {string} empty when nothing is kept there, or nothing can be read */
export function kept(key) {
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
  } catch {
    // A private window or a full store: the page goes on without.
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
