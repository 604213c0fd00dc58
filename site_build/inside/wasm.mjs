/**
 * Reads and writes as much of a WebAssembly module as it takes to leave out code that is never reached: its sections,
 * the bodies of its functions, and whom each of them calls (WebAssembly Core Specification 3.0, chapter 5, binary
 * format). The numbers of functions stay, so nothing else has to change.
 */

const HEAD = [0, 0x61, 0x73, 0x6d, 1, 0, 0, 0];
const IMPORTS = 2;
const MEMORIES = 5;
const EXPORTS = 7;
const ELEMENTS = 9;
const CODE = 10;
const TRAP = Buffer.from([0, 0, 0x0b]); // no locals, `unreachable`, `end`
const NOT_SIGNED = [0x20, 0x21, 0x22, 0x23, 0x24, 0x25, 0x26, 7, 8, 9, 0x0c, 0x0d, 0x18, 0x3f, 0x40, 0xd2];
const TWO = [0x11, 0x13, ...range(0x28, 0x3e)];
const BLOCKS = [2, 3, 4, 6];
const BARE = [0, 1, 5, 0x0a, 0x0b, 0x0f, 0x19, 0x1a, 0x1b, ...range(0x45, 0xc4), 0xd1];
const CALLS = [0x10, 0x12];
/** How many numbers follow each instruction of the group that begins with 0xfc. */
const MORE = [0, 0, 0, 0, 0, 0, 0, 0, 2, 1, 2, 1, 2, 1, 2, 1, 1, 1];

/** @typedef {{id: number, body: Uint8Array}} Section */

/** @param {number} first @param {number} last */
function range(first, last) {
  return Array.from({ length: last - first + 1 }, (_, nth) => first + nth);
}

class Reader {
  /** @param {Uint8Array} bytes */
  constructor(bytes, at = 0) {
    this.bytes = bytes;
    this.at = at;
  }

  byte() {
    return this.bytes[this.at++] ?? 0;
  }

  /** A number without sign. */
  number() {
    let sum = 0;
    for (let unit = 1; ; unit *= 128) {
      const byte = this.byte();
      sum += (byte & 127) * unit;
      if (byte < 128) return sum;
    }
  }

  /** Pass over a number, with a sign or without. */
  skip() {
    while (this.byte() > 127);
  }

  part() {
    const length = this.number();
    this.at += length;
    return this.bytes.subarray(this.at - length, this.at);
  }
}

/** @param {number} number not negative @returns {number[]} */
function written(number) {
  return number < 128 ? [number] : [number % 128 | 128, ...written(Math.floor(number / 128))];
}

/** @param {number} number as `i32.const` has it: five bytes @returns {number[]} */
function constant(number) {
  return [0, 7, 14, 21].map((shift) => (number >> shift) & 127 | 128).concat((number >> 28) & 127);
}

/** @param {Uint8Array} module @returns {Section[]} */
function sections(module) {
  const reader = new Reader(module, HEAD.length);
  const found = [];
  while (reader.at < module.length) found.push({ id: reader.byte(), body: reader.part() });
  return found;
}

/** @param {Section[]} all @param {number} id */
function only(all, id) {
  const found = all.find((each) => each.id === id);
  if (!found) throw new Error(`the module has no section ${id}`);
  return found;
}

/** @param {Section[]} all @param {number} pages @param {Uint8Array[]} code of every function @returns {Buffer} */
function assembled(all, pages, code) {
  return replaced(all, new Map([[MEMORIES, memory(only(all, MEMORIES).body, pages)], [CODE, parts(code)]]));
}

/** @param {Section[]} all @param {Map<number, Uint8Array>} changed sections by their number */
function replaced(all, changed) {
  return Buffer.concat([Buffer.from(HEAD), ...all.flatMap(({ id, body }) => {
    const now = changed.get(id) ?? body;
    return [Buffer.from([id, ...written(now.length)]), now];
  })]);
}

/** @param {Uint8Array[]} code */
function parts(code) {
  return Buffer.concat([Buffer.from(written(code.length)), ...code.flatMap((each) => [Buffer.from(written(each.length)), each])]);
}

/** The one memory, with at least so many pages of 64 KiB at its start. @param {Uint8Array} body @param {number} pages */
function memory(body, pages) {
  const reader = new Reader(body, 1);
  const [flags, least] = [reader.byte(), reader.number()];
  return Buffer.concat([Buffer.from([1, flags, ...written(Math.max(least, pages))]), body.subarray(reader.at)]);
}

/** @param {Uint8Array} body @returns {number} where the instructions of a function begin */
function start(body) {
  const reader = new Reader(body);
  for (let left = reader.number(); left > 0; left -= 1) {
    reader.skip();
    reader.byte(); // the type of these locals
  }
  return reader.at;
}

/** @param {Uint8Array} body @returns {number[]} the functions called by name, imported ones first in the count */
function called(body) {
  const reader = new Reader(body, start(body));
  const found = [];
  while (reader.at < body.length) {
    const code = reader.byte();
    if (CALLS.includes(code)) found.push(reader.number());
    else pass(reader, code);
  }
  return found;
}

