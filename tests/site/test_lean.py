"""Leaving out of a WebAssembly module what nothing reaches: held to what a JavaScript engine then does with it.

The module is written out byte by byte after the WebAssembly Core Specification 3.0, chapter 5.
"""

from __future__ import annotations

import json
import subprocess
from typing import TYPE_CHECKING, Any

import pytest

from site_build import packages
from site_build.trimming import INSIDE

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.exact

_I32, _GET, _CALL, _END = 0x7F, 0x20, 0x10, 0x0B
_BODIES = (
    (1, 1, _I32, 0x41, 0x80, 0x7F, 0x1A, _GET, 0, _CALL, 2, _END),  # 1, "twice": a local, a constant dropped, calls 2
    (0, _GET, 0, _GET, 0, _CALL, 0, _END),  # 2, no export: calls the imported 0
    (0, _GET, 0, _END),  # 3, "other": nobody calls it by name
)
_SECTIONS: tuple[tuple[int, tuple[int, ...]], ...] = (
    (1, (2, 0x60, 2, _I32, _I32, 1, _I32, 0x60, 1, _I32, 1, _I32)),  # types: of two numbers, and of one
    (2, (1, 3, *b"env", 3, *b"add", 0, 0)),
    (3, (3, 1, 1, 1)),
    (4, (1, 0x70, 0, 1)),  # a table of one function
    (5, (1, 0, 1)),
    (7, (4, 6, *b"memory", 2, 0, 5, *b"twice", 0, 1, 5, *b"other", 0, 3, 3, *b"add", 0, 0)),
    (9, (1, 0, 0x41, 0, _END, 1, 3)),  # which is 3, "other"
    (10, (3, *(byte for body in _BODIES for byte in (len(body), *body)))),
)
_MODULE = [0, *b"asm", 1, 0, 0, 0, *(byte for number, body in _SECTIONS for byte in (number, len(body), *body))]
_SCRIPT = f"""
import {{ parse }} from 'PARSER';
import {{ needed, shortened }} from 'file://{(INSIDE / "naming.mjs").as_posix()}';
import {{ reached }} from 'file://{(INSIDE / "reaching.mjs").as_posix()}';
import {{ counted, lean, slim, wanted, watched }} from 'file://{(INSIDE / "wasm.mjs").as_posix()}';
const module = Uint8Array.from({json.dumps(_MODULE)});
const tell = (bytes) => {{
  const {{ exports }} = new WebAssembly.Instance(new WebAssembly.Module(bytes), {{ env: {{ add: (a, b) => a + b }} }});
  const call = (name) => {{ try {{ return exports[name](21); }} catch (error) {{ return error.message; }} }};
  const pages = () => exports.memory.buffer.byteLength / 65536;
  const said = Object.keys(exports).map((name) => [name, name === 'memory' ? pages() : call(name)]);
  return [Object.fromEntries(said), [...new Uint8Array(exports.memory.buffer, 1000, 3)]];
}};
console.log(JSON.stringify(await eval(process.argv[2])));
"""


@pytest.fixture
def told(tmp_path: Path) -> Any:  # noqa: ANN401 - whatever the script tells
    """Return a way to work something out with the module."""
    file = tmp_path / "script.mjs"
    parser = packages.fetch("parser") / "dist/acorn.mjs"
    file.write_text(_SCRIPT.replace("PARSER", parser.as_uri()), encoding="utf-8")

    def tell(what: str) -> Any:  # noqa: ANN401
        command = [*map(str, packages.node_tool("node")), str(file), what]
        return json.loads(subprocess.run(command, capture_output=True, text=True, check=True).stdout)

    return tell


WHOLE = {"memory": 1, "twice": 42, "other": 21, "add": 21}


def test_the_module_runs_as_it_is_written_out(told: Any) -> None:  # noqa: ANN401
    assert told("[tell(module), counted(module)]") == [[WHOLE, [0, 0, 0]], 3]


def test_what_is_called_leaves_a_mark_and_all_else_stays_as_it_is(told: Any) -> None:  # noqa: ANN401
    assert told("tell(watched(module, 1000, 3))") == [{**WHOLE, "memory": 3}, [1, 1, 1]]


