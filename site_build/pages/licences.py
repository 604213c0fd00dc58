"""The licence of every part that a reader's browser gets, as files of the site; `licences.md` lists them."""

from __future__ import annotations

from importlib.metadata import distribution

from site_build.setup import packages
from site_build.setup.paths import ROOT

FOLDER = "assets/licences"
"""In `docs/` it holds the texts that come with no package: those of Python and Pyodide."""
SHIPPED = ("@fontsource/atkinson-hyperlegible", "idb", "iframe-worker", "uqr")
"""Packages from the npm registry of which something is in the site, and which bring their licence."""
THEME = "mkdocs-material"


def files() -> dict[str, str]:
    """Return the texts by their addresses, those in `docs/` apart."""
    made = {name: (packages.fetch(name) / "LICENSE").read_text(encoding="utf-8") for name in SHIPPED}
    texts = {path.parent.name: path for path in distribution(THEME).files or () if path.name == "LICENSE"}
    made |= {THEME: texts["licenses"].read_text("utf-8"), f"{THEME}-icons": texts["material"].read_text("utf-8")}
    made["plied-true"] = (ROOT / "LICENSE").read_text(encoding="utf-8")
    return {f"{FOLDER}/{name.rpartition('/')[2]}.txt": text for name, text in made.items()}
