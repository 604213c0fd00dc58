/**
 * Runs the calculation package in Pyodide, then writes two zips: what that needed of Python's own library, and the
 * package itself, both compiled. Called by `trimming.py` with the folders of Pyodide and of the package's zip.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const [, , runtime = '', folder = '', script = ''] = process.argv;
const { loadPyodide } = await import(pathToFileURL(join(runtime, 'pyodide.mjs')).href);
const python = await loadPyodide({ indexURL: join(runtime, '/') });
python.unpackArchive(new Uint8Array(readFileSync(join(folder, 'calc.zip'))), 'zip', { extractDir: '/package' });
python.runPython(`${readFileSync(script, 'utf8')}\nmain()`);
for (const name of ['library', 'package']) writeFileSync(join(folder, `${name}.zip`), python.FS.readFile(`/${name}.zip`));
