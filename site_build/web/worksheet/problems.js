/** What is wrong with what was typed, listed above the sheet. @module */

/** @typedef {import('./page.js').Sheet} Sheet */
/** @typedef {import('../worker/client.js').Complaint} Complaint */

/** List it where the button was pressed. @param {Sheet} sheet @param {Complaint[]} complaints @param {boolean} go */
export function listProblems(sheet, complaints, go) {
  const box = sheet.part('.problem');
  if (box.hidden && !go) return;
  box.hidden = complaints.length === 0;
  document.title = (box.hidden ? '' : 'Error: ') + document.title.replace(/^Error: /, '');
  sheet.part('.problem-list').replaceChildren(...complaints.map(({ field, text }) => {
    const line = document.createElement('li');
    const goal = { href: `#${sheet.form.control(field)?.id}`, onclick: () => sheet.form.go(field) };
    line.append(Object.assign(document.createElement('a'), goal, { textContent: text }));
    return line;
  }));
  if (go && !box.hidden) box.focus();
}
