"""What Lighthouse says of three pages on a phone: the median of some rounds, out of 100, through gzip as a host has it.

`python3 -m site_build.bench.lighthouse` shows it alone. Lighthouse comes from npm with all it needs, by the hashes in
`locks/lighthouse/`.
"""

from __future__ import annotations

import json
import tempfile
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING, Any

from site_build.bench.visits import FLAGS
from site_build.cli import serving
from site_build.setup import chromium, packages
from site_build.setup.paths import LOCKS, SITE
from site_build.setup.programs import run_logged
from site_build.setup.progress import StopError, say, step
from site_build.setup.reasons import reason

if TYPE_CHECKING:
    from collections.abc import Mapping

ROUNDS = 3
PAGES = {"home": "", "a guide": "guides/two-bundle/", "a worksheet": "worksheets/string/"}
CATEGORIES = ("performance", "accessibility", "best-practices", "seo")
AIMS = {"performance": 95, "accessibility": 100, "best-practices": 100, "seo": 100}
_SECONDS = 300.0


def scores(site: Path, browser: Path, rounds: int = ROUNDS) -> dict[str, dict[str, float]]:
    """Return what each page gets in each category: the median of some rounds.

    Raises
    ------
    StopError
        When Lighthouse ends without a report.
    """
    script = packages.ensure("lighthouse", here=LOCKS / "lighthouse") / "node_modules/lighthouse/cli/index.js"
    taken: dict[str, list[dict[str, float]]] = {name: [] for name in PAGES}
    with serving.running(serving.Server(site, 0, compresses=True)) as server:
        for turn in range(rounds):
            for name, path in PAGES.items():
                with step(f"Lighthouse on {name}, {turn + 1} of {rounds}"):
                    taken[name].append(_asked(script, browser, server.address + path))
    return {
        name: {key: float(median(each[key] for each in told)) for key in CATEGORIES} for name, told in taken.items()
    }


def _asked(script: Path, browser: Path, address: str) -> dict[str, float]:
    with tempfile.TemporaryDirectory() as folder:
        report = Path(folder) / "report.json"
        flags = f"--chrome-flags=--headless=new {' '.join(FLAGS)}"
        command = [*packages.node_tool("node"), script, address, "--quiet", "--output=json", f"--output-path={report}"]
        ran = run_logged([*command, flags], "lighthouse", more={"CHROME_PATH": str(browser)}, seconds=_SECONDS)
        if not report.is_file():
            raise StopError(reason("Lighthouse", ran.output, "lighthouse"))
        return read(json.loads(report.read_text(encoding="utf-8")))


def read(report: Mapping[str, Any]) -> dict[str, float]:
    """Return the scores of a report, out of 100.

    >>> read({"categories": {name: {"score": 0.97} for name in CATEGORIES}})["seo"]
    97
    """
    return {name: round(100 * (report["categories"][name]["score"] or 0.0)) for name in CATEGORIES}


def rows(found: Mapping[str, Mapping[str, float]]) -> list[list[str]]:
    """Return a table's rows: each score, and which were missed.

    >>> rows({"home": {"performance": 94, "accessibility": 100, "best-practices": 100, "seo": 100}})
    [['home', '94', '100', '100', '100', 'performance missed']]
    """
    told = []
    for name, each in found.items():
        missed = [key for key in CATEGORIES if each[key] < AIMS[key]]
        told.append(
            [name, *(f"{each[key]:g}" for key in CATEGORIES), f"{', '.join(missed)} missed" if missed else "kept"]
        )
    return told


def main() -> int:
    """Show the scores of the built site."""
    browser = chromium.installed()
    if browser is None:
        raise StopError("There is no Chromium to measure in.")
    for row in rows(scores(SITE, browser)):
        say("  ".join(row))
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
