/**
 * Fills the slots of pages at the build with the page's own `web/worksheet/fill.js`. Takes the address of linkedom, which stands
 * for a browser's document, and on standard input `[{ "html", "data" }]` as JSON; writes the filled HTML as JSON.
 */
import { readFileSync } from 'node:fs';
import { fill } from '../web/worksheet/fill.js';

const { parseHTML } = await import(process.argv[2] ?? '');
const filled = JSON.parse(readFileSync(0, 'utf8')).map((/** @type {{ html: string, data: any }} */ { html, data }) => {
  const { document } = parseHTML(`<!doctype html><html><body>${html}</body></html>`);
  fill(document.body, data);
  return document.body.innerHTML;
});
process.stdout.write(JSON.stringify(filled));