def test_a_function_stays_with_those_it_calls_and_any_other_stops(told: Any) -> None:  # noqa: ANN401
    assert told("tell(lean(module, [0], 2))") == [{**WHOLE, "memory": 2, "other": "unreachable"}, [0, 0, 0]]
    assert told("tell(lean(module, [2], 1))") == [{**WHOLE, "twice": "unreachable"}, [0, 0, 0]]


def test_only_what_is_used_needed_or_imported_too_stays_an_export(told: Any) -> None:  # noqa: ANN401
    assert told("Object.keys(tell(slim(module, [0], new Set(['memory'])))[0])") == ["memory", "twice", "add"]


def test_an_imported_function_is_wanted_if_it_is_called_or_stands_in_the_table(told: Any) -> None:  # noqa: ANN401
    assert told("[...wanted(module, [0])]") == ["add"]
    assert told("[...wanted(module, [2])]") == []
    assert told("(() => { module[module.lastIndexOf(9) + 8] = 0; return [...wanted(module, [2])] })()") == ["add"]


def test_an_instruction_that_is_not_known_stops_the_build(told: Any) -> None:  # noqa: ANN401
    assert told(
        "(() => { module[module.indexOf(26)] = 0xff; try { lean(module, [0], 1) } catch (e) { return e.message } })()"
    ) == ("the instruction 0xff is not known here")


_GLUE = (
    'var _a,_b,_c;function f(){_a=Module["_a"]=wasmExports["a"];_b=Module["_b"]=wasmExports["b"].value>>>0;'
    '_c=Module["_c"]=wasmExports["c"];}g(_b);'
)


def test_the_script_loses_the_names_of_what_is_gone(told: Any) -> None:  # noqa: ANN401
    text = json.dumps(_GLUE)
    assert told(f"[...needed({text})]") == ["b"]
    assert told(f"shortened({text}, new Set(['a', 'b']))") == _GLUE.replace(",_c", "").replace(
        '_c=Module["_c"]=wasmExports["c"];', ""
    )
    assert told(
        f"(() => {{ try {{ shortened({text}, new Set(['a', 'b', 'c'])) }} catch (e) {{ return e.message }} }})()"
    ).startswith("the script names its exports otherwise")


_PLAIN = (
    "async function make(moduleArg) {{ var Module = moduleArg; var log = []; var value, entry = {{ required: 1 }};"
    'function one() {{ return two(); }} function two() {{ return 2; }} one.sig="i";'
    'function lost() {{ return deep; }} var deep = {{ a: [-1, () => lost()] }}; lost.sig="i"; class Gone {{}}'
    'function three() {{ return 3; }} Module["three"]=three; Module["lost"]=lost;'
    "var wasmImports={{one:one,lost,away:lost}};"
    "if(!value&&!entry.required){{log.push('thrown');}} log.push(wasmImports); return [log, Module]; }}"
)


def test_the_script_keeps_what_something_in_it_reaches_and_nothing_more(told: Any) -> None:  # noqa: ANN401
    script = json.dumps(_PLAIN.format())
    call = f"reached({script}, new Set(['one', 'lost']), new Set(['one']), ['make().three'], parse)"
    kept = told(call)
    assert [name for name in ("one", "two", "three", "lost", "deep", "Gone", "away", "sig") if name in kept] == [
        "one", "two", "three", "lost", "sig",
    ]  # fmt: skip
    assert "function lost" not in kept
    assert "lost.sig" not in kept
    work = (
        f"const [log, Module] = await eval(`(${{{call}}})`)({{}}); const {{ one, lost }} = log.at(-1);"
        "const stopped = (() => { try { return lost(); } catch (error) { return error.message; } })();"
        "return [one(), one.sig, stopped, Object.keys(Module), Module.three(), log.length];"
    )
    assert told(f"(async () => {{ {work} }})()") == [2, "i", "this function was left out", ["three"], 3, 2]


def test_a_script_that_is_not_as_it_was_stops_the_build(told: Any) -> None:  # noqa: ANN401
    call = "reached('async function make() {}', new Set(), new Set(), [], parse)"
    assert told(f"(() => {{ try {{ {call} }} catch (e) {{ return e.message }} }})()").startswith("the script is not as")
