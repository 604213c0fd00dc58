"""The table of faults: each test in it exists, and each sentence stands in the code as it is quoted."""

from __future__ import annotations

import re
from functools import cache

import pytest

from site_build.setup.paths import ROOT, WEB

pytestmark = pytest.mark.contract
ROWS = [
    tuple(cell.strip() for cell in line.strip("|\n").split(" | "))
    for line in (ROOT / "docs" / "reference" / "code" / "faults.md").read_text(encoding="utf-8").splitlines()
    if line.startswith("| ") and "`test_" in line
]


@cache
def all_tests() -> frozenset[str]:
    """Return the name of every test."""
    files = (ROOT / "tests").rglob("test_*.py")
    found = (name for path in files for name in re.findall(r"^def (test_\w+)\(", path.read_text("utf-8"), re.MULTILINE))
    return frozenset(found)


@cache
def code() -> str:
    """Return all that can say something to a reader, its blanks as one."""
    texts = [*WEB.rglob("*.js"), *WEB.rglob("*.html"), *(ROOT / "calc").rglob("*.py")]
    return " ".join(" ".join(path.read_text(encoding="utf-8") for path in sorted(texts)).split())


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[0])
def test_a_fault_has_a_test_and_says_what_the_code_says(row: tuple[str, ...]) -> None:
    _, seen, named = row
    assert named.strip("`") in all_tests()
    for words in re.findall(r'"([^"]+)"', seen):
        assert words in code()


def test_no_two_rows_tell_of_one_fault() -> None:
    assert len({row[0] for row in ROWS}) == len(ROWS) >= 30
