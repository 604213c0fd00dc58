/**
 * Reads a chart's numbers out where the finger or the arrow keys point: left and right along a line, up and down from
 * line to line. The numbers come with the drawing, see `calc/draw/readouts.py`. @module
 */

/** @typedef {{field: number[], x: string, y: string, series: {name: string, points: [number, number, string, string][]}[]}} Told */

/** Where each chart is read now: line and point. @type {WeakMap<Element, [number, number]>} */
const places = new WeakMap();

/** @param {Element} chart @returns {Told} */
const told = (chart) => JSON.parse(chart.querySelector('.readout-points')?.getAttribute('data-readout') ?? '{"series":[]}');

/** Let the charts below an element be read. @param {HTMLElement} element */
export function readable(element) {
  for (const points of element.querySelectorAll('.readout-points')) {
    const chart = /** @type {SVGSVGElement} */ (points.closest('svg'));
    if (places.has(chart)) continue;
    places.set(chart, [0, 0]);
    chart.setAttribute('tabindex', '0');
    chart.addEventListener('keydown', (event) => step(event, chart));
    for (const name of ['pointermove', 'pointerdown']) {
      chart.addEventListener(name, (event) => follow(/** @type {PointerEvent} */ (event), chart));
    }
  }
}

/** @param {PointerEvent} event @param {SVGSVGElement} chart */
function follow(event, chart) {
  const turn = chart.getScreenCTM()?.inverse();
  if (!turn) return;
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(turn);
  let best = Infinity;
  for (const [line, { points }] of told(chart).series.entries()) {
    for (const [point, [x, y]] of points.entries()) {
      const far = (x - at.x) ** 2 + ((y - at.y) / 4) ** 2;
      if (far < best) {
        best = far;
        places.set(chart, [line, point]);
      }
    }
  }
  show(chart);
}

/** @param {KeyboardEvent} event @param {SVGSVGElement} chart */
function step(event, chart) {
  const { series } = told(chart);
  const by = { ArrowLeft: [0, -1], ArrowRight: [0, 1], ArrowUp: [-1, 0], ArrowDown: [1, 0] }[event.key];
  if (!by || !series.length) return;
  event.preventDefault();
  const [line, point] = places.get(chart) ?? [0, 0];
  const next = (line + (by[0] ?? 0) + series.length) % series.length;
  const last = (series[next]?.points.length ?? 1) - 1;
  places.set(chart, [next, Math.min(Math.max(point + (by[1] ?? 0), 0), last)]);
  show(chart);
}

/** @param {SVGSVGElement} chart */
function show(chart) {
  const { x: across, y: up, series } = told(chart);
  const [line, point] = places.get(chart) ?? [0, 0];
  const { name, points } = series[line] ?? { name: '', points: [] };
  const [x, y, xText, yText] = points[point] ?? [];
  if (x === undefined || y === undefined) return;
  const mark = chart.querySelector('.readout-mark') ?? chart.appendChild(document.createElementNS(chart.namespaceURI, 'circle'));
  for (const [key, value] of Object.entries({ class: 'readout-mark', cx: x, cy: y, r: 5 })) mark.setAttribute(key, String(value));
  const figure = /** @type {HTMLElement} */ (chart.closest('figure'));
  const words = /** @type {HTMLElement} */ (figure.querySelector('.readout') ?? figure.appendChild(document.createElement('p')));
  words.className = 'readout';
  words.setAttribute('role', 'status');
  words.textContent = `${name ? `${name}: ` : ''}${across} ${xText}, ${up} ${yText}`;
}
