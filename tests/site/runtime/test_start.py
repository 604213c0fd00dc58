"""What lets Python start sooner: the head, the search asleep, the zip put in place, the snapshot of the memory."""

from __future__ import annotations

import io
import json
import re
import subprocess
import tomllib
import traceback
import zipfile
from pathlib import Path
from typing import Any

import pytest

from site_build.pages import scripts, search
from site_build.runtime import bundle, preload, snapshot
from site_build.runtime.in_pyodide import stand_ins
from site_build.runtime.in_pyodide.lines import lineless
from site_build.setup import packages
from site_build.setup.paths import ROOT, WEB
from site_build.setup.progress import StopError

pytestmark = pytest.mark.exact
HTML = """<head></head><main data-worksheet="string"></main>
<script src="../../assets/web/site.js" type="module"></script>"""


def node(tmp_path: Path, script: str, *words: object) -> str:
    """Run a module and return what it printed."""
    file = tmp_path / "script.mjs"
    file.write_text(script, encoding="utf-8")
    ran = subprocess.run(
        [*packages.node_tool("node"), file, *map(str, words)], capture_output=True, text=True, check=True
    )
    return ran.stdout


def test_a_worksheets_head_starts_python() -> None:
    head = preload.hastened(HTML).partition("</head>")[0]
    assert head.count("<script data-early>") == 1
    assert "new URL('../../assets/web/worker.js'" in head


def test_a_page_asks_for_its_face_before_its_styles() -> None:
    styles = '<link rel="stylesheet" href="../a.css"><link rel="stylesheet" href="../assets/web/site.css">'
    made = preload.with_faces(f"<head>{styles}</head>")
    asked = re.findall(r'<link rel="preload" href="([^"]*)" as="font" type="font/woff2" crossorigin>', made)
    assert asked == [f"../{bundle.FONTS}/{name}" for name in bundle.FONT_FILES]
    assert made.rindex("preload") < made.index("stylesheet")
    assert preload.with_faces("<head></head>") == "<head></head>"


def test_every_script_and_style_is_in_what_pages_load() -> None:
    assert scripts.unused() == set()
    made = scripts.files()
    modules = {Path(each).name for each in json.loads(made["site.js.map"])["sources"]}
    assert {"page.js", "client.js", "counts.js", "messages.js"} <= modules
    assert ".d-fill-ink" in made[scripts.SITE_STYLE]
    assert "the zip is not whole" in made[scripts.WORKER]
    for name in (scripts.SITE_SCRIPT, scripts.WORKER):
        assert not re.search(r"(?:^|;)(?:import|export)\b(?!\()|/\*\*", made[name], re.MULTILINE), (
            "one file, without comments"
        )


def test_a_script_that_cannot_be_joined_stops_the_build(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "worker").mkdir()
    for name in ("site.js", "worker/worker.js"):
        (tmp_path / name).write_text("import { none } from './nowhere.js';\nnone();\n")
    monkeypatch.setattr(scripts, "WEB", tmp_path)
    with pytest.raises(StopError, match=r"nowhere\.js(.|\n)*put right what stands above"):
        scripts.unused()


def test_other_pages_start_nothing() -> None:
    assert "data-early" not in preload.hastened(HTML.replace("data-worksheet", "data-other"))
    assert preload.hastened("<head></head>") == "<head></head>"


def test_what_a_head_gains_is_found_again() -> None:
    assert preload.MARKED.sub("", preload.hastened(HTML)).replace("\n", "") == HTML.replace("\n", "")


def test_the_early_script_is_one_line_and_has_no_comment() -> None:
    text = preload.script()
    assert "\n" not in text
    assert "//" not in text
    assert "/*" not in text


def test_the_search_begins_when_it_is_opened(tmp_path: Path) -> None:
    with pytest.raises(StopError, match="not where it was"):
        search.install(tmp_path)
    folder = tmp_path / "assets/javascripts"
    (folder / "workers").mkdir(parents=True)
    (tmp_path / "search").mkdir()
    query = folder / "workers/search.0b.min.js"
    query.write_text("if(e=g(e),!e)return{items:[]};")
    sections = [{"location": each} for each in tomllib.loads(search.NAMES.read_text(encoding="utf-8"))]
    (tmp_path / "search/search_index.json").write_text(json.dumps({"docs": sections}))
    script = folder / "bundle.0a.min.js"
    index = 'a($(location.protocol!=="file:"),b("search"));c(location.protocol!=="file:")'
    worker = "function d(e,t=new Worker(e)){};f(new Worker(e))"
    script.write_text(index + worker)
    search.install(tmp_path)
    once = script.read_text()
    assert once.startswith('a($(!"at once"),b("search"));c(location.protocol!=="file:")function d(e,t=(address=>{let ')
    assert once.endswith("return heard})(e)){};f(new Worker(e))")
    assert search.later(once) == once
    assert query.read_text().endswith("if(e=self.weighed(e,this.index,this.map.size)||g(e),!e)return{items:[]};")
    for wrong in (index, worker, 2 * index + worker, index + 2 * worker):
        with pytest.raises(StopError, match=r"begins at [02] places"):
            search.later(wrong)


@pytest.fixture(scope="module")
def made() -> snapshot.Trimmed:
    """Return the two zips of this tree."""
    return snapshot.trimmed(packages.fetch("pyodide"), bundle.calc_files())


