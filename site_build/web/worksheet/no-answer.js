/** Says on a worksheet why there is no answer, and what happens next. @module */

/** @typedef {import('./page.js').Sheet} Sheet */
/** @typedef {'lacks' | 'worker' | 'signal' | 'slow' | 'start' | 'folder' | 'gave-up' | 'ours'} Cause a sentence of `worksheet.html` */

/** @param {string} trouble why Python has not started @returns {Cause} */
function causeOf(trouble) {
  if (/WebAssembly is not/.test(trouble)) return 'lacks';
  if (/^no worker/.test(trouble)) return location.protocol === 'file:' ? 'folder' : 'worker';
  if (/takes long|nothing was heard/.test(trouble)) return 'slow';
  if (/fetch|load failed|network|damaged/i.test(trouble)) return 'signal';
  return location.protocol === 'file:' ? 'folder' : 'start';
}

/** Show one of the sentences, or none. @param {Sheet} sheet @param {Cause | ''} cause @param {object} [report] what to send */
export function explain(sheet, cause, report) {
  sheet.part('.fault').hidden = !cause;
  for (const each of /** @type {NodeListOf<HTMLElement>} */ (sheet.element.querySelectorAll('[data-cause]'))) {
    each.hidden = each.dataset.cause !== cause;
  }
  if (report) sheet.part('.report pre').textContent = JSON.stringify(report, null, 1);
}

/** Say why Python has not started yet; with nothing that it goes on. @param {Sheet} sheet @param {string} trouble */
export function notStarted(sheet, trouble) {
  const { id: worksheet, system } = sheet;
  explain(sheet, trouble ? causeOf(trouble) : '', { fault: trouble, worksheet, system, inputs: sheet.form.read() });
  sheet.old(Boolean(trouble));
  if (trouble) sheet.say('The answer shown is old. The sums have not started.');
  else sheet.element.dataset.state = 'working';
}

/**
 * Name the field that could not be worked out, if it is the only one that changed since an answer.
 * @param {Sheet} sheet @param {Record<string, string>} inputs @param {Record<string, string>} before
 */
export function nameChanged(sheet, inputs, before) {
  const changed = Object.keys(inputs).filter((key) => inputs[key] !== before[key]);
  const [only = ''] = changed;
  const words = changed.length === 1 ? `${sheet.form.label(only)}: “${inputs[only]}”` : 'what is typed';
  sheet.part('[data-cause=gave-up] em').textContent = words;
}
