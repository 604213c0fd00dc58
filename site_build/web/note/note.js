/** Plays a note to match a string by ear, and listens to one where the reader lets it. Nothing is kept or sent. @module */
import { agreed, pitch } from './pitch.js';

const LOWEST = 20;
const SPAN = 30; // times higher at the slider's other end
const STEPS = 1000;
const LOUD = 0.25;
const EVERY = 120; // ms
const READINGS = 4;
const FALTER = 'The microphone cannot be used here. Use the slider.';

/** @type {AudioContext | undefined} */
let sound;
/** What is to be ended: the tone, the microphone. @type {Record<string, () => void>} */
const open = {};

/** @param {string} name */
function stop(name) {
  open[name]?.();
  delete open[name];
}

function silence() {
  for (const name of Object.keys(open)) stop(name);
}

/** The sound of this page, woken by the press of a button. */
async function awake() {
  sound ??= new AudioContext();
  await sound.resume();
  return sound;
}

/** Odd partials, as of a string plucked in its middle: small loudspeakers give them too. @param {AudioContext} made */
function plucked(made) {
  const parts = Float32Array.from({ length: 16 }, (_, k) => (k % 2 ? (k % 4 === 1 ? 1 : -1) / k ** 2 : 0));
  return made.createPeriodicWave(new Float32Array(parts.length), parts);
}

class Tuner {
  /** @param {HTMLElement} place */
  constructor(place) {
    this.place = place;
    this.slider = /** @type {HTMLInputElement} */ (place.querySelector('input'));
    /** @type {number | undefined} */
    this.heard = undefined;
    /** @type {OscillatorNode | undefined} */
    this.tone = undefined;
    this.slider.addEventListener('input', () => this.show());
    this.on('lower', () => this.set(this.hz - 0.5));
    this.on('higher', () => this.set(this.hz + 0.5));
    this.on('play', () => (open.tone ? stop('tone') : this.play()));
    this.on('expected', () => this.expected());
    this.on('take', () => this.take(this.hz));
    this.on('listen', () => (open.microphone ? stop('microphone') : this.listen()));
    this.on('take-heard', () => this.heard && this.take(this.heard));
    this.button('listen').hidden = !navigator.mediaDevices?.getUserMedia;
    const typed = Number.parseFloat(this.field?.value ?? '');
    this.set(Number.isFinite(typed) ? typed : 100);
    place.hidden = false;
  }

  /** @param {string} name */
  button(name) {
    return /** @type {HTMLButtonElement} */ (this.place.querySelector(`.${name}`));
  }

  /** @param {string} name @param {() => unknown} act */
  on(name, act) {
    this.button(name).addEventListener('click', act);
  }

  /** @param {string} name @param {string} words */
  say(name, words) {
    /** @type {HTMLElement} */ (this.place.querySelector(`.${name}`)).textContent = words;
  }

  /** The question of the sheet that is answered here. */
  get field() {
    return /** @type {HTMLInputElement | null} */ (document.getElementById('note-note_heard'));
  }

  get hz() {
    return LOWEST * SPAN ** (Number(this.slider.value) / STEPS);
  }

  /** @param {number} hz */
  set(hz) {
    this.slider.value = String((STEPS * Math.log(hz / LOWEST)) / Math.log(SPAN));
    this.show();
  }

  show() {
    const words = `${this.hz.toFixed(1)} Hz`;
    this.say('tone', words);
    this.slider.setAttribute('aria-valuetext', words);
    this.tone?.frequency.setTargetAtTime(this.hz, this.tone.context.currentTime, 0.02);
  }

  async play() {
    const made = await awake();
    const volume = made.createGain();
    volume.gain.setValueAtTime(0, made.currentTime);
    volume.gain.linearRampToValueAtTime(LOUD, made.currentTime + 0.05);
    volume.connect(made.destination);
    const tone = new OscillatorNode(made, { frequency: this.hz });
    tone.setPeriodicWave(plucked(made));
    tone.connect(volume);
    tone.start();
    this.tone = tone;
    this.say('play', 'Stop');
    open.tone = () => {
      volume.gain.setTargetAtTime(0, made.currentTime, 0.02);
      tone.stop(made.currentTime + 0.2);
      this.tone = undefined;
      this.say('play', 'Play the note');
    };
  }

  /** Set the slider to what the answer expects. */
  expected() {
    const told = document.querySelector('[data-worksheet="note"] [data-row="note_wanted"] .value')?.textContent ?? '';
    const hz = Number.parseFloat(told);
    if (Number.isFinite(hz)) this.set(hz);
  }

  /** Answer the question of the sheet. @param {number} hz */
  take(hz) {
    const { field } = this;
    if (!field) return;
    field.value = `${hz.toFixed(1)} Hz`;
    for (const kind of ['input', 'change']) field.dispatchEvent(new Event(kind, { bubbles: true }));
    this.say('said', `${field.value} is now the note you heard.`);
  }

  async listen() {
    stop('tone'); // or it would hear itself
    /** @type {MediaStream} */
    let stream;
    try {
      const plain = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };
      stream = await navigator.mediaDevices.getUserMedia({ audio: plain });
    } catch (error) {
      this.say('said', `${FALTER} ${error instanceof Error ? error.message : ''}`);
      return;
    }
    const made = await awake();
    const source = made.createMediaStreamSource(stream);
    const ear = new AnalyserNode(made, { fftSize: 16384 });
    source.connect(ear);
    const piece = new Float32Array(ear.fftSize);
    /** @type {number[]} */
    let notes = [];
    const clock = setInterval(() => {
      if (!this.place.isConnected) return silence();
      ear.getFloatTimeDomainData(piece);
      const note = pitch(piece, made.sampleRate);
      notes = note ? [...notes, note].slice(-READINGS) : [];
      const sure = agreed(notes);
      if (sure) this.hear(sure);
    }, EVERY);
    this.say('listen', 'Stop listening');
    this.say('said', 'Listening. Pluck the string in its middle, across the bow.');
    open.microphone = () => {
      clearInterval(clock);
      source.disconnect();
      for (const track of stream.getTracks()) track.stop();
      this.say('listen', 'Listen');
    };
  }

  /** @param {number} hz */
  hear(hz) {
    this.heard = hz;
    this.say('said', `Heard: ${hz.toFixed(1)} Hz.`);
    this.button('take-heard').hidden = false;
  }
}

/** @type {WeakSet<Element>} */
const bound = new WeakSet();

/** Make the page's tuner work. */
export function bind() {
  silence();
  const place = /** @type {HTMLElement | null} */ (document.querySelector('.pt-tuner'));
  if (!place || bound.has(place)) return;
  bound.add(place);
  new Tuner(place);
}

document.addEventListener('visibilitychange', () => document.hidden && silence());
/** @type {any} */ (window).document$?.subscribe(silence); // another page is shown
