/** Fills the slots of a page with data, by the rules that `slots.py` writes down. @module */

/** What stands at a dotted path, or the empty text. @param {any} data @param {string} path @returns {any} */
const at = (data, path) => (path === 'this' ? data : path.split('.').reduce((found, step) => found?.[step] ?? '', data));

/** @param {string} condition @param {any} data */
function holds(condition, data) {
  const [path = '', wanted] = condition.split('=');
  return (String(at(data, path.replace('!', ''))) === wanted) !== path.endsWith('!');
}

/** Text with its fractions set. @param {HTMLElement} slot @param {string} text */
function setFractions(slot, text) {
  const marked = text.replace(/[&<>]/g, (sign) => `&#${sign.charCodeAt(0)};`);
  const fraction = /((?:\b[0-9]+ )?)\b([0-9]+)\/([0-9]+)\b((?: in\b)?)/g;
  slot.innerHTML = marked.replace(fraction, '<span class="fraction">$1<sup>$2</sup>\u2044<sub>$3</sub>$4</span>');
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
  each('said', (slot, path) => setFractions(slot, String(at(data, path))));
  each('svg', (slot, path) => (slot.innerHTML = at(data, path)));
  each('show', (slot, condition) => (slot.hidden = !holds(condition, data)));
  each('set', (slot, pairs) => {
    for (const [name = '', path = ''] of pairs.split(' ').map((pair) => pair.split(':'))) slot.setAttribute(name, String(at(data, path)));
  });
}
