/**
 * A snapshot of Python's memory, made at the build after every worksheet was used once: Python goes on from there. The
 * file holds only the pages that are not as the WebAssembly lays them out by itself. First comes the head that Pyodide
 * puts before a snapshot of its own; then, in words of four bytes, how long the memory is, how much of it the
 * WebAssembly lays out, how many pages follow, and where each belongs; then the pages. All others are laid out anew.
 * A page in the part that the WebAssembly lays out is stored as its difference from that (XOR), which packs smaller.
 * @module
 */

export const PAGE = 4096;
const WASM_PAGE = 65_536;
const WORDS = 3;

/** @param {Uint8Array} bytes @returns {Uint8Array} the head of a snapshot; how long it is stands in its second word */
export function headOf(bytes) {
  return bytes.subarray(0, new Uint32Array(bytes.buffer, bytes.byteOffset, 2)[1]);
}

/**
 * What Pyodide takes for a snapshot of its own, before the file is here. Pyodide looks at nothing of it until the
 * WebAssembly runs; then it asks once for all that stands behind the head, and gets nothing, since the memory is
 * filled by then.
 * @param {number} length of the head
 */
export function awaited(length) {
  const snapshot = new Uint8Array(length);
  const usual = snapshot.subarray.bind(snapshot);
  let restore = () => {};
  snapshot.subarray = (from, to) => {
    if (to === undefined) restore();
    return usual(from, to);
  };
  return {
    snapshot,
    /** @param {Uint8Array} bytes the whole file @param {any} exports of the WebAssembly, in which nothing ran yet */
    arrived(bytes, exports) {
      snapshot.set(bytes.subarray(0, length));
      const fill = prepared(bytes, length, exports);
      restore = () => {
        restore = () => {}; // the file is not held any longer
        fill();
      };
    },
  };
}

/** Make the memory as long as it was. @param {WebAssembly.Memory} memory @param {number} length in bytes */
export function lengthened(memory, length) {
  if (length > memory.buffer.byteLength) memory.grow((length - memory.buffer.byteLength) / WASM_PAGE);
}

/**
 * Make the memory as long as it was; what is returned makes it the same, byte by byte.
 * @param {Uint8Array} bytes @param {number} start
 * @param {{memory: WebAssembly.Memory, sbrk: (more: number) => number}} exports
 */
function prepared(bytes, start, { memory, sbrk }) {
  const words = new Uint32Array(bytes.buffer, bytes.byteOffset + start, (bytes.length - start) >> 2);
  const [length = 0, laid = 0, count = 0] = words;
  const first = start + 4 * (WORDS + count);
  if (!count || bytes.length !== first + count * PAGE) throw new Error('the snapshot of the memory is not whole');
  lengthened(memory, length);
  const fresh = new Uint8Array(memory.buffer).slice(0, laid);
  return () => {
    const now = new Uint8Array(memory.buffer);
    now.fill(0, laid, Math.max(laid, sbrk(0))); // beyond that nothing was written
    now.set(fresh);
    words.subarray(WORDS, WORDS + count).forEach((page, nth) => {
      const stored = bytes.subarray(first + nth * PAGE, first + (nth + 1) * PAGE);
      now.set(page * PAGE < laid ? stored.map((byte, at) => byte ^ (fresh[page * PAGE + at] ?? 0)) : stored, page * PAGE);
    });
  };
}
