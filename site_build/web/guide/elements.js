/** Small parts that making along is built of. @module */

/** @param {string} tag @param {string} name of its class @param {string} [text] */
export function made(tag, name, text = '') {
  return Object.assign(document.createElement(tag), { className: name, textContent: text });
}

/** @param {string} name @param {string} text @param {() => void} press */
export function button(name, text, press) {
  const element = /** @type {HTMLButtonElement} */ (made('button', name, text));
  element.type = 'button';
  element.addEventListener('click', press);
  return element;
}
