/** Marks points of a bow in a picture. The picture is painted on a canvas and is never kept or sent. @module */
import { PARTS, read, write } from './points.js';
import { paint } from './painting.js';

const LONGEST = 1600; // px of the picture's longer side, as it is painted
const NEAR = 24; // px of the page: a finger so near takes a point up
const STEP = 1;
const NEXT = 'Tap along the belly, from where the limb begins to bend to its nock.';
const HOW = {
  upper: NEXT,
  lower: NEXT,
  string: 'Tap the string: where it is drawn, or its middle.',
  grip: 'Tap where you measure brace height.',
  marks: 'Tap four corners of a rectangle, going round.',
};
const MOST = { string: 1, grip: 1, marks: 4 };

class Marker {
  /** @param {HTMLElement} place */
  constructor(place) {
    this.place = place;
    this.canvas = /** @type {HTMLCanvasElement} */ (place.querySelector('.picture'));
    this.loupe = /** @type {HTMLCanvasElement} */ (place.querySelector('.loupe'));
    /** @type {ImageBitmap | undefined} */
    this.image = undefined;
    this.scale = 1;
    this.points = read(this.field.value);
    /** @type {import('./points.js').Points[]} */
    this.past = [];
    /** @type {Record<string, [number, number][]>} */
    this.lines = {};
    this.part = 'upper';
    this.at = -1;
    this.cursor = { x: 0, y: 0 };
    this.held = false;
    this.file = /** @type {HTMLInputElement} */ (place.querySelector('input[type=file]'));
    this.file.addEventListener('change', () => this.take());
    for (const radio of this.radios) radio.addEventListener('change', () => this.choose(radio.value));
    this.on('undo', () => this.undo());
    this.on('clear', () => this.change({ ...this.points, [this.part]: [] }));
    this.on('forget', () => this.forget());
    this.canvas.addEventListener('pointerdown', (event) => this.down(event));
    this.canvas.addEventListener('pointermove', (event) => this.held && this.move(this.spot(event)));
    for (const end of ['pointerup', 'pointercancel']) this.canvas.addEventListener(end, () => this.up());
    this.canvas.addEventListener('keydown', (event) => this.key(event));
    this.field.addEventListener('change', () => this.typed());
    const sheet = document.querySelector('[data-worksheet="bend"]');
    sheet?.addEventListener('plied-true:answered', (event) => this.answered(/** @type {CustomEvent} */ (event).detail));
    this.fit();
    place.hidden = false;
    this.choose('upper');
  }

  get field() {
    return /** @type {HTMLTextAreaElement} */ (document.getElementById('bend-taps'));
  }

  get radios() {
    return /** @type {NodeListOf<HTMLInputElement>} */ (this.place.querySelectorAll('input[type=radio]'));
  }

  /** @param {string} name @param {() => unknown} act */
  on(name, act) {
    this.place.querySelector(`.${name}`)?.addEventListener('click', act);
  }

  /** @param {string} words */
  say(words) {
    /** @type {HTMLElement} */ (this.place.querySelector('.said')).textContent = words;
  }

  /** Without a picture the canvas holds the example's points. */
  fit() {
    const all = PARTS.flatMap((part) => this.points[part] ?? []);
    this.canvas.width = this.image?.width ?? Math.max(800, ...all.map(([x]) => x + 80));
    this.canvas.height = this.image?.height ?? Math.max(300, ...all.map(([, y]) => y + 80));
    this.cursor = { x: this.canvas.width / 2, y: this.canvas.height / 2 };
  }

  /** Turned as the camera was held: the browser reads that out of the file. */
  async take() {
    const [file] = this.file.files ?? [];
    if (!file) return;
    try {
      const whole = await createImageBitmap(file, { imageOrientation: 'from-image' });
      const share = Math.min(1, LONGEST / Math.max(whole.width, whole.height));
      const [resizeWidth, resizeHeight] = [Math.round(whole.width * share), Math.round(whole.height * share)];
      this.image = await createImageBitmap(whole, { resizeWidth, resizeHeight, resizeQuality: 'high' });
      whole.close();
    } catch (error) {
      this.say(`This picture cannot be opened. ${error instanceof Error ? error.message : ''}`);
      return;
    }
    this.file.value = '';
    this.past = [];
    this.points = read('');
    this.lines = {};
    this.fit();
    this.choose('upper');
  }

  forget() {
    this.image?.close();
    this.image = undefined;
    this.fit();
    this.paint();
    this.say('The picture is gone. Its points are left.');
  }

