/** Figures that can move: still until the reader lets them, and held at a press. @module */
import { bringMotion } from './drawings.js';

const WORDS = { still: 'Show it moving', moving: 'Hold still', absent: 'It moves when there is a signal: try again' };

/** Say how a figure stands. @param {HTMLElement} figure @param {'still' | 'moving' | 'absent'} state */
function tell(figure, state) {
  const button = figure.querySelector('.pt-motion');
  if (button) button.textContent = WORDS[state];
  if (state === 'moving') figure.dataset.moving = '';
  else delete figure.dataset.moving;
}

/** @param {HTMLElement} figure whether it shows its motion now */
const moves = (figure) => 'moving' in figure.dataset;

/**
 * Let a figure move, or hold it; a drawing stays still until all its frames are there.
 * @param {HTMLElement} figure
 * @param {boolean} moving
 */
export function setMoving(figure, moving) {
  tell(figure, moving ? 'moving' : 'still');
  for (const each of /** @type {NodeListOf<SVGElement>} */ (figure.querySelectorAll('.drawing'))) {
    if (!moving || each.querySelector('.d-f0') || !each.querySelector('.d-frame')) {
      each.classList.toggle('d-still', !moving);
      continue;
    }
    bringMotion(figure, each).then(
      () => each.classList.toggle('d-still', !(moves(figure) && each.querySelector('.d-f0'))),
      () => moves(figure) && tell(figure, 'absent'),
    );
  }
}

/** Go on moving with the drawings that have come since. @param {HTMLElement} figure */
export function goOnMoving(figure) {
  if (moves(figure)) setMoving(figure, true);
}

/** Give a figure that can move its button, unless the reader wants less motion. @param {HTMLElement} figure */
export function bindMotion(figure) {
  if (!figure.querySelector('.d-frame') || matchMedia('(prefers-reduced-motion: reduce)').matches) return;
  const button = Object.assign(document.createElement('button'), { type: 'button', className: 'pt-motion' });
  button.addEventListener('click', () => setMoving(figure, !moves(figure)));
  figure.append(button);
  setMoving(figure, false);
}
