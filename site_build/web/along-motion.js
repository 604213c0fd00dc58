/** Figures that can move: still until the reader lets them, and held at a press. @module */

/** @param {HTMLElement} figure */
const drawings = (figure) => [...figure.querySelectorAll('.drawing')];

/** @param {HTMLElement} figure whether it shows its motion now */
const moves = (figure) => drawings(figure).some((each) => !each.classList.contains('d-still'));

/** @param {HTMLElement} figure @param {boolean} moving */
export function setMoving(figure, moving) {
  for (const each of drawings(figure)) each.classList.toggle('d-still', !moving);
  const button = figure.querySelector('.pt-motion');
  if (button) button.textContent = moving ? 'Hold still' : 'Show it moving';
}

/** Give a figure that can move its button, unless the reader wants less motion. @param {HTMLElement} figure */
export function bindMotion(figure) {
  if (!figure.querySelector('.d-frame') || matchMedia('(prefers-reduced-motion: reduce)').matches) return;
  const button = Object.assign(document.createElement('button'), { type: 'button', className: 'pt-motion' });
  button.addEventListener('click', () => setMoving(figure, !moves(figure)));
  figure.append(button);
  setMoving(figure, false);
}
