/** Puts the files of a zip into Python's file system. The zip holds them as they are, see `site_build/runtime/bundle.py`. @module */

const END = 0x06054b50;
const END_BYTES = 22;
const ENTRY_BYTES = 46;
const LOCAL_BYTES = 30;

/**
 * @param {any} files Python's file system
 * @param {Uint8Array} zip without comment, nothing in it compressed
 * @param {string} place an empty folder, made here
 */
export function unpack(files, zip, place) {
  const view = new DataView(zip.buffer, zip.byteOffset, zip.byteLength);
  const short = (/** @type {number} */ at) => view.getUint16(at, true);
  const long = (/** @type {number} */ at) => view.getUint32(at, true);
  const end = zip.length - END_BYTES;
  if (long(end) !== END) throw new Error('the zip is not whole');
  const made = new Set();
  let at = long(end + 16);
  for (let left = short(end + 10); left > 0; left -= 1) {
    const name = `${place}/${new TextDecoder().decode(zip.subarray(at + ENTRY_BYTES, at + ENTRY_BYTES + short(at + 28)))}`;
    const local = long(at + 42);
    const begin = local + LOCAL_BYTES + short(local + 26) + short(local + 28);
    const folder = name.slice(0, name.lastIndexOf('/'));
    if (!made.has(folder)) files.mkdirTree(folder);
    made.add(folder);
    files.writeFile(name, zip.slice(begin, begin + long(at + 20)), { canOwn: true });
    at += ENTRY_BYTES + short(at + 28) + short(at + 30) + short(at + 32);
  }
}