  /** @param {string} part */
  choose(part) {
    this.part = part;
    this.at = -1;
    for (const radio of this.radios) radio.checked = radio.value === part;
    this.say(`${/** @type {any} */ (HOW)[part]} ${this.points[part]?.length ?? 0} marked.`);
    this.paint();
  }

  /** @param {PointerEvent} event */
  spot(event) {
    const box = this.canvas.getBoundingClientRect();
    this.scale = this.canvas.width / box.width;
    return { x: (event.clientX - box.left) * this.scale, y: (event.clientY - box.top) * this.scale };
  }

  /** @param {PointerEvent} event */
  down(event) {
    event.preventDefault();
    this.canvas.setPointerCapture(event.pointerId);
    this.canvas.focus({ preventScroll: true });
    const spot = this.spot(event);
    this.held = true;
    this.hold(spot);
    this.move(spot);
  }

  /** Take up a point of this part that is near, or put a new one. @param {{x: number, y: number}} spot */
  hold({ x, y }) {
    const mine = this.points[this.part] ?? [];
    const far = mine.map(([u, v]) => Math.hypot(u - x, v - y));
    const near = far.indexOf(Math.min(...far));
    this.past.push(structuredClone(this.points));
    const most = /** @type {Record<string, number>} */ (MOST)[this.part] ?? 40;
    if (near >= 0 && (far[near] ?? 0) < NEAR * this.scale) this.at = near;
    else if (mine.length >= most) this.at = most - 1;
    else this.at = mine.push([x, y]) - 1;
    this.points[this.part] = mine;
  }

  /** @param {{x: number, y: number}} spot */
  move(spot) {
    this.cursor = { x: Math.max(0, Math.min(this.canvas.width, spot.x)), y: Math.max(0, Math.min(this.canvas.height, spot.y)) };
    const mine = this.points[this.part];
    if (mine && this.at >= 0) mine[this.at] = [this.cursor.x, this.cursor.y];
    this.paint();
  }

  up() {
    if (!this.held) return;
    this.held = false;
    this.change(this.points, false);
  }

  undo() {
    const before = this.past.pop();
    if (before) this.change(before, false);
    else this.say('Nothing to take back.');
  }

  /** Arrows move the cross, with Shift by ten; Enter puts a point there or takes up the one that is near. @param {KeyboardEvent} event */
  key(event) {
    const by = event.shiftKey ? 10 * STEP : STEP;
    /** @type {Record<string, [number, number]>} */
    const ways = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, -by], ArrowDown: [0, by] };
    const way = ways[event.key];
    if (way) this.move({ x: this.cursor.x + way[0], y: this.cursor.y + way[1] });
    else if (event.key === 'Enter' || event.key === ' ') {
      if (this.at >= 0) this.at = -1;
      else this.hold(this.cursor);
      this.change(this.points, false);
    } else if (event.key === 'Backspace' || (event.key === 'z' && (event.ctrlKey || event.metaKey))) this.undo();
    else return;
    event.preventDefault();
  }

  /** @param {import('./points.js').Points} points @param {boolean} [undoable] */
  change(points, undoable = true) {
    if (undoable) this.past.push(structuredClone(this.points));
    this.points = points;
    this.field.value = write(points);
    for (const kind of ['input', 'change']) this.field.dispatchEvent(new Event(kind, { bubbles: true }));
    this.say(`${/** @type {any} */ (HOW)[this.part]} ${this.points[this.part]?.length ?? 0} marked.`);
    this.paint();
  }

  /** Points were written into the field. */
  typed() {
    if (this.field.value === write(this.points)) return;
    this.points = read(this.field.value);
    if (!this.image) this.fit();
    this.paint();
  }

  /** Draw the limbs that were worked out over the picture, and an even bend. @param {{files?: {name: string, text: string}[]}} outcome */
  answered(outcome) {
    this.lines = {};
    for (const row of (outcome.files?.find(({ name }) => name === 'bend.csv')?.text ?? '').split('\r\n').slice(1)) {
      const [name = '', x, y] = row.split(',');
      if (y) this.lines[name] = [...(this.lines[name] ?? []), [Number(x), Number(y)]];
    }
    this.paint();
  }

  paint() {
    paint(this);
  }
}

/** @type {WeakSet<Element>} */
const bound = new WeakSet();

/** Make the page's picture work. */
export function bind() {
  const place = /** @type {HTMLElement | null} */ (document.querySelector('.pt-bend'));
  if (!place || bound.has(place)) return;
  bound.add(place);
  new Marker(place);
}
