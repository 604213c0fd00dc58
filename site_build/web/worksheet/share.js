/** Passing a worksheet on: a link that carries what is typed, the platform's own sharing, paper. @module */

import { opened } from '../active-string.js';
import { offerCards, showCode, stringName } from './paper.js';

/** @typedef {import('./page.js').Sheet} Sheet */

/** @param {Sheet} sheet */
export function passOn(sheet) {
  const send = sheet.part('.send');
  send.hidden = !('share' in navigator);
  if (location.protocol === 'file:') sheet.part('.copy').hidden = send.hidden = true; // nobody else has this folder there
  sheet.part('.pass-on').hidden = false;
  sheet.part('.print').addEventListener('click', () => print());
  sheet.part('.code').hidden = location.protocol === 'file:';
  sheet.part('.copy').addEventListener('click', async () => copied(sheet, await linkTo(sheet), 'Copy this link:'));
  sheet.part('.code').addEventListener('click', async () => {
    const link = await linkTo(sheet);
    if (link) await showCode(sheet.part('.code-shown'), link);
  });
  sheet.part('.text').addEventListener('click', async () => {
    const link = location.protocol === 'file:' ? '' : await linkTo(sheet);
    copied(sheet, await textOf(sheet, link), 'Copy this text:');
  });
  offerCards(sheet, () => linkTo(sheet));
  send.addEventListener('click', async () => {
    const link = await linkTo(sheet);
    const text = link && (await textOf(sheet, ''));
    if (text) await navigator.share({ title: sheet.title, text, url: link }).catch(() => tell(sheet, 'Not sent.'));
  });
}

/** In a page opened from a folder a link to another page must name its file. @param {Sheet} sheet */
export function linksInFolder(sheet) {
  if (location.protocol !== 'file:') return;
  for (const link of /** @type {NodeListOf<HTMLAnchorElement>} */ (sheet.element.querySelectorAll('.next a'))) {
    link.href = link.href.replace(/\/(#|$)/, '/index.html$1');
  }
}

/**
 * Put a text where the device keeps what is copied; show it where it will not.
 * @param {Sheet} sheet @param {string} text @param {string} words
 */
async function copied(sheet, text, words) {
  if (!text) return;
  try {
    await navigator.clipboard.writeText(text);
    tell(sheet, 'Copied. Paste it where you write to your club.');
  } catch {
    tell(sheet, words, text);
  }
}

/** @param {Sheet} sheet @param {string} link at the end of the text, or nothing */
async function textOf(sheet, link) {
  const told = { system: sheet.system, inputs: sheet.form.read(), name: stringName(), link };
  const reply = await sheet.wait(`text ${sheet.id}`, { text: sheet.id, ...told });
  sheet.settle();
  if (!reply?.text) tell(sheet, reply?.errors?.[0]?.text ?? 'No text could be made of this.');
  return reply?.text ?? '';
}

/** @param {Sheet} sheet */
async function linkTo(sheet) {
  const told = { system: sheet.system, inputs: sheet.form.read(), name: opened()?.name ?? '' };
  const reply = await sheet.wait(`share ${sheet.id}`, { share: sheet.id, ...told });
  if (!reply) return '';
  sheet.settle();
  if (reply.fragment) return `${location.origin}${location.pathname}#${reply.fragment}`;
  tell(sheet, reply.errors?.[0]?.text ?? 'No link could be made of this.');
  return '';
}

/** @param {Sheet} sheet @param {string} words @param {string} [link] to mark and copy by hand */
function tell(sheet, words, link) {
  const field = document.createElement(link?.includes('\n') ? 'textarea' : 'input');
  const shown = Object.assign(field, { className: 'typed', readOnly: true, value: link ?? '' });
  shown.setAttribute('aria-label', 'To copy');
  sheet.part('.passed').replaceChildren(words, ...(link ? [shown] : []));
  if (link) shown.select();
}
