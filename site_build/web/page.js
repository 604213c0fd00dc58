// @ts-check
// Takes over the worksheet that the build wrote into the page; never draws it from nothing.
import { Bench } from "./bench.js";

/** @type {Record<string, string>} */
const WORDS = { fetch: "Fetching the sums …", compile: "Starting the sums …", import: "Nearly there …", ready: "Ready: change a measure." };

/** @param {ParentNode} root @param {string} selector @returns {HTMLElement} */
const one = (root, selector) => /** @type {HTMLElement} */ (root.querySelector(selector));

class Sheet {
  /** @param {HTMLElement} root */
  constructor(root) {
    this.root = root;
    this.form = /** @type {HTMLFormElement} */ (one(root, "form"));
    this.answer = one(root, ".pt-answer");
    this.status = one(root, ".pt-status");
    this.summary = one(root, ".pt-summary");
    this.strip = one(root, ".pt-strip");
    this.title = document.title;
    this.id = 0;
    /** Units that are being switched to, what was sent for it, and the number of that ask. */
    this.to = "inch";
    /** @type {Record<string, unknown>} */
    this.sent = {};
    this.converting = 0;
    this.byButton = false;
    /** @type {Map<string, {system: string, text: string, shown: string}>} what stood here before a switch of units */
    this.before = new Map();
    this.bench = new Bench((reply) => this.hear(reply));
    this.listen();
    this.shorten();
  }

  listen() {
    const wake = () => this.bench.start();
    this.form.addEventListener("focusin", wake, { once: true });
    this.form.addEventListener("change", ({ target }) => this.changed(/** @type {HTMLInputElement} */ (target)));
    this.form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.byButton = true;
      this.ask();
    });
    new IntersectionObserver(([entry]) => {
      this.strip.hidden = entry.isIntersecting || entry.boundingClientRect.top > 0;
    }).observe(this.answer);
    if ("requestIdleCallback" in window) requestIdleCallback(wake, { timeout: 3000 });
    else setTimeout(wake, 1500);
  }

  /** @param {HTMLInputElement} target */
  changed(target) {
    this.byButton = false;
    if (target.name !== "_system") {
      this.ask();
      return;
    }
    this.to = target.value;
    this.sent = this.inputs();
    this.send({ convert: this.root.dataset.worksheet, to: this.to, inputs: this.sent });
    this.converting = this.id;
  }

  inputs() {
    return Object.fromEntries([...new FormData(this.form)].filter(([key]) => !key.startsWith("_")));
  }

  ask() {
    this.send({ worksheet: this.root.dataset.worksheet, system: this.root.dataset.system, inputs: this.inputs() });
  }

  /** @param {object} message */
  send(message) {
    this.id += 1;
    if (!this.bench.ready) this.status.textContent = WORDS.fetch;
    this.bench.ask({ v: 1, id: this.id, ...message });
  }

  /** @param {any} reply */
  hear(reply) {
    if (reply.stage) {
      this.status.textContent = WORDS[reply.stage];
      this.root.dataset.stage = reply.stage;
    } else if (reply.fault) {
      this.old(true);
      this.status.textContent = `The sums stopped: ${reply.fault}. What you typed is kept. Reload the page to try again.`;
    } else if (reply.inputs) {
      if (reply.id === this.converting) this.carry(reply.inputs);
    } else if (reply.id === this.id) {
      if (reply.ok) this.show(reply);
      else this.complain(reply.errors);
    }
  }

  /** @param {{id: number, answer: string, working: string}} reply */
  show(reply) {
    this.clear();
    this.old(false);
    this.answer.innerHTML = reply.answer;
    one(this.root, ".pt-working").innerHTML = reply.working;
    this.status.textContent = "Worked out for the measures below.";
    this.shorten();
    this.root.dataset.answered = String(reply.id);
  }

  /** Keep the first two lines of the answer in the strip at the top edge. */
  shorten() {
    const lines = [...this.answer.querySelectorAll(".pt-big")].slice(0, 2);
    this.strip.textContent = lines.map((line) => line.textContent).join(" · ");
  }

  /** @param {boolean} old */
  old(old) {
    this.root.classList.toggle("pt-old", old);
    this.answer.setAttribute("aria-label", old ? "Answer to earlier measures" : "Answer");
  }

  clear() {
    for (const each of this.form.querySelectorAll(".pt-error")) each.setAttribute("hidden", "");
    for (const each of this.form.querySelectorAll("[aria-invalid]")) each.removeAttribute("aria-invalid");
    this.summary.hidden = true;
    document.title = this.title;
  }

  /** @param {{field: string, text: string}[]} errors */
  complain(errors) {
    this.clear();
    this.old(true);
    this.status.textContent = "The answer shown is to earlier measures. Put right what is marked below.";
    for (const { field, text } of errors) {
      const place = one(this.form, `#f-${field}-error`);
      const hidden = Object.assign(document.createElement("span"), { className: "pt-hidden", textContent: "Error: " });
      place.replaceChildren(hidden, text);
      place.hidden = false;
      one(this.form, `#f-${field}`).setAttribute("aria-invalid", "true");
    }
    if (this.byButton) this.summarise(errors);
  }

  /** @param {{field: string, text: string}[]} errors */
  summarise(errors) {
    document.title = `Error: ${this.title}`;
    const list = document.createElement("ul");
    for (const { field, text } of errors) {
      const link = Object.assign(document.createElement("a"), { href: `#f-${field}`, textContent: text });
      link.addEventListener("click", (event) => {
        event.preventDefault();
        const goal = one(this.form, `#f-${field}`);
        (this.form.querySelector(`label[for="f-${field}"]`) ?? goal).scrollIntoView();
        (goal instanceof HTMLFieldSetElement ? one(goal, "input") : goal).focus();
      });
      const item = document.createElement("li");
      item.append(link);
      list.append(item);
    }
    const head = Object.assign(document.createElement("h2"), { textContent: "There is a problem" });
    this.summary.replaceChildren(head, list);
    this.summary.hidden = false;
    this.summary.focus();
  }

  /** Put converted texts into the form; what was typed in these units before comes back as it was. @param {Record<string, string>} texts */
  carry(texts) {
    const system = this.to;
    this.root.dataset.system = system;
    for (const [key, converted] of Object.entries(texts)) {
      const field = this.form.elements.namedItem(key);
      if (!(field instanceof HTMLInputElement) || field.type !== "text" || field.value !== this.sent[key]) continue;
      const before = this.before.get(key);
      const known = before && before.system === system && before.shown === field.value;
      const shown = known ? before.text : converted;
      this.before.set(key, { system: system === "inch" ? "metric" : "inch", text: field.value, shown });
      field.value = shown;
    }
    this.relabel(system);
    this.ask();
  }

  /** @param {string} system */
  relabel(system) {
    for (const each of this.form.querySelectorAll("[data-inch]")) {
      each.textContent = /** @type {HTMLElement} */ (each).dataset[system] ?? "";
    }
  }
}

/** @type {Map<Element, Sheet>} */
const sheets = new Map();

const bind = () => {
  for (const [root, sheet] of sheets) {
    if (root.isConnected) continue;
    sheet.bench.stop();
    sheets.delete(root);
  }
  for (const root of document.querySelectorAll(".pt-sheet")) {
    if (!sheets.has(root)) sheets.set(root, new Sheet(/** @type {HTMLElement} */ (root)));
  }
};
const pages = /** @type {any} */ (window).document$;
if (pages) pages.subscribe(bind);
else bind();
