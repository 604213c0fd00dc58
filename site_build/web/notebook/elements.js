/** Elements by one call each. @module */

/**
 * @template {keyof HTMLElementTagNameMap} T
 * @param {T} tag @param {Record<string, any>} [properties] `data` and what has a stroke in its name become attributes
 * @param {...(Node | string)} children
 * @returns {HTMLElementTagNameMap[T]}
 */
export function make(tag, properties = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(properties)) {
    if (name.includes('-')) element.setAttribute(name, String(value));
    else /** @type {any} */ (element)[name] = value;
  }
  element.append(...children);
  return element;
}

/** @param {string} words @param {() => void} act @param {string} [className] */
export const button = (words, act, className = 'plain') => make('button', { type: 'button', className, onclick: act }, words);

/** @param {string} words @param {string} to */
export const link = (words, to) => make('a', { href: to }, words);

/** Hand a text to the reader as a file. @param {string} name @param {string} text @param {string} type */
export function save(name, text, type) {
  const url = URL.createObjectURL(new Blob([text], { type }));
  make('a', { href: url, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

/** The day today, as records have it. */
export function today() {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}
