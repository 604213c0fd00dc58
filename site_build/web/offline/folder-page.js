/**
 * Stands before the page's scripts in the folder to carry. A page opened from a folder may start no worker from a file,
 * so Python's is made from text, and gets what it needs from one script that is loaded then.
 */
// biome-ignore lint/correctness/noUnusedVariables: the page's scripts stand below in the built file
const FOLDER = (() => {
  const here = /** @type {HTMLScriptElement} */ (document.currentScript).src;
  const Plain = /** @type {any} */ (window).PlainWorker;
  /** @type {Promise<any> | undefined} */
  let runtime;

  /** What the worker needs: loaded once, by a script, which alone may be read from a folder. */
  function brought() {
    runtime ??= new Promise((settle, fail) => {
      const onload = () => settle(/** @type {any} */ (window).FOLDER_RUNTIME);
      const script = Object.assign(document.createElement('script'), { src: new URL('folder-runtime.js', here).href, onload });
      script.onerror = () => fail(new Error('folder-runtime.js is not in the folder'));
      document.head.append(script);
    });
    return runtime;
  }

  /** A folder has no page for an address that ends in a slash. */
  document.addEventListener('click', ({ target }) => {
    const link = /** @type {Element} */ (target).closest?.('a[href]');
    if (!(link instanceof HTMLAnchorElement) || link.protocol !== 'file:' || !link.pathname.endsWith('/')) return;
    link.pathname += 'index.html';
  }, true);

  /** Make a worker, or what stands for one where none may be made. @param {string | undefined} name @returns {any} */
  function made(name) {
    try {
      const text = /** @type {any} */ (window).FOLDER_WORKER;
      return new Plain(URL.createObjectURL(new Blob([text], { type: 'text/javascript' })), { name });
    } catch (error) {
      const none = { postMessage() {}, terminate() {}, onerror: (/** @type {any} */ _event) => {} };
      setTimeout(() => none.onerror({ message: String(error) }));
      return none;
    }
  }

  /** @param {URL} _url @param {WorkerOptions} options */
  function Worker(_url, { name }) {
    const worker = made(name);
    brought().then((files) => worker.postMessage({ files }), ({ message }) => worker.onerror?.({ message }));
    return worker;
  }

  return { here, Worker };
})();
