/** Reads what is typed in a worksheet's form; writes converted texts and errors into it. @module */

/** @typedef {'inch' | 'metric'} System */
/** @typedef {Record<string, string>} Texts */

export class Form {
  /** What a text was in each system: changing units to and fro gives back what was typed. @type {Map<string, Texts>} */
  #known = new Map();
  /** @type {Map<string, HTMLElement>} */
  #fields = new Map();

  /** @param {HTMLFormElement} element */
  constructor(element) {
    this.element = element;
    for (const field of /** @type {NodeListOf<HTMLElement>} */ (element.querySelectorAll('[data-field]'))) {
      this.#fields.set(field.dataset.field ?? '', field);
    }
  }

  /** The units that are chosen. @param {System} value */
  set system(value) {
    /** @type {RadioNodeList} */ (this.element.elements.namedItem('system')).value = value;
  }

  /** @returns {Texts} what is typed and chosen, by field */
  read() {
    const said = new FormData(this.element);
    /** @type {Texts} */
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
   * @param {System} from
   * @param {System} to
   * @param {Texts} sent
   * @param {Texts} converted
   */
  write(from, to, sent, converted) {
    const now = this.read();
    for (const [key, field] of this.#fields) {
      const input = /** @type {HTMLInputElement | null} */ (field.querySelector('.typed'));
      if (!input || now[key] !== sent[key]) continue;
      const known = this.#known.get(key);
      const text = (known?.[from] === sent[key] ? known?.[to] : undefined) ?? converted[key] ?? '';
      this.#known.set(key, { [from]: sent[key] ?? '', [to]: text });
      input.inputMode = input.dataset[to] ?? 'text';
      input.value = 'tip' in field.dataset ? this.#choose(field, text) : text;
    }
  }

  /** Choose the shape that a tip's text begins with, and return its size. @param {HTMLElement} field @param {string} text */
  #choose(field, text) {
    const shape = [...field.querySelectorAll('input')].find(({ value }) => text.startsWith(`${value} `));
    if (!shape) return text;
    shape.checked = true;
    return text.slice(shape.value.length + 1);
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

  /** Bring a field's label into view, then go to its control. @param {string} key */
  go(key) {
    this.#fields.get(key)?.scrollIntoView();
    this.control(key).focus({ preventScroll: true });
  }
}