/** Pass over what follows an instruction. @param {Reader} reader @param {number} code */
function pass(reader, code) {
  if (BARE.includes(code)) return;
  if (NOT_SIGNED.includes(code) || BLOCKS.includes(code) || code === 0x41 || code === 0x42 || code === 0xd0) reader.skip();
  else if (TWO.includes(code)) (reader.skip(), reader.skip());
  else if (code === 0x43) reader.at += 4;
  else if (code === 0x44) reader.at += 8;
  else if (code === 0x0e) for (let left = reader.number(); left >= 0; left -= 1) reader.skip();
  else if (code === 0x1c) for (let left = reader.number(); left > 0; left -= 1) reader.skip();
  else if (code === 0xfc) for (let left = MORE[reader.number()] ?? 0; left > 0; left -= 1) reader.skip();
  else throw new Error(`the instruction 0x${code.toString(16)} is not known here`);
}

/**
 * @param {Uint8Array} body of the section of imports
 * @returns {{functions: string[], names: Set<string>}} what those are called that are functions, and what all are
 */
function imported(body) {
  const reader = new Reader(body);
  const names = new Set();
  const functions = [];
  for (let left = reader.number(); left > 0; left -= 1) {
    reader.part();
    const name = Buffer.from(reader.part()).toString();
    names.add(name);
    const kind = reader.byte();
    if (kind === 0) functions.push(name);
    if (kind === 1 || kind === 3 || kind === 4) reader.byte(); // of a table or global, the type; of a tag, nought
    if (kind === 0 || kind === 4) reader.skip();
    if (kind === 3) reader.byte(); // whether it can be changed
    if (kind === 1 || kind === 2) for (let limits = 1 + (reader.byte() & 1); limits > 0; limits -= 1) reader.skip();
  }
  return { functions, names };
}

/** @param {Uint8Array} module @returns {Uint8Array[]} */
function bodies(module) {
  const reader = new Reader(only(sections(module), CODE).body);
  return Array.from({ length: reader.number() }, () => reader.part());
}

/**
 * The module so that each function, when called, leaves a 1 in the memory.
 * @param {Uint8Array} module @param {number} place where that of the first function is, and of the others in turn
 * @param {number} pages of memory to begin with
 */
export function watched(module, place, pages) {
  const code = bodies(module).map((body, nth) => {
    const at = start(body);
    const mark = [0x41, ...constant(place + nth), 0x41, 1, 0x3a, 0, 0]; // i32.const, i32.const, i32.store8
    return Buffer.concat([body.subarray(0, at), Buffer.from(mark), body.subarray(at)]);
  });
  return assembled(sections(module), pages, code);
}

/** @param {Uint8Array} module */
export function counted(module) {
  return bodies(module).length;
}

/**
 * The module with these functions and all they call by name; any other stops the program when it is called.
 * @param {Uint8Array} module @param {number[]} used numbers of functions, imported ones not counted
 * @param {number} pages of memory to begin with
 */
export function lean(module, used, pages) {
  const first = imported(only(sections(module), IMPORTS).body).functions.length;
  const kept = closed(module, used, first);
  return assembled(sections(module), pages, bodies(module).map((body, nth) => (kept.has(nth + first) ? body : TRAP)));
}

/** @param {Uint8Array} module @param {number[]} used @param {number} first how many functions are imported */
function closed(module, used, first) {
  const code = bodies(module);
  const kept = new Set(used.map((nth) => nth + first));
  for (const each of kept) for (const other of called(code[each - first] ?? TRAP)) kept.add(other);
  return kept;
}

/**
 * The imported functions that these call by name, they and all they call, or that stand in the table.
 * @param {Uint8Array} module @param {number[]} used numbers of functions, imported ones not counted
 * @returns {Set<string>} their names
 */
export function wanted(module, used) {
  const { functions } = imported(only(sections(module), IMPORTS).body);
  const kept = closed(module, used, functions.length);
  for (const nth of elements(only(sections(module), ELEMENTS).body)) kept.add(nth);
  return new Set(functions.filter((_, nth) => kept.has(nth)));
}

/** @param {Uint8Array} body of the section of elements @returns {number[]} the functions that stand in the table */
function elements(body) {
  const reader = new Reader(body);
  const found = [];
  for (let left = reader.number(); left > 0; left -= 1) {
    if (reader.number() !== 0) throw new Error('elements of this kind are not known here');
    for (let code = reader.byte(); code !== 0x0b; code = reader.byte()) pass(reader, code); // where they are put
    for (let more = reader.number(); more > 0; more -= 1) found.push(reader.number());
  }
  return found;
}

/**
 * The module without what nobody asks for of its exports; what it imports under the same name stays.
 * @param {Uint8Array} module
 * @param {Iterable<number>} used numbers of functions, imported ones not counted
 * @param {Set<string>} needed names of what else must stay
 */
export function slim(module, used, needed) {
  const all = sections(module);
  const { functions, names } = imported(only(all, IMPORTS).body);
  const wanted = new Set([...used].map((nth) => nth + functions.length));
  const reader = new Reader(only(all, EXPORTS).body);
  const kept = [];
  for (let left = reader.number(); left > 0; left -= 1) {
    const from = reader.at;
    const name = Buffer.from(reader.part()).toString();
    const kind = reader.byte();
    const index = reader.number();
    if (names.has(name) || needed.has(name) || (kind === 0 && wanted.has(index))) kept.push(reader.bytes.subarray(from, reader.at));
  }
  return replaced(all, new Map([[EXPORTS, Buffer.concat([Buffer.from(written(kept.length)), ...kept])]]));
}
