/**
 * What must run before the theme's own script does, at the head of every page.
 *
 * Where a browser refuses to keep anything, reading `localStorage` throws, and the theme's search and colours would
 * stop at that: there it gets a store that forgets.
 *
 * The theme leaves full loads out, and takes every step in a reader's history for a way to another page: the first step
 * to a place on the same page would bring that page anew, without what is typed. So it hears only of steps that do lead
 * to another page.
 *
 * The reader's hand and units stand before the first paint, and whether they have been here; so does the room for what
 * scripts will put in: the theme says only later that scripts run. Who speaks the language of a country that measures in
 * millimetres starts with those.
 *
 * What is far down a page is laid out when it comes near (`content-visibility`). Until then its height is a guess; so
 * for a reader on the way to a place, or back to where they were, all of the page is laid out at once.
 */
(() => {
  const { classList, dataset } = document.documentElement;
  const kept = (/** @type {string} */ name) => JSON.parse(localStorage.getItem(`plied-true:${name}`) ?? 'null');
  classList.replace('no-js', 'js');
  if (!/^en$|-(US|GB|LR|MM)$/i.test(navigator.language)) dataset.speaks = 'metric';
  if (dataset.speaks) dataset.units = dataset.speaks;
  for (const name of ['hand', 'units']) {
    try {
      const value = kept(name);
      if (typeof value === 'string' && value) dataset[name] = value;
    } catch {
      // nothing may be kept here, or it was kept wrongly: the usual hand and units
    }
  }
  try {
    if (['typed', 'opened', 'chosen'].some(kept) || location.hash.startsWith('#v')) dataset.mine = '';
  } catch {
    // as above: a stranger's page
  }
  try {
    localStorage;
  } catch {
    for (const name of ['localStorage', 'sessionStorage']) {
      /** @type {Map<string, string>} */
      const kept = new Map();
      const store = {
        getItem: (/** @type {string} */ key) => kept.get(key) ?? null,
        setItem: (/** @type {string} */ key, /** @type {unknown} */ value) => kept.set(key, String(value)),
        removeItem: (/** @type {string} */ key) => kept.delete(key),
      };
      Object.defineProperty(window, name, { value: store });
    }
  }

  const [visit] = /** @type {PerformanceNavigationTiming[]} */ (performance.getEntriesByType('navigation'));
  if (location.hash || visit?.type !== 'navigate') dataset.atOnce = '';

  let shown = location.pathname;
  let leaving = false;
  addEventListener('click', ({ target }) => {
    const link = target instanceof Element ? target.closest('a') : null;
    if (!link || link.origin !== location.origin) return;
    if (link.hash) dataset.atOnce = '';
    const here = link.pathname === location.pathname && link.search === location.search;
    if (here && link.hash) link.target ||= '_self'; // the browser's own business
    else leaving ||= link.pathname !== shown;
  }, true);
  addEventListener('popstate', (event) => {
    dataset.atOnce = '';
    if (leaving || location.pathname !== shown) {
      leaving = true;
      return;
    }
    event.stopImmediatePropagation();
    const { y } = history.state ?? {};
    if (history.scrollRestoration === 'manual' && y !== undefined) scrollTo(0, y);
  });
  addEventListener('DOMContentLoaded', () => {
    /** @type {any} */ (window).document$?.subscribe(() => {
      shown = location.pathname;
      leaving = false;
    });
  });
})();
