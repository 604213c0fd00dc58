/** What this reader's browser keeps; a browser that keeps nothing is no fault. @module */

const PREFIX = 'plied-true:';

/** @param {string} name @returns {any} what was kept, or nothing */
export function kept(name) {
  try {
    return JSON.parse(localStorage.getItem(PREFIX + name) ?? 'null');
  } catch {
    return null;
  }
}

/** @param {string} name @param {any} value nothing forgets it */
export function keep(name, value) {
  try {
    if (value === null || value === undefined) localStorage.removeItem(PREFIX + name);
    else localStorage.setItem(PREFIX + name, JSON.stringify(value));
  } catch {
    // full, or not allowed: the page works without
  }
}

/** The units that were chosen, else those of a country whose language the browser speaks. @returns {unknown} */
export const keptUnits = () => kept('units') ?? document.documentElement.dataset.speaks;
