/**
 * Stands in the head of a worksheet's page. Where an answer will be wanted at once, because values are carried here or
 * a link brought some, Python's worker starts while the page is still being read; `web/worker/client.js` takes it over.
 */
(() => {
  const wanted = () => /^#v\d/.test(location.hash) || ['typed', 'worked'].some((name) => localStorage.getItem(`plied-true:${name}`));
  try {
    if (!wanted() || /[?&]plain\b/.test(location.search)) return;
    const worker = new Worker(new URL('ROOT/assets/web/worker.js', location.href), { type: 'module' });
    /** @type {string[]} */
    const heard = [];
    worker.onmessage = ({ data }) => heard.push(data);
    Object.assign(window, { pliedTrue: { worker, heard } });
  } catch {
    // nothing may be kept here, or no worker made: the page's own scripts see to it
  }
})();
