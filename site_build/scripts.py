"""The scripts and styles that every page gets: few files, since each one asked for keeps the next waiting."""

from __future__ import annotations

from calc.draw import stylesheet
from site_build.joining import gathered, joined
from site_build.markup import WEB

PAGE = ("page.js", "guide.js", "offline.js")
STYLES = ("site.css", "guide.css", "along.css", "offline.css", "reference.css")
SITE_SCRIPT, SITE_STYLE, WORKER = "site.js", "site.css", "worker.js"
APART = "sw.js"


def files() -> dict[str, str]:
    """Return the files of ``assets/web/`` by name: the pages' script and style, Python's worker, and `sw.js`."""
    modules = {path.name: path.read_text(encoding="utf-8") for path in sorted(WEB.glob("*.js"))}
    styles = [stylesheet(), *((WEB / name).read_text(encoding="utf-8") for name in STYLES)]
    return {
        SITE_SCRIPT: joined(modules, *PAGE),
        SITE_STYLE: "\n".join(styles),
        WORKER: joined(modules, WORKER),
        APART: modules[APART],
    }


def unused() -> set[str]:
    """Return the names of scripts and styles that nothing would load."""
    modules = {path.name: path.read_text(encoding="utf-8") for path in sorted(WEB.glob("*.js"))}
    used = {*gathered(modules, *PAGE, WORKER), APART, *STYLES}
    return {path.name for path in WEB.iterdir() if path.suffix in {".js", ".css"}} - used
