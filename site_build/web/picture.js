/**
 * A picture of Python's memory, made at the build after every worksheet was used once: Python goes on from there. It
 * holds only the pages that are not as the WebAssembly lays them out by itself. First comes what Pyodide puts before a
 * picture of its own, then how many pages there are, then where each belongs, then the pages.
 * @module
 */

export const PAGE = 4096;

/** @param {Uint8Array} bytes @returns {Uint8Array} what stands before a picture; how long it is stands in its second word */
export function head(bytes) {
  return bytes.subarray(0, new Uint32Array(bytes.buffer, bytes.byteOffset, 2)[1]);
}

/**
 * What Pyodide takes for a picture of its own: it asks once for all that stands behind the head, and gets nothing,
 * since the memory is filled by then.
 * @param {Uint8Array} before @param {() => void} fill
 */
export function asked(before, fill) {
  const usual = before.subarray.bind(before);
  before.subarray = (from, to) => {
    if (to === undefined) fill();
    return usual(from, to);
  };
  return before;
}

/**
 * A picture for Pyodide, before it is here: Pyodide looks at nothing of it until the WebAssembly runs.
 * @param {number} length of its head
 */
export function awaited(length) {
  const before = new Uint8Array(length);
  let fill = () => {};
  return {
    picture: asked(before, () => fill()),
    /** @param {Uint8Array} bytes the whole picture @param {WebAssembly.Memory} memory where its pages belong */
    arrived(bytes, memory) {
      before.set(bytes.subarray(0, length));
      fill = () => {
        fill = () => {}; // the picture is not held any longer
        lay(bytes, length, new Uint8Array(memory.buffer));
      };
    },
  };
}

/** @param {Uint8Array} bytes @param {number} start @param {Uint8Array} memory */
function lay(bytes, start, memory) {
  const words = new Uint32Array(bytes.buffer, bytes.byteOffset + start, (bytes.length - start) >> 2);
  const [count = 0] = words;
  const first = start + 4 * (1 + count);
  if (!count || bytes.length !== first + count * PAGE) throw new Error('the picture of the memory is not whole');
  words.subarray(1, 1 + count).forEach((page, nth) => {
    memory.set(bytes.subarray(first + nth * PAGE, first + (nth + 1) * PAGE), page * PAGE);
  });
}
