"""The scripts and styles that every page gets: few files, since each one asked for keeps the next waiting.

The notebook has a script of its own, a plain one so that it works in a folder too: `web/notebook/bring.js` asks for it.

esbuild joins the modules of `web/` and writes them short. `site.js.map` shows them as they were written in a browser's
developer tools; no page loads it.
"""

from __future__ import annotations

import json
import os
import subprocess
import tempfile
from pathlib import Path

from calc.draw import stylesheet
from site_build.setup import packages
from site_build.setup.paths import CACHE, WEB
from site_build.setup.progress import StopError

SITE_SCRIPT, SITE_STYLE, WORKER, SERVICE_WORKER = "site.js", "site.css", "worker.js", "sw.js"
SQUARE_CODE = "square-code.js"
"""Draws links as square codes; loaded where somebody asks for one."""
NOTEBOOK = "notebook.js"
NOTE = "note.js"
"""Plays and hears the note of a string; loaded by the one page that has it."""
BEND = "bend.js"
"""Marks points in a picture of a bow; loaded by the one page that has it."""
_SOURCES = {
    SITE_SCRIPT: "site.js",
    WORKER: "worker/worker.js",
    SQUARE_CODE: f"worksheet/{SQUARE_CODE}",
    SERVICE_WORKER: "offline/sw.js",
    NOTEBOOK: "notebook/notebook.js",
    NOTE: "note/note.js",
    BEND: "bend/bend.js",
}
_BUNDLED = {"esm": (SITE_SCRIPT, WORKER, SQUARE_CODE, NOTE, BEND), "iife": (NOTEBOOK,)}
"""Joined scripts by how they are loaded: as modules, or as plain scripts."""
_HEADS = ("before-theme.js", "preload.js")
"""What stands in the head of pages, put there by `offline` and `runtime`."""
_FOLDER = ("offline/folder-page.js", "offline/folder-worker.js")
"""What only the folder to carry has, see `offline/folder.py`."""
_SEARCH = "search-words.js"
"""What goes into the theme's own worker, see `search.py`."""
STYLES = ("site.css", "home.css", "guide.css", "make-along.css", "offline.css", "reference.css", "notebook.css")
_SCRIPTS = ("--bundle", "--entry-names=[name]", "--target=es2022", "--sourcemap=external")


def files() -> dict[str, str]:
    """Return the files of ``assets/web/`` by name: scripts and style of pages, Python's worker, and `sw.js`."""
    styles = "\n".join([stylesheet(), *((WEB / "styles" / name).read_text(encoding="utf-8") for name in STYLES)])
    made, _ = _bundled()
    return {
        SITE_SCRIPT: f"{made[SITE_SCRIPT]}//# sourceMappingURL={SITE_SCRIPT}.map\n",
        f"{SITE_SCRIPT}.map": made[f"{SITE_SCRIPT}.map"],
        SITE_STYLE: _esbuild("--loader=css", text=styles),
        WORKER: made[WORKER],
        SQUARE_CODE: made[SQUARE_CODE],
        NOTEBOOK: made[NOTEBOOK],
        NOTE: made[NOTE],
        BEND: made[BEND],
        SERVICE_WORKER: _esbuild(
            "--loader=js", "--target=es2022", text=(WEB / _SOURCES[SERVICE_WORKER]).read_text(encoding="utf-8")
        ),
    }


def unused() -> set[str]:
    """Return the names of scripts and styles that nothing would load."""
    _, used = _bundled()
    there = {path.relative_to(WEB).as_posix() for path in WEB.rglob("*") if path.suffix in {".js", ".css"}}
    taken = {_SEARCH, _SOURCES[SERVICE_WORKER], *_HEADS, *_FOLDER, *(f"styles/{name}" for name in STYLES)}
    return there - used - taken


def _bundled() -> tuple[dict[str, str], set[str]]:
    """Return the joined scripts and their maps, and the names of the modules in them."""
    CACHE.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=CACHE) as folder:
        told = {form: Path(folder) / f"{form}.json" for form in _BUNDLED}
        for form, names in _BUNDLED.items():
            sources = (_SOURCES[name] for name in names)
            _esbuild(*sources, *_SCRIPTS, f"--format={form}", f"--outdir={folder}", f"--metafile={told[form]}")
        made = {path.name: path.read_text(encoding="utf-8") for path in Path(folder).iterdir()}
    return made, {used for target in told.values() for used in json.loads(made.pop(target.name))["inputs"]}


def _esbuild(*words: str, text: str = "") -> str:
    """Run esbuild in `web/` on a text or on files, and return what it writes.

    Raises
    ------
    StopError
        With its lines, when it finds an error or has a warning.
    """
    tool = packages.fetch("esbuild") / "bin" / "esbuild"
    command = [*packages.node_tool("node"), str(tool), *words, "--minify", "--charset=utf8", "--log-level=warning"]
    found = os.environ | {"NODE_PATH": str(packages.ensure("site") / "node_modules")}
    ran = subprocess.run(command, cwd=WEB, env=found, input=text, capture_output=True, encoding="utf-8", check=False)
    if ran.returncode or ran.stderr:
        raise StopError(f"{ran.stderr}A script or style cannot be joined: put right what stands above.")
    return ran.stdout
