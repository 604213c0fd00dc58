/**
 * Runs the calculation package in Python, beside the page. Takes the asks of `calc/bridge.py` as JSON text and posts
 * its replies as they are; on the way up it posts `{"v": 1, "stage": "fetch" | "compile" | "import" | "ready", "ms": …}`,
 * and again every second as a sign of life.
 * @module
 */
const begun = performance.now();
const runtime = new URL('../runtime/', import.meta.url);
const manifest = fetched('manifest.json').then((found) => found.json());
const python = Promise.all([import(new URL('pyodide.mjs', runtime).href), manifest]).then(([{ loadPyodide }, { lock }]) =>
  loadPyodide({ indexURL: runtime.href, packageBaseUrl: runtime.href, lockFileContents: JSON.stringify(lock) }),
);
const archive = manifest.then(({ calc }) => fetched(calc)).then((found) => found.arrayBuffer());

/** Newest ask of each kind, as JSON text. @type {Map<string, string>} */
const asked = new Map();
/** @type {((text: string) => string) | undefined} */
let handle;
let stage = 'fetch';

/** @param {string} [next] */
function tell(next = stage) {
  stage = next;
  self.postMessage(JSON.stringify({ v: 1, stage, ms: Math.round(performance.now() - begun) }));
}

/** @param {string} name */
async function fetched(name) {
  const response = await fetch(new URL(name, runtime));
  if (!response.ok) throw new Error(`${name} could not be fetched: ${response.status}`);
  return response;
}

async function start() {
  const beat = setInterval(tell, 1000);
  tell();
  const packed = await archive;
  tell('compile');
  const pyodide = await python;
  tell('import');
  pyodide.unpackArchive(packed, 'zip', { extractDir: '/calculations' });
  pyodide.runPython('import sys; sys.path.insert(0, "/calculations")');
  tell();
  handle = pyodide.runPython('from calc import bridge, worksheets; worksheets.catalogue(); bridge.handle');
  clearInterval(beat);
  tell('ready');
  answerAll();
}

function answerAll() {
  for (const [key, text] of handle ? asked : []) {
    asked.delete(key);
    self.postMessage(handle?.(text));
  }
}

self.onmessage = ({ data: text }) => {
  const { worksheet, convert } = JSON.parse(text);
  asked.set(worksheet ?? `convert ${convert}`, text);
  setTimeout(answerAll); // an ask that waits behind this one replaces it first
};

start().catch((error) => self.postMessage(JSON.stringify({ v: 1, fault: String(error) })));
