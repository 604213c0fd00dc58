/**
 * Tells how many bytes files take on the way: reads JSON `{quality, files}`, writes `[[raw, gzip, brotli], …]`; with
 * `into`, a folder, it writes each file there too, by its turn, as brotli packs it.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { brotliCompressSync, constants, gzipSync } from 'node:zlib';

const { quality, files, into } = JSON.parse(readFileSync(0, 'utf8'));
const sizes = files.map((/** @type {string} */ path, /** @type {number} */ turn) => {
  const raw = readFileSync(path);
  const params = { [constants.BROTLI_PARAM_QUALITY]: quality, [constants.BROTLI_PARAM_LGWIN]: 22 };
  const packed = brotliCompressSync(raw, { params });
  if (into) writeFileSync(`${into}/${turn}`, packed);
  return [raw.length, into ? 0 : gzipSync(raw, { level: 9 }).length, packed.length];
});
process.stdout.write(JSON.stringify(sizes));
