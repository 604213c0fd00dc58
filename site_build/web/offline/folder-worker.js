/**
 * Stands before the worker's scripts in the folder to carry: hands out what the page sends in place of what a server
 * would, then lets the worker begin. The addresses are of no host.
 */
/** @type {any} */ (self).FOLDER = (() => {
  const root = 'folder:///';
  const TYPES = { mjs: 'text/javascript', wasm: 'application/wasm', json: 'application/json', txt: 'text/plain' };
  /** @type {Record<string, string>} */
  const held = {};
  const usual = self.fetch;

  /** Without a `Blob`: a page from a folder may not read its own in every browser. @param {string} name */
  function response(name) {
    const packed = Uint8Array.from(atob(held[name] ?? ''), (letter) => letter.charCodeAt(0));
    const body = /** @type {ReadableStream} */ (new Response(packed).body).pipeThrough(new DecompressionStream('gzip'));
    const type = TYPES[/** @type {keyof typeof TYPES} */ (name.split('.').at(-1))];
    return new Response(body, { headers: { 'content-type': type } });
  }

  /** @param {any} asked */
  self.fetch = async (asked, ...more) => {
    const name = String(asked?.url ?? asked).split('/').at(-1) ?? '';
    return name in held ? response(name) : usual(asked, ...more);
  };

  /** Pyodide asks in this way whether modules can be had; here they can. */
  /** @type {any} */ (self).importScripts = () => { throw new Error('modules are loaded otherwise'); };

  /** Run a module. @param {string} text */
  function run(text) {
    const module = text.replaceAll('import.meta.url', JSON.stringify(root));
    return import(`data:text/javascript;charset=utf-8,${encodeURIComponent(module)}`);
  }

  /** Begin when the files are here; what is asked meanwhile waits. @param {() => void} act */
  function begin(act) {
    /** @type {MessageEvent[]} */
    const waiting = [];
    self.onmessage = (event) => {
      if (!event.data.files) return waiting.push(event);
      Object.assign(held, event.data.files);
      self.onmessage = null;
      act();
      for (const each of waiting) /** @type {any} */ (self).onmessage(each);
    };
  }

  return { here: `${root}assets/web/worker.js`, run, begin };
})();
