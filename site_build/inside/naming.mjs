/**
 * Leaves out of Pyodide's own script the names of what its WebAssembly no longer exports. The script gives each export
 * a name of its own, in one line after another, whether anything uses it or not: `_x=Module["_x"]=wasmExports["x"];`.
 */

const GIVEN = /(_\w+)=Module\["\1"\]=wasmExports\["(\w+)"\](\.value>>>0)?;/g;
const DECLARED = /,(_\w+)(?=[,;])/g;
const ANY = /(?<!\w)_\w+/g;
const TEXT = /"(\w+)"|wasmExports\.(\w+)/g;

/** @param {string} script @returns {Set<string>} the exports that it uses otherwise than to name them */
export function needed(script) {
  const rest = script.replace(GIVEN, '');
  const times = counted(rest);
  const said = new Set([...rest.matchAll(TEXT)].map(([, first, second]) => first ?? second ?? ''));
  const used = [...script.matchAll(GIVEN)].filter(([, own = '']) => (times.get(own) ?? 0) > 1);
  return new Set([...said, ...used.map(([, , name = '']) => name)]);
}

/** @param {string} script @param {Set<string>} exports that are left */
export function shortened(script, exports) {
  const gone = new Set();
  const rest = script.replace(GIVEN, (whole, own, name) => {
    if (exports.has(name)) return whole;
    gone.add(own);
    return '';
  });
  if (!gone.size) throw new Error('the script names its exports otherwise than it did: see whether `naming.mjs` is still right');
  const times = counted(rest);
  return rest.replace(DECLARED, (whole, own) => (gone.has(own) && times.get(own) === 1 ? '' : whole));
}

/** @param {string} script */
function counted(script) {
  const times = new Map();
  for (const [name] of script.matchAll(ANY)) times.set(name, (times.get(name) ?? 0) + 1);
  return times;
}
