/**
 * Leaves out of Pyodide's own script what nothing in it reaches. The script is one long function; what stands in that
 * gives names to functions, classes and plain values, gives some of them a second name (`Module["x"]=x`), says how some
 * are called from WebAssembly (`x.sig="ii"`), and lists those that WebAssembly may import (`wasmImports={x:x}`), most of
 * them only for libraries that are loaded later, which here are none. What does more than that stays, with all it uses.
 */

const PLAIN = ['ArrowFunctionExpression', 'ClassExpression', 'FunctionExpression', 'Identifier', 'Literal'];
const IMPORTS = 'wasmImports';
const SECOND = /^Module\["([\w$]+)"\]=([\w$]+);?$/;
const NAMES = /[\w$]+/g;
/** A function that is not there gets the address nought, so that a call of it stops the program. */
const MISSING = ['if(!value&&!entry.required){', 'if(!value){'];
/** What stands in the place of a function that the WebAssembly imports and never calls. */
const GONE = 'leftOut';
const TRAP = `var ${GONE}=()=>{throw new WebAssembly.RuntimeError("this function was left out")};`;

/** @typedef {{name: string, uses: Set<string>, from: number, to: number}} Part it is left out unless its name is used */

/** @param {any} node @param {(node: any) => void} see */
function walk(node, see) {
  see(node);
  for (const value of Object.values(node)) {
    for (const each of Array.isArray(value) ? value : [value]) if (typeof each?.type === 'string') walk(each, see);
  }
}

/** The names that a piece of the script uses; a second name is used by any word like it. @param {any} node */
function used(node) {
  const found = new Set();
  walk(node, ({ type, name, value }) => {
    if (type === 'Identifier') found.add(name);
    const text = type === 'Identifier' ? name : type === 'TemplateElement' ? value.raw : value;
    if (typeof text === 'string') for (const [word] of text.matchAll(NAMES)) found.add(`Module.${word}`);
  });
  return found;
}

/** Whether making this value does nothing else. @param {any} node @returns {boolean} */
function plain(node) {
  if (node === null || PLAIN.includes(node.type)) return true;
  if (node.type === 'UnaryExpression') return plain(node.argument);
  if (node.type === 'ArrayExpression') return node.elements.every(plain);
  return node.type === 'ObjectExpression' && node.properties.every((/** @type {any} */ each) => !each.computed && each.value && plain(each.value));
}

/**
 * What a statement gives a name to, if it does no more.
 * @param {any} statement @param {string} text of it @returns {{name: string, own?: string} | undefined}
 */
function named(statement, text) {
  const { type, id, declarations: [only, ...more] = [], expression } = statement;
  if (type === 'FunctionDeclaration' || type === 'ClassDeclaration') return { name: id.name, own: id.name };
  if (type === 'VariableDeclaration') {
    return !more.length && only.id.type === 'Identifier' && plain(only.init) ? { name: only.id.name, own: only.id.name } : undefined;
  }
  const [, second] = SECOND.exec(text) ?? [];
  if (second) return { name: `Module.${second}` };
  const { left } = expression ?? {};
  const told = left?.object?.type === 'Identifier' && !left.computed && ['sig', 'isAsync'].includes(left.property.name);
  return told && plain(expression.right) ? { name: left.object.name } : undefined;
}

/**
 * @param {string} script
 * @param {Set<string>} imports names of what the WebAssembly imports
 * @param {Set<string>} called those of them that it may call
 * @param {string[]} beside scripts that use this one
 * @param {(text: string, how: object) => any} parse
 */
export function reached(script, imports, called, beside, parse) {
  const text = script.replace(...MISSING);
  const read = (/** @type {string} */ each) => parse(each, { ecmaVersion: 'latest', sourceType: 'module' });
  const whole = read(text).body.find((/** @type {any} */ { type }) => type === 'FunctionDeclaration');
  if (text === script || !whole) throw new Error('the script is not as it was: see whether `reaching.mjs` is still right');
  /** @type {Part[]} */
  const parts = [];
  /** @type {[number, number, string][]} */
  const changed = [];
  const first = new Set([IMPORTS, ...beside.flatMap((each) => [...used(read(each))])]);
  for (const statement of whole.body.body) {
    const { start, end } = statement;
    const { name, own } = named(statement, text.slice(start, end)) ?? {};
    if (name === IMPORTS) {
      changed.push([start, start, TRAP]);
      for (const entry of statement.declarations[0].init.properties) {
        const key = entry.key.name ?? entry.key.value;
        if (called.has(key)) used(entry.value).forEach((each) => first.add(each));
        else if (imports.has(key)) changed.push([entry.start, entry.end, `${key}:${GONE}`]);
        else changed.push([entry.start, entry.end + Number(text[entry.end] === ','), '']);
      }
    } else if (name) {
      const uses = used(statement);
      uses.delete(`Module.${own}`);
      parts.push({ name, uses, from: start, to: end });
    } else used(statement).forEach((each) => first.add(each));
  }
  const kept = closed(first, parts);
  for (const { name, from, to } of parts) if (!kept.has(name)) changed.push([from, to, '']);
  return written(text, changed);
}

/** @param {Set<string>} names @param {Part[]} parts @returns {Set<string>} these names, and all that is used by what they name */
function closed(names, parts) {
  const all = new Set(names);
  /** @type {Map<string, Part[]>} */
  const by = new Map();
  for (const part of parts) by.set(part.name, [...(by.get(part.name) ?? []), part]);
  for (const name of all) for (const { uses } of by.get(name) ?? []) uses.forEach((each) => all.add(each));
  return all;
}

/** @param {string} text @param {[number, number, string][]} changed from where to where, and to what; none in another */
function written(text, changed) {
  let at = 0;
  const pieces = changed.sort(([one], [other]) => one - other).map(([from, to, now]) => {
    const piece = text.slice(at, from) + now;
    at = to;
    return piece;
  });
  return pieces.join('') + text.slice(at);
}
