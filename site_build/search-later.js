/**
 * Stands before the theme's search: says that it is ready, and wakes the real one, which reads the whole index, with the
 * first question. So a page that nobody searches does not pay for it.
 */
(() => {
  const SET_UP = 0;
  const READY = 1;
  /** @type {any} */
  let held;
  addEventListener('message', function sleeping({ data }) {
    if (data.type === SET_UP) {
      held = data;
      postMessage({ type: READY });
      return;
    }
    removeEventListener('message', sleeping);
    /** @type {any} */ (self).importScripts('REAL');
    for (const each of [held, data]) setTimeout(() => dispatchEvent(new MessageEvent('message', { data: each })));
  });
})();