def test_the_library_brings_no_event_loop(made: snapshot.Trimmed) -> None:
    whole = packages.fetch("pyodide") / "python_stdlib.zip"
    with zipfile.ZipFile(io.BytesIO(made.library)) as held, zipfile.ZipFile(whole) as stock:
        names = held.namelist()
        assert {"dataclasses.pyc", "re/_compiler.pyc"} <= set(names)
        assert [name for name in names if name.startswith("asyncio/")] == ["asyncio/__init__.pyc"]
        assert len(names) < len(stock.namelist()) / 5


def test_a_library_without_what_others_stand_in_for_stops_the_build() -> None:
    whole = {**dict.fromkeys(stand_ins.STAND_INS, b"import ssl\n"), "calendar.py": b"a = 1\n"}
    assert stand_ins.replaced(whole)["calendar.py"] == b"a = 1\n"
    assert stand_ins.replaced(whole)["pyodide/common.py"] == b""
    del whole["pyodide/common.py"]
    with pytest.raises(ValueError, match=r"has no pyodide/common\.py"):
        stand_ins.replaced(whole)


def test_code_without_lines_runs_and_still_tells_what_went_wrong() -> None:
    """What has no line is told without one, also by CPython's own table of positions."""
    source = "def failing(a):\n    b = [a + c for c in range(3)]\n    b.append(a)\n    return 1 / b[0]\n"
    held: dict[str, Any] = {}
    exec(lineless(compile(source, "it.py", "exec")), held)  # noqa: S102 - our own few lines
    assert held["failing"](4) == 0.25
    assert set(held["failing"].__code__.co_positions()) == {(None, None, None, None)}
    with pytest.raises(ZeroDivisionError) as raised:
        held["failing"](0)
    said = "".join(traceback.format_exception(raised.value))
    assert "in failing" in said
    assert said.endswith("ZeroDivisionError: division by zero\n")


UNPACK = f"""
import {{ readFileSync }} from 'node:fs';
import {{ unpack }} from 'file://{(WEB / "worker/unzip.js").as_posix()}';
const said = [];
const files = {{
  mkdirTree: (name) => said.push(name),
  writeFile: (name, bytes) => said.push([name, new TextDecoder('latin1').decode(bytes)]),
}};
try {{
  unpack(files, new Uint8Array(readFileSync(process.argv[2])), '/here');
}} catch (error) {{
  said.push(error.message);
}}
console.log(JSON.stringify(said));
"""


def test_the_files_of_a_zip_come_to_their_place(tmp_path: Path) -> None:
    archive = tmp_path / "a.zip"
    with zipfile.ZipFile(archive, "w") as held:
        for name, text in {"a.py": "one", "b/c.py": "", "b/d.py": "two"}.items():
            held.writestr(name, text)
    said = json.loads(node(tmp_path, UNPACK, archive))
    files = [["/here/a.py", "one"], ["/here/b/c.py", ""], ["/here/b/d.py", "two"]]
    assert said == ["/here", files[0], "/here/b", *files[1:]]
    archive.write_bytes(archive.read_bytes()[:-1])
    assert json.loads(node(tmp_path, UNPACK, archive)) == ["the zip is not whole"]


def test_the_snapshot_tells_nothing_of_where_it_was_made(made: snapshot.Trimmed) -> None:
    assert made.snapshot.startswith(b"\0snp")
    for place in (str(ROOT), "snapshot.mjs"):
        assert place.encode() not in made.snapshot


SNAPSHOT = f"""
import {{ PAGE, awaited }} from 'file://{(WEB / "worker/snapshot.js").as_posix()}';
const WASM_PAGE = 65536;
const kept = new Uint8Array(16 + 4 * (3 + 3) + 3 * PAGE);
kept.set(Array.from({{ length: 16 }}, (_, at) => at));
new Uint32Array(kept.buffer, 16, 6).set([2 * WASM_PAGE, 2 * PAGE, 3, 1, 3, 31]);
kept.fill(7 ^ 5, 40, 40 + PAGE).fill(9, 40 + PAGE, 40 + 2 * PAGE).fill(11, 40 + 2 * PAGE);
const tell = (bytes) => {{
  const memory = new WebAssembly.Memory({{ initial: 1 }});
  const first = new Uint8Array(memory.buffer).fill(5, 0, 2 * PAGE); // laid out by the WebAssembly
  const {{ snapshot, arrived }} = awaited(16);
  try {{
    arrived(bytes, {{ memory, sbrk: () => 5 * PAGE }});
    const now = new Uint8Array(memory.buffer);
    now.fill(1, 0, 5 * PAGE); // what ran meanwhile
    const head = [...snapshot.subarray(0, 16)];
    const untouched = now.subarray(0, 5 * PAGE).every((byte) => byte === 1);
    const rest = snapshot.subarray(16).length;
    const seen = [0, 1, 2, 3, 4, 5, 31].map((page) => now[page * PAGE + 100]);
    return [head, untouched, rest, now.length / WASM_PAGE, seen];
  }} catch (error) {{
    return error.message;
  }}
}};
console.log(JSON.stringify([tell(kept), tell(kept.slice(0, -1)), tell(kept.slice(0, 16 + 12))]));
"""


def test_a_snapshot_makes_the_memory_as_it_was_when_it_is_asked_for(tmp_path: Path) -> None:
    told = json.loads(node(tmp_path, SNAPSHOT))
    broken = "the snapshot of the memory is not whole"
    assert told == [[list(range(16)), True, 0, 2, [5, 7, 0, 9, 0, 0, 11]], broken, broken]
