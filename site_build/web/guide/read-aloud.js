/**
 * Reads a step aloud when asked to, with a voice that the device has itself: others would send the words away. @module
 */
import { button } from './elements.js';

/** What is said in place of a short unit after a number; longer ones first. @type {[RegExp, string][]} */
const SPOKEN = [
  [/([\d½¼¾⅛⅜⅝⅞]) mm\b/g, '$1 millimetres'],
  [/([\d½¼¾⅛⅜⅝⅞]) in\b(?! (?:the|a|all)\b)/g, '$1 inches'],
  [/([\d½¼¾⅛⅜⅝⅞]) lb\b/g, '$1 pounds'],
  [/([\d½¼¾⅛⅜⅝⅞]) kg\b/g, '$1 kilograms'],
];

/** A voice of this device for the page's language, if there is one. */
function voice() {
  const { lang } = document.documentElement;
  return window.speechSynthesis?.getVoices().find((each) => each.localService && each.lang.toLowerCase().startsWith(lang));
}

export class ReadAloud {
  constructor() {
    this.on = false;
    this.words = '';
    this.button = button('along-aloud', 'Read it aloud', () => this.turn(!this.on));
    this.offer = () => (this.button.hidden = !voice());
  }

  /** Offer it while a dialog is open; voices may come late. */
  open() {
    this.offer();
    window.speechSynthesis?.addEventListener('voiceschanged', this.offer);
  }

  close() {
    this.turn(false);
    window.speechSynthesis?.removeEventListener('voiceschanged', this.offer);
  }

  /** @param {boolean} on */
  turn(on) {
    this.on = on;
    this.button.textContent = on ? 'Stop reading' : 'Read it aloud';
    this.speak();
  }

  /** What is to be read now. @param {string} words */
  say(words) {
    this.words = SPOKEN.reduce((text, [unit, said]) => text.replace(unit, said), words.replaceAll('\u2044', '/'));
    if (this.on) this.speak();
  }

  speak() {
    const own = voice();
    window.speechSynthesis?.cancel();
    if (!this.on || !own) return;
    const said = new SpeechSynthesisUtterance(this.words);
    Object.assign(said, { voice: own, lang: own.lang, rate: 0.95 });
    speechSynthesis.speak(said);
  }
}
