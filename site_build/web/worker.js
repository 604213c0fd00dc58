// @ts-check
// Computes in the background: text in, text out. See site_build/answer.py for the shape of the messages.

const base = new URL("./", self.location.href);
/** @type {((text: string) => string) | undefined} */
let reply;
/** @type {Map<string, string>} newest ask of each kind while the interpreter starts */
const waiting = new Map();

/** @param {string} stage */
const tell = (stage) => self.postMessage(JSON.stringify({ v: 1, stage, ms: Math.round(performance.now()) }));

/** @param {string} url */
const bytes = async (url) => {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(`${answer.status} for ${url}`);
  return new Uint8Array(await answer.arrayBuffer());
};

const start = async () => {
  tell("fetch");
  const runtime = new URL("runtime/", base).href;
  const manifest = await (await fetch(`${runtime}manifest.json`)).json();
  const [module, calc, answer] = await Promise.all([
    import(`${runtime}pyodide.mjs`),
    bytes(runtime + manifest.calc),
    bytes(new URL("answer.py.txt", base).href),
  ]);
  tell("compile");
  const pyodide = await module.loadPyodide({
    indexURL: runtime,
    packageBaseUrl: runtime,
    lockFileContents: JSON.stringify(manifest.lock),
  });
  tell("import");
  pyodide.FS.mkdirTree("/lib/plied/site_build");
  pyodide.unpackArchive(calc, "zip", { extractDir: "/lib/plied" });
  pyodide.FS.writeFile("/lib/plied/site_build/answer.py", answer);
  pyodide.runPython("import sys; sys.path.insert(0, '/lib/plied')");
  reply = pyodide.runPython("from site_build.answer import reply; reply");
  tell("ready");
  for (const text of waiting.values()) self.postMessage(/** @type {any} */ (reply)(text));
  waiting.clear();
};

self.onmessage = ({ data }) => {
  if (reply) {
    self.postMessage(reply(data));
    return;
  }
  const ask = JSON.parse(data);
  waiting.set(ask.worksheet ? `ask ${ask.worksheet}` : `convert ${ask.convert}`, data);
};

start().catch((error) => self.postMessage(JSON.stringify({ v: 1, id: null, fault: String(error) })));
