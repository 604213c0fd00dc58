/** Paints the picture, its points and the lines through them; and what lies beneath the finger, larger. @module */
import { PARTS } from './points.js';

const LARGER = 3;

/** A colour of the page. @param {HTMLElement} place @param {string} name @param {string} other */
function colour(place, name, other) {
  return getComputedStyle(place).getPropertyValue(name).trim() || other;
}

/** @param {CanvasRenderingContext2D} ink @param {[number, number][]} points */
function line(ink, points) {
  ink.beginPath();
  for (const [x, y] of points) ink.lineTo(x, y);
  ink.stroke();
}

/** @param {any} marker of `bend.js` */
export function paint(marker) {
  const { canvas, image, points, lines, part, cursor } = marker;
  const ink = /** @type {CanvasRenderingContext2D} */ (canvas.getContext('2d'));
  const fine = canvas.width / Math.max(1, canvas.getBoundingClientRect().width);
  const ground = colour(canvas, '--ground', '#faf6ec');
  const dark = colour(canvas, '--ink', '#20242c');
  const accent = colour(canvas, '--accent', '#8c2b1a');
  ink.setLineDash([]);
  ink.fillStyle = ground;
  ink.fillRect(0, 0, canvas.width, canvas.height);
  if (image) ink.drawImage(image, 0, 0);
  else bow(ink, points, lines, dark, fine);
  ink.lineWidth = 2 * fine;
  for (const [name, found] of Object.entries(lines)) {
    ink.strokeStyle = accent;
    ink.setLineDash(name.endsWith('even') ? [6 * fine, 5 * fine] : []);
    line(ink, /** @type {[number, number][]} */ (found));
  }
  ink.setLineDash([]);
  for (const name of PARTS) {
    for (const [x, y] of points[name] ?? []) {
      ink.beginPath();
      ink.arc(x, y, (name === part ? 5 : 3) * fine, 0, 7);
      ink.fillStyle = ground;
      ink.fill();
      ink.strokeStyle = name === part ? accent : dark;
      ink.lineWidth = 2 * fine;
      ink.stroke();
    }
  }
  ink.strokeStyle = accent;
  ink.lineWidth = fine;
  line(ink, [[cursor.x - 12 * fine, cursor.y], [cursor.x + 12 * fine, cursor.y]]);
  line(ink, [[cursor.x, cursor.y - 12 * fine], [cursor.x, cursor.y + 12 * fine]]);
  magnify(marker, fine);
}

/**
 * Where there is no picture: the belly as it was worked out, drawn as wood.
 * @param {CanvasRenderingContext2D} ink
 * @param {any} points
 * @param {any} lines
 * @param {string} dark
 * @param {number} fine
 */
function bow(ink, points, lines, dark, fine) {
  ink.strokeStyle = dark;
  ink.globalAlpha = 0.25;
  ink.lineWidth = 8 * fine;
  line(ink, [...(lines.upper ?? points.upper)].reverse().concat(lines.lower ?? points.lower));
  ink.globalAlpha = 1;
  const [string] = points.string ?? [];
  const [one, other] = [points.upper?.at(-1), points.lower?.at(-1)];
  ink.lineWidth = fine;
  if (string && one && other) line(ink, [one, string, other]);
}

/** @param {any} marker @param {number} fine px of the picture for one of the page */
function magnify({ canvas, loupe, cursor, held }, fine) {
  loupe.hidden = !held && document.activeElement !== canvas;
  if (loupe.hidden) return;
  const glass = /** @type {CanvasRenderingContext2D} */ (loupe.getContext('2d'));
  const size = (loupe.width * fine) / LARGER;
  glass.fillStyle = colour(canvas, '--ground', '#faf6ec');
  glass.fillRect(0, 0, loupe.width, loupe.height);
  glass.drawImage(canvas, cursor.x - size / 2, cursor.y - size / 2, size, size, 0, 0, loupe.width, loupe.height);
  loupe.classList.toggle('right', cursor.x < canvas.width / 2); // never beneath the finger
}
