/** Reads what is typed in a worksheet's form; writes converted texts and errors into it. @module */

export class Form {
  /** @type {Map<string, HTMLElement>} */
  #fields = new Map();

  /** @param {HTMLFormElement} element */
  constructor(element) {
    this.element = element;
    for (const field of /** @type {NodeListOf<HTMLElement>} */ (element.querySelectorAll('[data-field]'))) {
      this.#fields.set(field.dataset.field ?? '', field);
    }
  }

  /** What is typed and chosen, by field; a tip's size follows its shape, unless a shape is typed with it. */
  read() {
    const said = new FormData(this.element);
    /** @type {Record<string, string>} */
    const texts = {};
    for (const [key, field] of this.#fields) {
      const text = String(said.get(key) ?? '').trim();
      const shape = 'tip' in field.dataset && text && !/^[a-z]/i.test(text) ? `${said.get(`${key}-shape`)} ` : '';
      texts[key] = shape + text;
    }
    return texts;
  }

  /**
   * Show texts in other units, but not over what was typed since they were sent.
   * @param {string} units @param {Record<string, string>} sent @param {Record<string, string>} converted
   */
  write(units, sent, converted) {
    const now = this.read();
    for (const [key, field] of this.#fields) {
      const input = /** @type {HTMLInputElement | null} */ (field.querySelector('.typed'));
      if (!input) continue;
      input.inputMode = input.dataset[units] ?? 'text';
      if (now[key] !== sent[key]) continue;
      const text = converted[key] ?? '';
      const shape = [...field.querySelectorAll('input')].find(({ type, value }) => type === 'radio' && text.startsWith(`${value} `));
      if (shape) shape.checked = true;
      input.value = shape ? text.slice(shape.value.length + 1) : text;
    }
  }

  /** @param {import('./client.js').Complaint[]} complaints each marks every field it concerns */
  mark(complaints) {
    for (const [key, field] of this.#fields) {
      const said = complaints.find((each) => each.field === key || each.others.includes(key))?.text ?? '';
      const note = /** @type {HTMLElement} */ (field.querySelector('.error'));
      const hint = note.previousElementSibling?.id ?? '';
      /** @type {HTMLElement} */ (note.lastElementChild).textContent = said;
      note.hidden = !said;
      field.classList.toggle('wrong', Boolean(said));
      const control = this.control(key);
      const described = control.type === 'radio' ? field : control;
      described.setAttribute('aria-describedby', said ? `${hint} ${note.id}` : hint);
      if (described === control) control.setAttribute('aria-invalid', String(Boolean(said)));
    }
  }

  /** What takes the focus when a field is to be put right. @param {string} key */
  control(key) {
    return /** @type {HTMLInputElement} */ (this.#fields.get(key)?.querySelector('.typed, select, input'));
  }

  /** Bring a field's label into view, then go to its control and nowhere else. @param {string} key */
  go(key) {
    this.#fields.get(key)?.scrollIntoView();
    this.control(key)?.focus({ preventScroll: true });
    return false;
  }
}
