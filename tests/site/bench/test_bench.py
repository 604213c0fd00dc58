"""The page of speeds is written from the committed figures, and says what was missed."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from typing import TYPE_CHECKING, Any

import pytest

from site_build.bench import report, sizes
from site_build.setup.paths import ROOT

if TYPE_CHECKING:
    from pathlib import Path

DATA = ROOT / "docs" / "reference" / "speed.json"
PAGE = ROOT / "docs" / "reference" / "speed.md"


@pytest.fixture
def found() -> dict[str, Any]:
    """Return figures small enough to check by eye."""
    one = {"median": 20.0, "least": 10.0, "most": 30.0}
    two = {"median": 100.0, "least": 90.0, "most": 110.0}
    times = {"this site": {"first visit": one}, "stock Pyodide": {"first visit": two}}
    slow = {"this site": {"first visit": two}, "stock Pyodide": {"first visit": two}}
    sizes = [3_000_000, 2_000_000, 1_200_000]
    return {
        "rounds": 5, "date": "2026-01-02", "browser": "1.2", "machine": "2 cores",
        "times": {"whole machine": times, "half a core": slow},
        "bytes": {"this site": sizes, "stock Pyodide": [4_000_000, 3_000_000, 1_000_000], "search": sizes,
                  "update": sizes, "pages": {"twist": [1, 1, 100_000], "club": [1, 1, 190_000]}},
        "sums": {"twist": {"first": 7.0, "p50": 3.0, "p95": 21.0, "most": 30.0, "count": 9},
                 "shot": {"first": 95.0, "p50": 90.0, "p95": 140.0, "most": 190.0, "count": 8}},
        "native": {"a lay": {"median": 0.02, "least": 0.01, "most": 0.03}},
    }  # fmt: skip


def test_ratios_and_aims_are_those_of_the_figures(found: dict[str, Any]) -> None:
    page = report.page(found)
    assert "| First visit, nothing kept | 20 (10 to 30) | 100 (90 to 110) | **0.20** | 0.33: kept |" in page
    assert "| First visit, nothing kept | 100 (90 to 110) | 100 (90 to 110) | **1.00** | 0.36: missed |" in page
    assert "stock: **1.20** by brotli (aim 1.00: missed), 0.67 by gzip" in page
    assert "A page before Python: 190 kB (aim 180 kB: missed)" in page
    assert "| `twist` | 7.0 | 3.0 | 21.0 | 30.0 | 9 | 20: missed |" in page
    assert "| `shot` | 95.0 | 90.0 | 140.0 | 190.0 | 8 | 150: kept |" in page
    assert "| a lay | 0.020 | 0.010 | 0.030 |" in page


@pytest.mark.parametrize("missing", [("bytes",), ("sums", "native"), ("bytes", "sums", "native", "times")])
def test_what_is_not_measured_yet_is_left_out(found: dict[str, Any], missing: tuple[str, ...]) -> None:
    whole = report.page(found)
    part = report.page(
        {key: each for key, each in found.items() if key not in missing}
        | {"times": found["times"] if "times" not in missing else {}}
    )
    assert set(part.splitlines()) <= set(whole.splitlines())
    assert len(part) < len(whole)


def test_a_round_of_which_only_one_side_is_measured_has_no_ratio(found: dict[str, Any]) -> None:
    del found["times"]["whole machine"]["stock Pyodide"]
    assert "| First visit, nothing kept | 20 (10 to 30) |  |  |" in report.page(found)


@pytest.mark.skipif(os.name == "nt", reason="Windows ends a program in another way")
@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM], ids=lambda each: each.name)
def test_a_bench_that_is_stopped_shows_what_it_has(number: signal.Signals) -> None:
    script = (
        "import sys, time\n"
        "from site_build.bench import run as bench\n"
        "found = {'date': 'today', 'browser': '1', 'machine': '2 cores', 'rounds': 1, 'times': {}}\n"
        "bench.show_when_stopped(found)\n"
        "print('ready', flush=True)\n"
        "time.sleep(60)\n"
    )
    program = subprocess.Popen(
        [sys.executable, "-c", script], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, cwd=ROOT
    )
    assert program.stdout is not None
    assert program.stdout.readline() == "ready\n"
    program.send_signal(number)
    shown, _ = program.communicate(timeout=60)
    assert "measured in one run on today" in shown
    assert f"Stopped by {number.name}: what was not measured yet is left out." in shown
    assert program.returncode != 0


def test_scores_are_told_with_the_aims_they_miss(found: dict[str, Any]) -> None:
    assert "Lighthouse" not in report.page(found)
    best = {"performance": 95, "accessibility": 100, "best-practices": 100, "seo": 100}
    page = report.page({**found, "lighthouse": {"home": best, "a guide": {**best, "performance": 94, "seo": 99}}})
    assert "| home | 95 | 100 | 100 | 100 | kept |" in page
    assert "| a guide | 94 | 100 | 100 | 99 | performance, seo missed |" in page


def test_bytes_are_those_of_the_files(tmp_path: Path) -> None:
    plain, same = tmp_path / "plain", tmp_path / "same"
    plain.write_bytes(bytes(range(256)))
    same.write_bytes(b"a" * 10_000)
    told = sizes.measured([plain, same])
    assert told.raw == 10_256
    assert told.brotli < told.gzip < 700
    assert sizes.measured([plain, same]) == told
    assert [len(each) for each in sizes.packed([plain, same])] == [
        sizes.measured([each]).brotli for each in (plain, same)
    ]


def test_a_page_takes_all_that_its_scripts_and_styles_load(tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "a" / "index.html").write_text(
        '<link rel="stylesheet" href="../s.css"><script src="../one.js"></script>'
        '<link rel="manifest" href="../app.webmanifest">'
    )
    (tmp_path / "s.css").write_text("@font-face { src: url('face.woff2'); } a { background: url(#x) }")
    (tmp_path / "one.js").write_text("import { two } from './two.js';\n")
    for name in ("face.woff2", "two.js"):
        (tmp_path / name).write_text("")
    found = [path.name for path in sizes.page(tmp_path, "a/index.html")]
    assert found == ["index.html", "s.css", "face.woff2", "one.js", "two.js"]


@pytest.mark.skipif(not DATA.is_file(), reason="nothing was measured yet")
def test_the_committed_page_is_that_of_the_committed_figures() -> None:
    assert PAGE.read_text(encoding="utf-8") == report.page(json.loads(DATA.read_text(encoding="utf-8")))
