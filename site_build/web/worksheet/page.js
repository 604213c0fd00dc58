/** Takes over the worksheets that the build wrote into a page; never draws them from nothing. @module */
import { Brought } from './incoming.js';
import { client } from '../worker/client.js';
import { fill } from './fill.js';
import { Form } from './form.js';
import { listProblems } from './problems.js';
import { openable, workAhead } from './lists.js';
import { Origins } from './origins.js';
import { linksInFolder, passOn } from './share.js';
import { readable } from './readout.js';
import { keep, keptUnits } from '../storage.js';
import { whenStill } from '../still.js';
import { isMine } from '../mine.js';
import { offerNotebook } from '../notebook/bring.js';
import { explain, nameChanged, notStarted } from './no-answer.js';
import { bindStrip, stale, stir, toAnswer } from './typing.js';

/** @type {Record<string, string>} */
const STAGES = {
  fetch: 'Fetching what is needed to work it out, once …',
  begin: 'Starting …',
  start: 'Starting …',
  again: 'The sums stopped. They are started again …',
  ready: 'Working it out …',
};
/** @type {WeakMap<Element, Sheet>} */
const bound = new WeakMap();

export class Sheet {
  /** @param {HTMLElement} element */
  constructor(element) {
    this.element = element;
    this.id = element.dataset.worksheet ?? '';
    this.title = element.dataset.title ?? '';
    /** How often each thing was asked: only the newest reply counts. @type {Record<string, number>} */
    this.turns = {};
    this.pause = 0;
    /** How the answer stood before something else was asked. @type {string | undefined} */
    this.settled = undefined;
    this.form = new Form(/** @type {HTMLFormElement} */ (this.part('form')));
    /** The answer that is shown, once there is one of the reader's own. @type {any} */
    this.outcome = undefined;
    /** What was typed when an answer came last, right or wrong. */
    this.answered = this.form.first;
    this.origins = new Origins(this.form, this.part('.origins'), (element.dataset.matters ?? '').split(' ').filter(Boolean));
    this.form.element.addEventListener('submit', (event) => this.answer(event));
    this.form.element.addEventListener('input', ({ target }) => stir(this, /** @type {HTMLElement} */ (target)));
    element.addEventListener('change', ({ target }) => {
      const { name, value, dataset } = /** @type {HTMLInputElement} */ (target);
      if (dataset.into) return;
      if (name === 'system') this.change(value);
      else {
        this.brought.set(name.replace(/-shape$/, ''));
        this.answer();
      }
    });
    this.brought = new Brought(this);
    if (document.documentElement.toggleAttribute('data-mine', isMine())) this.part('.beside').after(this.part('.first'));
    passOn(this);
    this.shown();
    offerNotebook(this);
    this.begin();
    for (const touch of ['focusin', 'pointerdown']) element.addEventListener(touch, () => client.start(), { once: true });
    (window.requestIdleCallback ?? setTimeout)(() => client.start());
    bindStrip(this);
    this.part('.go button').hidden = false;
  }

  get system() {
    return this.element.dataset.system ?? 'inch';
  }

  /** Fill in what the reader has set elsewhere, or what a link brought; the answer follows. */
  async begin() {
    const units = keptUnits() === 'metric';
    if (/^#v\d/.test(location.hash)) {
      const link = location.hash.slice(1);
      this.brought.linked = true; // what is typed meanwhile is nobody's
      this.brought.open(await this.wait(`open ${this.id}`, { open: link, system: this.system }), link);
      await this.answer();
      if (units) await this.change('metric', false);
    } else {
      const carried = this.brought.carry();
      this.origins.show();
      if (units) await this.change('metric', false);
      else if (carried) await this.answer();
    }
  }

  /** Go back to the usual measures, and to those that are carried. */
  async usual() {
    const units = this.system;
    this.form.element.reset();
    this.element.dataset.system = 'inch';
    this.brought.carry();
    if (units === 'metric') await this.change('metric', false);
    else await this.answer();
  }

  /** Make the answer that is on the page ready for hands. */
  shown() {
    for (const ready of [openable, linksInFolder]) ready(this);
    readable(this.element);
  }

  /** @param {string} selector */
  part(selector) {
    return /** @type {HTMLElement} */ (this.element.querySelector(selector));
  }

  /** Say it once, where it is seen and heard. @param {string} words @param {string} [heard] only */
  say(words, heard = '') {
    const more = Object.assign(document.createElement('span'), { className: 'hush', textContent: heard });
    this.part('.status').replaceChildren(words, more);
  }

