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
    for (const file of /** @type {NodeListOf<HTMLInputElement>} */ (element.querySelectorAll('.file'))) {
      file.addEventListener('change', () => this.#take(file));
    }
    const usual = /** @type {HTMLFormElement} */ (element.cloneNode(true));
    usual.reset();
    /** What the build wrote, whatever was typed before this script came. */
    this.first = this.read(usual);
  }

  keys() {
    return [...this.#fields.keys()];
  }

  /** What a field is called. @param {string} key */
  label(key) {
    const named = this.#fields.get(key)?.querySelector('legend, label');
    return named?.firstChild?.textContent?.trim() ?? key;
  }

  /** @param {string} key */
  #options(key) {
    return [...(this.#fields.get(key)?.querySelectorAll('option, input[type=radio]') ?? [])];
  }

  /** Whether a field is one of a few to choose, and nothing is typed in it. @param {string} key */
  isChoice(key) {
    return !this.#fields.get(key)?.querySelector('.typed');
  }

  /** A text as the reader knows it: the words of a choice. @param {string} key @param {string} text */
  shown(key, text) {
    const option = this.#options(key).find((each) => each.getAttribute('value') === text);
    return (option?.textContent || option?.parentElement?.textContent || text).trim();
  }

  /** Whether a field that may be left open is left open. @param {string} key */
  isOpen(key) {
    return 'open' in (this.#fields.get(key)?.dataset ?? {}) && !/\d/.test(this.read()[key] ?? '');
  }

  /** Say at a field where its value is from. @param {string} key @param {string} kind @param {string} words */
  tellOrigin(key, kind, words) {
    const place = /** @type {HTMLElement | null} */ (this.#fields.get(key)?.querySelector('.origin'));
    if (!place) return;
    place.textContent = words;
    place.dataset.origin = kind;
  }

  /** What stands in a field, with its unit where only a number was typed. @param {string} key */
  withUnit(key) {
    const text = this.read()[key] ?? '';
    const field = this.#fields.get(key);
    const { system = 'inch' } = /** @type {HTMLElement} */ (this.element.closest('[data-system]')).dataset;
    const unit = field?.querySelector(`.unit .in-${system}`)?.textContent ?? '';
    return unit && /^[0-9 .,/]+$/.test(text) ? `${text} ${unit}` : text;
  }

  /** A text of another worksheet as this field takes it, or nothing. @param {string} key @param {string} text */
  fitted(key, text) {
    this.#measured(key, text);
    if (this.isChoice(key)) return this.#options(key).some((each) => each.getAttribute('value') === text) ? text : undefined;
    if (/\d/.test(text)) return text;
    return 'open' in (this.#fields.get(key)?.dataset ?? {}) ? '' : undefined;
  }

  /** Offer limbs' bend as a picture showed it beside what can be told in words. @param {string} key @param {string} text */
  #measured(key, text) {
    const [, bend, off] = /^photo (-?\d\.\d\d) (\d\.\d\d)$/.exec(text) ?? [];
    const options = this.#options(key);
    const last = /** @type {HTMLInputElement | HTMLOptionElement | undefined} */ (options.at(-1));
    if (!off || key !== 'limb_shape' || !last || options.some((each) => each.getAttribute('value') === text)) return;
    const words = `from a picture: ${bend} ± ${off}`;
    if (last instanceof HTMLOptionElement) return last.after(new Option(words, text));
    const label = /** @type {HTMLElement} */ (last.closest('label')?.cloneNode(true));
    const input = /** @type {HTMLInputElement} */ (label.querySelector('input'));
    Object.assign(input, { value: text, checked: false });
    input.removeAttribute('checked');
    /** @type {HTMLElement} */ (label.querySelector('span')).textContent = words;
    last.closest('label')?.after(label);
  }

  /** Put one text into the form. @param {string} key @param {string} text */
  put(key, text) {
    this.#measured(key, text);
    const field = this.#fields.get(key);
    const input = /** @type {HTMLInputElement | HTMLTextAreaElement | null} */ (field?.querySelector('.typed') ?? null);
    const radios = [...(field?.querySelectorAll('input') ?? [])].filter(({ type }) => type === 'radio');
    const chosen = radios.find(({ value }) => text === value || (input && text.startsWith(`${value} `)));
    if (chosen) chosen.checked = true;
    if (input) input.value = chosen ? text.slice(chosen.value.length + 1) : text;
    if (input?.value) this.#unfold(key);
    const select = field?.querySelector('select');
    if (select && [...select.options].some(({ value }) => value === text)) select.value = text;
  }

  /** Show a field that lies in a folded group. @param {string} key */
  #unfold(key) {
    const folded = /** @type {HTMLDetailsElement | null | undefined} */ (this.#fields.get(key)?.closest('details.more'));
    if (folded) folded.open = true;
  }

  /** @param {HTMLInputElement} file */
  async #take(file) {
    const [first] = file.files ?? [];
    if (!first) return;
    this.put(file.dataset.into ?? '', await first.text());
    this.control(file.dataset.into ?? '').dispatchEvent(new Event('change', { bubbles: true }));
  }

  /** What is typed and chosen, by field; a tip's size follows its shape, unless a shape is typed with it. */
  read(form = this.element) {
    const said = new FormData(form);
    /** @type {Record<string, string>} */
    const texts = {};
    for (const [key, field] of this.#fields) {
      const text = String(said.get(key) ?? '').trim();
      const shape = 'tip' in field.dataset && text && !/^[a-z]/i.test(text) ? `${said.get(`${key}-shape`)} ` : '';
      texts[key] = shape + text.replace(/\r\n?/g, '\n');
    }
    return texts;
  }

  /** Whether something else stands here now. @param {Record<string, string>} texts as read before */
  differs(texts) {
    return Object.entries(this.read()).some(([key, text]) => text !== texts[key]);
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
      if (now[key] === sent[key]) this.put(key, converted[key] ?? '');
    }
  }

  /** @param {import('../worker/client.js').Complaint[]} complaints each marks every field it concerns */
  mark(complaints) {
    for (const [key, field] of this.#fields) {
      const said = complaints.find((each) => each.field === key || each.others.includes(key))?.text ?? '';
      const note = /** @type {HTMLElement} */ (field.querySelector('.error'));
      const hint = note.previousElementSibling?.id ?? '';
      /** @type {HTMLElement} */ (note.lastElementChild).textContent = said;
      note.hidden = !said;
      field.classList.toggle('wrong', Boolean(said));
      if (said) this.#unfold(key);
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
    this.#unfold(key);
    this.#fields.get(key)?.scrollIntoView();
    this.control(key)?.focus({ preventScroll: true });
    return false;
  }
}
