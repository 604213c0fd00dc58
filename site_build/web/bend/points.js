/** Points of a picture as text, and back: as `calc/worksheets/bend/taps.py` reads them. @module */

export const PARTS = ['upper', 'lower', 'string', 'grip', 'marks'];

/** @typedef {Record<string, [number, number][]>} Points */

/** @param {string} text @returns {Points} */
export function read(text) {
  /** @type {Points} */
  const points = Object.fromEntries(PARTS.map((part) => [part, []]));
  for (const line of text.split('\n')) {
    const [name = ''] = line.trim().toLowerCase().split(/[\s:=]/, 1);
    if (!(name in points)) continue;
    points[name] = [...line.matchAll(/(-?\d+(?:\.\d+)?)\s*[,;]\s*(-?\d+(?:\.\d+)?)/g)].map(([, x, y]) => [Number(x), Number(y)]);
  }
  return points;
}

/** @param {Points} points */
export function write(points) {
  const told = (/** @type {number} */ each) => String(Math.round(each * 10) / 10);
  const lines = PARTS.map((part) => [part, (points[part] ?? []).map(([x, y]) => `${told(x)},${told(y)}`).join(' ')]);
  return lines.filter(([, found]) => found).map(([part, found]) => `${part}: ${found}`).join('\n');
}
