/**
 * Runs the calculation package in Pyodide twice, and writes two zips: what that needed of Python's own library, and the
 * package itself, both compiled. The second start, from what the first wrote, finds what is needed no more. Called by
 * `snapshot.py` with the folders of Pyodide, of the package's zip, and of the scripts that run inside.
 */
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { unpack } from '../../web/worker/unzip.js';

process.on('uncaughtException', ({ message }) => { // alone: without it Node prints Pyodide's one long line
  console.error(message);
  process.exit(1);
});
const [, , runtime = '', folder = '', scripts = ''] = process.argv;
const { loadPyodide } = await import(pathToFileURL(join(runtime, 'pyodide.mjs')).href);
const zip = (/** @type {string} */ name) => join(folder, `${name}.zip`);

/** @param {object} options @returns {Promise<any>} Python, with the scripts that run inside */
async function begun(options = {}) {
  const python = await loadPyodide({ indexURL: join(runtime, '/'), ...options });
  python.FS.mkdirTree('/build/site_build/runtime/in_pyodide');
  for (const room of ['', 'runtime/']) python.FS.writeFile(`/build/site_build/${room}__init__.py`, '');
  for (const name of readdirSync(scripts).filter((each) => each.endsWith('.py'))) {
    python.FS.writeFile(`/build/site_build/runtime/in_pyodide/${name}`, readFileSync(join(scripts, name)));
  }
  python.runPython('import sys\nsys.path.insert(0, "/build")');
  return python;
}

const whole = await begun();
whole.unpackArchive(new Uint8Array(readFileSync(zip('calc'))), 'zip', { extractDir: '/package' });
whole.runPython(`
from site_build.runtime.in_pyodide import packing, using
packing.everything(using.used())
`);
for (const name of ['library', 'package']) writeFileSync(zip(name), whole.FS.readFile(`/${name}.zip`));

const light = await begun({ stdLibURL: zip('library') });
unpack(light.FS, new Uint8Array(readFileSync(zip('package'))), '/package');
const names = JSON.stringify(light.runPython('import json\nfrom site_build.runtime.in_pyodide import using\njson.dumps(using.used())'));
whole.runPython(`import json\npacking.these(json.loads(${names}))`);
writeFileSync(zip('library'), whole.FS.readFile('/library.zip'));
