/** Long lists: worked out a few lines at a time, with a bar and a way to stop; one line opened on its own sheet. @module */

import { openFromClub } from '../active-string.js';

/** @typedef {import('./page.js').Sheet} Sheet */

const AT_ONCE = 10;

/**
 * Work out a list's lines ahead of its answer. @param {Sheet} sheet @param {Record<string, string>} inputs
 * @returns {Promise<boolean>} whether the answer is still wanted
 */
export async function workAhead(sheet, inputs) {
  const box = sheet.part('.progress');
  const bar = /** @type {HTMLProgressElement} */ (sheet.part('progress'));
  const stop = sheet.part('.stop');
  let stopped = false;
  stop.onclick = () => (stopped = true);
  try {
    for (let from = 0, of = 1; from < of; ) {
      const ask = { part: sheet.id, system: sheet.system, inputs, from, to: from + AT_ONCE };
      const reply = await sheet.wait(`part ${sheet.id}`, ask);
      if (!reply) return false;
      if (!reply.of) return true;
      from = reply.done ?? 0;
      of = reply.of;
      box.hidden = of <= AT_ONCE;
      bar.max = of;
      bar.value = from;
      if (stopped) {
        sheet.old();
        sheet.say(`Stopped after ${from} of ${of} lines. The answer shown is old; press Calculate to go on.`);
        return false;
      }
    }
    return true;
  } finally {
    box.hidden = true;
  }
}

/** Let each line of a list's cards open its own sheet. @param {Sheet} sheet */
export function openable(sheet) {
  for (const row of /** @type {NodeListOf<HTMLElement>} */ (sheet.element.querySelectorAll('[data-table=cards] tbody tr'))) {
    const name = row.querySelector('td');
    if (!name || name.querySelector('button')) continue;
    const look = { type: 'button', className: 'line', textContent: name.textContent };
    const button = Object.assign(document.createElement('button'), look);
    const lines = () => [...(row.parentElement?.children ?? [])].filter(({ tagName }) => tagName === 'TR');
    button.addEventListener('click', () => open(sheet, lines().indexOf(row)));
    name.replaceChildren(button);
  }
}

/** @param {Sheet} sheet @param {number} at */
async function open(sheet, at) {
  const reply = await sheet.wait(`line ${sheet.id}`, { line: sheet.id, system: sheet.system, inputs: sheet.form.read(), at });
  const page = location.protocol === 'file:' ? 'index.html' : '';
  if (reply?.fragment) openFromClub(reply.fragment);
  if (reply?.fragment) location.assign(new URL(`../${reply.worksheet}/${page}#${reply.fragment}`, location.href));
  else sheet.say(reply?.errors?.[0]?.text ?? 'This line cannot be opened.');
}
