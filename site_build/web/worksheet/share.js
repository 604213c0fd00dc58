/** Passing a worksheet on: a link that carries what is typed, the platform's own sharing, paper. @module */

import { opened } from '../active-string.js';

/** @typedef {import('./page.js').Sheet} Sheet */

/** @param {Sheet} sheet */
export function passOn(sheet) {
  const send = sheet.part('.send');
  send.hidden = !('share' in navigator);
  if (location.protocol === 'file:') sheet.part('.copy').hidden = send.hidden = true; // nobody else has this folder there
  sheet.part('.pass-on').hidden = false;
  sheet.part('.print').addEventListener('click', () => print());
  sheet.part('.copy').addEventListener('click', async () => {
    const link = await linkTo(sheet);
    if (!link) return;
    try {
      await navigator.clipboard.writeText(link);
      tell(sheet, 'Copied. Paste it where you write to your club.');
    } catch {
      tell(sheet, 'Copy this link:', link);
    }
  });
  send.addEventListener('click', async () => {
    const link = await linkTo(sheet);
    if (link) await navigator.share({ title: sheet.title, url: link }).catch(() => tell(sheet, 'Not sent.'));
  });
}

/** In a page opened from a folder a link to another page must name its file. @param {Sheet} sheet */
export function linksInFolder(sheet) {
  if (location.protocol !== 'file:') return;
  for (const link of /** @type {NodeListOf<HTMLAnchorElement>} */ (sheet.element.querySelectorAll('.next a'))) {
    link.href = link.href.replace(/\/(#|$)/, '/index.html$1');
  }
}

/** @param {Sheet} sheet */
async function linkTo(sheet) {
  const { state } = sheet.element.dataset;
  const told = { system: sheet.system, inputs: sheet.form.read(), name: opened()?.name ?? '' };
  const reply = await sheet.wait(`share ${sheet.id}`, { share: sheet.id, ...told });
  if (!reply) return '';
  if (state && sheet.element.dataset.state === 'working') sheet.element.dataset.state = state;
  if (reply.fragment) return `${location.origin}${location.pathname}#${reply.fragment}`;
  tell(sheet, reply.errors?.[0]?.text ?? 'No link could be made of this.');
  return '';
}

/** @param {Sheet} sheet @param {string} words @param {string} [link] to mark and copy by hand */
function tell(sheet, words, link) {
  const shown = Object.assign(document.createElement('input'), { className: 'typed', readOnly: true, value: link ?? '' });
  shown.setAttribute('aria-label', 'Link');
  sheet.part('.passed').replaceChildren(words, ...(link ? [shown] : []));
  if (link) shown.select();
}
