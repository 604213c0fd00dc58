"""The bench: this site beside stock Pyodide, MicroPython and plain JavaScript, in one run, as ratios.

`python3 -m site_build bench` brings what it needs and runs this file; it writes `docs/reference/speed.json` and, from
that alone, `docs/reference/speed.md`. Times are told, never tested.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import re
import signal
import sys
import tempfile
from datetime import UTC, datetime
from pathlib import Path
from statistics import median, quantiles
from typing import TYPE_CHECKING, Any

from playwright.sync_api import sync_playwright

from site_build.bench import hosts, lighthouse, sizes, visits
from site_build.bench.bow import bow_times
from site_build.bench.native_sums import native
from site_build.bench.report import page
from site_build.cli import serving
from site_build.setup import chromium
from site_build.setup.paths import CACHE, ROOT, SITE
from site_build.setup.programs import run_logged
from site_build.setup.progress import StopError, say, step

if TYPE_CHECKING:
    from collections.abc import Iterable

DATA = ROOT / "docs/reference/speed.json"
PAGE = ROOT / "docs/reference/speed.md"
HALF = 0.5
STOPPED = 130
_STOPS = (signal.SIGINT, signal.SIGTERM)
ROUNDS, QUICK_ROUNDS = 5, 1
SUMS_A_ROUND, QUICK_SUMS = 4, 2
READ_WORDS = {3000: "three", 5000: "five"}
PAIR = ("this site", "stock Pyodide")
WHOLE_NAME, HALF_NAME, LINK_NAME = "whole machine", "half a core", "9 Mbit/s link"


def spread(values: list[float]) -> dict[str, float]:
    """Return median, least and most, to a tenth.

    >>> spread([3.0, 1.0, 2.0])
    {'median': 2.0, 'least': 1.0, 'most': 3.0}
    """
    return {"median": round(median(values), 1), "least": round(min(values), 1), "most": round(max(values), 1)}


def share(values: list[float]) -> dict[str, float]:
    """Return the 50th and the 95th of a hundred, the most, and how many there were.

    >>> share([float(each) for each in range(1, 101)])
    {'p50': 50.5, 'p95': 95.0, 'most': 100.0, 'count': 100}
    """
    cut = quantiles(values, n=20, method="inclusive")[18]
    return {"p50": round(median(values), 1), "p95": round(cut, 1), "most": round(max(values), 1), "count": len(values)}


def run(found: dict[str, Any], rounds: int, browser: Path, scratch: Path, *, quick: bool = False) -> None:
    """Measure everything once; what is measured stands in `found` as soon as it is known.

    A quick look leaves out the two floors, and compresses as a host does on the way.
    """
    folders = hosts.make(scratch, SITE)
    pair = {name: folders[name] for name in PAIR}
    found |= {
        "date": datetime.now(UTC).date().isoformat(),
        "rounds": rounds,
        "browser": chromium_version(browser),
        "machine": f"{visits.cores()} cores, {platform.machine()}, {platform.system()}",
        "read": READ_WORDS[visits.READ_MS],
        "times": {},
    }
    times: dict[str, Any] = found["times"]
    with sync_playwright() as play:
        _rounds(times.setdefault(WHOLE_NAME, {}), play, browser, pair if quick else folders, rounds)
        with visits.cpu_share(HALF) as join:
            if join:
                _rounds(times.setdefault(HALF_NAME, {}), play, browser, pair, rounds, join=join)
        _link_rounds(times.setdefault(LINK_NAME, {}), play, browser, pair, rounds)
        with step("Sums, worksheet by worksheet"), visits.browser(play, browser, None) as context:
            taken = visits.sums(context, SITE, QUICK_SUMS if quick else SUMS_A_ROUND * rounds)
    found["sums"] = {key: {"first": round(first, 1), **share(values)} for key, (first, values) in taken.items()}
    found["bytes"] = _bytes(SITE, sizes.ON_THE_WAY if quick else sizes.HARDEST)
    found["native"] = _native()
    if not quick:
        found["lighthouse"] = lighthouse.scores(SITE, browser)
    found["load"] = loaded()


def chromium_version(browser: Path) -> str:
    """Return what a browser calls its version."""
    found = re.search(r"\d+(\.\d+)+", run_logged([browser, "--version"], "chromium", seconds=60).output)
    return found[0] if found else "of an unknown version"


def loaded() -> str:
    """Return a sentence when the machine had other work to do, or an empty text."""
    load, cores = os.getloadavg()[1] if hasattr(os, "getloadavg") else 0.0, visits.cores()
    if load <= cores:
        return ""
    return f" The machine had other work to do all the while (about {load:.0f} programs at once)."


def _rounds(
    told: dict[str, Any],
    play: Any,  # noqa: ANN401 - Playwright's own
    browser: Path,
    folders: dict[str, Path],
    rounds: int,
    *,
    join: Path | None = None,
) -> None:
    taken: dict[str, dict[str, list[float]]] = {name: {} for name in folders}
    for turn in range(rounds):
        with step(f"Round {turn + 1} of {rounds}{' on half a core' if join else ''}"):
            for name, folder in folders.items():
                ours = name == "this site"
                with visits.browser(play, browser, join, keeps=False) as context:
                    took = visits.fetched(context, folder, ours=ours)
                with visits.browser(play, browser, join) as context:
                    took |= visits.kept(context, folder, ours=ours)
                for visit, value in took.items():
                    taken[name].setdefault(visit, []).append(value)
                told[name] = {visit: spread(values) for visit, values in taken[name].items()}


def _link_rounds(told: dict[str, Any], play: Any, browser: Path, folders: dict[str, Path], rounds: int) -> None:  # noqa: ANN401
    for name, folder in folders.items():
        paths = sorted(
            path
            for path in folder.rglob("*")
            if path.is_file() and path.suffix not in {".map", ".gz"} and "lunr" not in path.parts
        )
        contents = sizes.packed(paths, sizes.ON_THE_WAY)
        packed = dict(zip((path.relative_to(folder).as_posix() for path in paths), contents, strict=True))
        values = []
        for turn in range(rounds):
            host = hosts.BenchHost(folder, hosts.SharedLink(), packed)
            said = step(f"{name} over a link, {turn + 1} of {rounds}")
            with said, serving.running(host), visits.browser(play, browser, None) as context:
                values.append(visits.over_link(context, host, ours=name == "this site"))
            told[name] = {visits.COLD: spread(values)}


def _bytes(site: Path, quality: int) -> dict[str, Any]:
    def measured(files: Iterable[Path]) -> sizes.Bytes:
        return sizes.measured(files, quality)

    with step("Bytes"):
        pages = {path.parent.name: path for path in sorted((site / "worksheets").glob("*/index.html"))}
        before = {key: measured(sizes.page(site, f"worksheets/{key}/index.html")) for key in pages}
        index = [site / "search/search_index.json", *site.glob("assets/javascripts/workers/search.*.js")]
        update = [site / "guides/brace/index.html", site / "sw.js", index[0]]
        return {
            "this site": measured(sizes.ours(site)),
            "stock Pyodide": measured(sizes.stock()),
            "search": measured(index),
            "update": measured(update),
            "pages": before,
        }


def _native() -> dict[str, dict[str, float]]:
    with step("The same machine's own Python"):
        geometry = {name: (each.median_s, each.least_s, each.most_s) for name, each in native().items()}
        return {
            name: {key: round(1000 * value, 3) for key, value in zip(("median", "least", "most"), each, strict=True)}
            for name, each in {**geometry, **bow_times()}.items()
        }


def main() -> int:
    """Measure, write the figures and the page; what is there when it is stopped is shown and not written."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--quick", action="store_true")
    parser.add_argument("--rounds", type=int, default=ROUNDS)
    parser.add_argument("--page", action="store_true")
    asked = parser.parse_args()
    if asked.page:
        PAGE.write_text(page(json.loads(DATA.read_text(encoding="utf-8"))), encoding="utf-8")
        return 0
    browser = chromium.installed()
    if browser is None:
        raise StopError("There is no Chromium to measure in.")
    found: dict[str, Any] = {}
    show_when_stopped(found)
    with tempfile.TemporaryDirectory(dir=CACHE) as scratch:
        run(found, QUICK_ROUNDS if asked.quick else asked.rounds, browser, Path(scratch), quick=asked.quick)
    text = json.dumps(found, indent=1, sort_keys=False) + "\n"
    if asked.quick:
        say(page(json.loads(text)))
        return 0
    DATA.write_text(text, encoding="utf-8")
    PAGE.write_text(page(json.loads(text)), encoding="utf-8")
    return 0


def show_when_stopped(found: dict[str, Any]) -> None:
    """Let Ctrl-C and an end from outside show first what is there; a second Ctrl-C ends at once."""

    def shown(number: int, _frame: object) -> None:
        for each in _STOPS:
            signal.signal(each, signal.SIG_IGN)
        told = [page(json.loads(json.dumps(found)))] if found else []
        told.append(f"Stopped by {signal.Signals(number).name}: what was not measured yet is left out.\n")
        rest = "\n".join(told).encode()
        while rest:  # past Python's own buffer, which may just be in use
            rest = rest[os.write(sys.stdout.fileno(), rest) :]
        signal.signal(signal.SIGINT, signal.SIG_DFL)
        raise KeyboardInterrupt

    for each in _STOPS:
        signal.signal(each, shown)


if __name__ == "__main__":
    try:
        raise SystemExit(main())
    except KeyboardInterrupt:
        raise SystemExit(STOPPED) from None
