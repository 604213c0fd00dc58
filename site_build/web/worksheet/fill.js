/**
 * Fills the slots of a page with data: in the browser, and at the build, where `slots.py` runs it.
 *
 * - `data-text="a.b"`: the text at this path, `this` being the item itself; an element without text is hidden.
 * - `data-said="a"`: the same, with fractions set as fractions, and a number on one line with its unit.
 * - `data-svg="a"`: a drawing, as markup.
 * - `data-show="a=b"`: shown only where the text at `a` is `b`; `a!=b` where it is not.
 * - `data-set="name:a other:b"`: attributes with the texts at `a` and `b`.
 * - `data-each="a"`: one copy of the `<template>` inside for each item at `a`, of those with `data-where="b=c"`.
 * @module
 */

/** What stands at a dotted path, or the empty text. @param {any} data @param {string} path @returns {any} */
const at = (data, path) => (path === 'this' ? data : path.split('.').reduce((found, step) => found?.[step] ?? '', data));

/** @param {string} condition @param {any} data */
function holds(condition, data) {
  const [path = '', wanted] = condition.split('=');
  return (String(at(data, path.replace('!', ''))) === wanted) !== path.endsWith('!');
}

/** What is kept on the line of the number before it; longer ones first. */
const UNITS =
  'turns/in|strands|turns/m|bundles|strand|bundle|ft·lb|times|turns|ft/s|turn|m/s|tex|yd|gr|in|kN|Hz|kg|lb|mm|oz|°C|°F|J|N|g|h|m|s';
const FRACTION = `((?:\\b[0-9]+ )?)\\b([0-9]+)/([0-9]+)\\b((?: (?:${UNITS})(?!\\w))?)`;
const AMOUNT = new RegExp(`${FRACTION}|\\b([0-9]+(?:[.,][0-9]+)* (?:${UNITS})(?!\\w))`, 'g');

/** Text with its fractions set, each number on one line with its unit. @param {HTMLElement} slot @param {string} text */
function setAmounts(slot, text) {
  const marked = text.replace(/[&<>]/g, (sign) => `&#${sign.charCodeAt(0)};`);
  slot.innerHTML = marked.replace(AMOUNT, (_, whole, above, below, unit, plain) => (plain
    ? `<span class="amount">${plain}</span>`
    : `<span class="fraction">${whole}<sup>${above}</sup>\u2044<sub>${below}</sub>${unit}</span>`));
  slot.hidden = !text;
}

/** @param {HTMLElement} list @param {any} data */
function repeat(list, data) {
  const template = /** @type {HTMLTemplateElement} */ (list.firstElementChild);
  while (template.nextSibling) template.nextSibling.remove();
  const { each = '', where } = list.dataset;
  for (const item of at(data, each)) {
    if (where && !holds(where, item)) continue;
    const copy = /** @type {DocumentFragment} */ (template.content.cloneNode(true));
    fill(copy, item);
    list.append(copy);
  }
  list.normalize();
  list.hidden = !template.nextSibling;
}

/** Fill every slot below a node. @param {ParentNode} root @param {any} data */
export function fill(root, data) {
  /** @param {string} name @param {(slot: HTMLElement, value: string) => void} put */
  const each = (name, put) => {
    const all = [.../** @type {NodeListOf<HTMLElement>} */ (root.querySelectorAll(`[data-${name}]`))];
    const own = all.filter((slot) => !root.contains(slot.parentElement?.closest('[data-each]') ?? null));
    for (const slot of own) put(slot, slot.dataset[name] ?? '');
  };
  each('each', (slot) => repeat(slot, data));
  each('text', (slot, path) => {
    slot.textContent = String(at(data, path));
    slot.hidden = !slot.textContent;
  });
  each('said', (slot, path) => setAmounts(slot, String(at(data, path))));
  each('svg', (slot, path) => (slot.innerHTML = at(data, path)));
  each('show', (slot, condition) => (slot.hidden = !holds(condition, data)));
  each('set', (slot, pairs) => {
    for (const [name = '', path = ''] of pairs.split(' ').map((pair) => pair.split(':'))) slot.setAttribute(name, String(at(data, path)));
  });
}