  /** Wait for a reply, and tell meanwhile how far the start is. @param {string} key @param {object} message */
  async wait(key, message) {
    const { state } = this.element.dataset;
    if (state !== 'working') this.settled = state;
    this.element.dataset.state = 'working';
    client.onStage = (stage) => this.say(STAGES[stage] ?? '');
    client.onTrouble = (trouble) => notStarted(this, trouble);
    if (client.stage !== 'ready') client.onStage(client.stage);
    if (client.trouble) notStarted(this, client.trouble);
    const turn = (this.turns[key] ?? 0) + 1;
    this.turns[key] = turn;
    const reply = await client.ask(key, message);
    await whenStill();
    return this.element.isConnected && turn === this.turns[key] ? reply : undefined;
  }

  /** Say that what was asked besides the answer is there: the page is as it was. */
  settle() {
    if (this.element.dataset.state !== 'working') return;
    if (this.settled) this.element.dataset.state = this.settled;
    else delete this.element.dataset.state;
  }

  /** Say whether the answer shown belongs to what was typed before. */
  old(old = true) {
    this.element.dataset.state = old ? 'old' : 'new';
    stale(this, old);
    this.part('.old').hidden = !old;
  }

  /**
   * Work out what is typed.
   * @param {Event} [pressed] the press of the button, which alone moves the focus
   * @param {boolean} [typing] while a field is being typed in: nothing is said, marked or kept
   */
  async answer(pressed, typing = false) {
    pressed?.preventDefault();
    clearTimeout(this.pause);
    if (!this.element.isConnected) return;
    const { system } = this;
    /** @type {RadioNodeList} */ (this.form.element.elements.namedItem('system')).value = system;
    const inputs = this.form.read();
    if (this.element.querySelector('progress') && !(await workAhead(this, inputs))) return;
    const reply = await this.wait(this.id, { worksheet: this.id, system, inputs, told: this.brought.told() });
    if (!reply) return;
    const { outcome, fault = '', gaveUp = false, errors = [] } = reply;
    if (typing && (!outcome || this.form.differs(inputs))) return;
    if (gaveUp) nameChanged(this, inputs, this.answered);
    else this.answered = inputs;
    if (outcome) {
      this.outcome = outcome;
      fill(this.element, outcome);
      this.element.dispatchEvent(new CustomEvent('plied-true:answered', { detail: outcome }));
      this.shown();
      if (!typing) this.brought.worked(outcome);
      (window.requestIdleCallback ?? setTimeout)(() => this.element.toggleAttribute('data-whole', true)); // see `site.css`
    }
    this.old(!outcome);
    explain(this, gaveUp ? 'gave-up' : fault && 'ours', { fault, worksheet: this.id, system, inputs });
    this.origins.show();
    if (typing) return this.say('');
    if (this.form.differs(inputs)) stale(this, true);
    this.form.mark(errors);
    listProblems(this, errors, Boolean(pressed));
    const headline = [...this.element.querySelectorAll('.strip [data-text], .strip [data-said]')].map((each) => each.textContent).join(' ');
    if (outcome) this.say('', `${headline} ${this.origins.words()}`);
    else this.say(`The answer shown is old. ${fault || gaveUp ? 'The sums stopped.' : 'Put right what is marked.'}`);
    if (outcome && pressed) toAnswer(this);
  }

  /** Show what is typed in other units, then work it out. @param {string} to @param {boolean} [chosen] by the reader */
  async change(to, chosen = true) {
    if (chosen) keep('units', to);
    const sent = this.form.read();
    const reply = await this.wait(`convert ${this.id}`, { convert: this.id, to, inputs: sent });
    if (reply?.inputs) {
      this.form.write(to, sent, reply.inputs);
      this.element.dataset.system = to;
    }
    if (reply) await this.answer();
  }
}

function bind() {
  for (const element of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll('[data-worksheet]'))) {
    if (!bound.has(element)) bound.set(element, new Sheet(element));
  }
  for (const [place, file] of Object.entries({ '.pt-tuner': 'note.js', '.pt-bend': 'bend.js' })) {
    if (!document.querySelector(place)) continue;
    import(new URL(file, import.meta.url).href).then((own) => own.bind(), ({ message }) => console.warn(message)); // a folder has none
  }
}

addEventListener('hashchange', () => {
  const element = document.querySelector('[data-worksheet]');
  if (element && /^#v\d/.test(location.hash)) bound.get(element)?.begin();
});

addEventListener('pageshow', ({ persisted }) => {
  const element = persisted && document.querySelector('[data-worksheet]');
  if (element) bound.get(element)?.brought.comeBack();
});

const pages = /** @type {any} */ (window).document$;
if (pages) pages.subscribe(bind);
else bind();
