"""A worksheet takes one folder and one page: those that the reference shows, put into a copy and tried."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from typing import TYPE_CHECKING, Any, cast

import pytest

from calc.worksheets import catalogue
from site_build.setup.paths import NPM, ROOT

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.exact
SAMPLE = re.compile(r"^`(?P<path>[\w/.-]+)`[^\n]*:\n\n```\w+\n(?P<text>.*?)^```$", re.MULTILINE | re.DOTALL)
"""A file as the page shows it: its path, then its whole text in a fence."""
LONGEST = 70
"""Lines of a whole worksheet, beside its page."""
PAGE = ROOT / "docs" / "reference" / "code" / "worksheet.md"
EXAMPLES, SYSTEMS = 3, 2
_SEE = """
import json, sys
from calc import bridge, share
from calc.worksheets import catalogue
from site_build.pages import hooks
from site_build.pages.worksheets import write_blocks
handle = lambda **ask: json.loads(bridge.handle(json.dumps({"v": 1, "id": 1, **ask})))
page = open("docs/worksheets/reel.md", encoding="utf-8").read().split("---", 2)[2]
typed = {"reel_mass": "8 oz", "yarn": "0.25 g / 50 m", "cut_length": "81 in", "strand_count": "12"}
link = share.encode(catalogue()["reel"], typed, "inch")
print(json.dumps({
    "order": list(catalogue()),
    "navigation": hooks.on_config(type("Config", (), {"nav": [{"Worksheets": []}]})).nav[0]["Worksheets"],
    "html": "".join(write_blocks(page).blocks.values()),
    "usual": handle(worksheet="reel", system="metric", inputs={**typed, "yarn": "167 tex", "reel_mass": "250 g"}),
    "refused": handle(worksheet="reel", system="inch", inputs={**typed, "yarn": "167 tex", "reel_mass": "1 g"}),
    "converted": handle(convert="reel", to="metric", inputs=typed),
    "typed": typed,
    "link": link,
    "opened": handle(open=link, system="inch"),
}))
"""


def run(project: Path, *command: str) -> str:
    """Run a Python command in the copy and return what it prints."""
    done = subprocess.run([sys.executable, *command], cwd=project, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a copy of the project with one worksheet more."""
    copy = tmp_path_factory.mktemp("project")
    for folder in ("calc", "site_build", "docs", "tests"):
        shutil.copytree(ROOT / folder, copy / folder)  # with what Python compiled of it
    shutil.copy(ROOT / "pyproject.toml", copy)
    (copy / ".cache").mkdir()
    (copy / ".cache" / "npm").symlink_to(NPM.resolve(), target_is_directory=True)  # what the build fetched once
    samples = {found["path"]: found["text"] for found in SAMPLE.finditer(PAGE.read_text("utf-8"))}
    assert set(samples) == {
        "calc/worksheets/reel/__init__.py",
        "calc/worksheets/reel/sheet.py",
        "calc/worksheets/reel/sheet.toml",
        "docs/worksheets/reel.md",
    }
    assert sum(len(text.splitlines()) for path, text in samples.items() if path.startswith("calc/")) <= LONGEST
    for path, text in samples.items():
        assert not (copy / path).exists()
        (copy / path).parent.mkdir(exist_ok=True)
        (copy / path).write_text(text, encoding="utf-8")
    return copy


@pytest.fixture(scope="module")
def seen(project: Path) -> dict[str, Any]:
    """Return what the copy says of its new worksheet."""
    return cast("dict[str, Any]", json.loads(run(project, "-c", _SEE)))


def test_it_stands_in_its_place_among_the_others(seen: dict[str, Any]) -> None:
    before = list(catalogue())
    assert "reel" not in before
    at = before.index("cuts") + 1
    assert seen["order"] == [*before[:at], "reel", *before[at:]]
    assert {"How far a reel goes": "worksheets/reel.md"} in seen["navigation"]


def test_its_page_asks_every_field_and_shows_the_usual_answer(seen: dict[str, Any]) -> None:
    html = seen["html"]
    for key, text in (("reel_mass", "250 g"), ("yarn", "167 tex"), ("cut_length", "81 in"), ("strand_count", "12")):
        assert f'id="reel-{key}" name="{key}" value="{text}"' in html
    for words in ("54 strings", "Weigh the reel", "guides/choose-cord/#strong", "Save reel.csv"):
        assert words in html


def test_it_answers_as_a_hand_calculation_does(seen: dict[str, Any]) -> None:
    """250 g of 167 tex (grams for a kilometre) are 1,497 m; a string takes 12 x 81 in = 24.69 m; a tenth is waste."""
    length_m = 250 / 167 * 1000
    strings = int(length_m * 0.9 / (12 * 81 * 0.0254))
    outcome = seen["usual"]["outcome"]
    rows = {row["key"]: row for row in outcome["rows"]}
    assert strings == 54
    assert outcome["headlines"][0]["text"] == f"{strings} strings"
    assert float(rows["reel_length"]["shown"].removesuffix(" m")) == pytest.approx(length_m, abs=0.05)
    (line,) = outcome["tables"][0]["cells"]
    assert [cell["text"] for cell in line] == [rows["reel_length"]["shown"], str(strings)]
    assert outcome["files"][0]["text"] == f"strings\r\n{strings}\r\n"


def test_what_it_cannot_answer_is_said_in_its_own_words(seen: dict[str, Any]) -> None:
    (error,) = seen["refused"]["errors"]
    assert error["field"] == "reel_mass"
    assert error["text"].startswith("This is less than one string takes")


def test_its_link_brings_back_what_was_typed(seen: dict[str, Any]) -> None:
    assert seen["link"].startswith("v4/reel?")
    assert seen["opened"]["worksheet"] == "reel"
    assert seen["opened"]["notes"] == []
    assert seen["opened"]["inputs"] == seen["typed"]
    assert seen["converted"]["inputs"]["cut_length"] == "2057.4 mm"


def test_it_answers_in_the_terminal(project: Path) -> None:
    told = json.loads(run(project, "-m", "calc", "reel", "reel_mass=500 g", "--json"))
    length = told["results"]["reel_length"]
    assert (length["value"], length["unit"]) == (pytest.approx(0.5 / 167e-6), "m")
    assert "Strands of each string" in run(project, "-m", "calc", "reel", "--help")
    assert "How far a reel goes" in run(project, "-m", "calc")


def test_the_tests_over_all_worksheets_take_it_up(project: Path) -> None:
    tests = ("tests/calc/test_worksheets.py", "tests/calc/test_share.py")
    said = run(project, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-k", "reel or declared", *tests)
    assert int(re.findall(r"(\d+) passed", said)[0]) > EXAMPLES * SYSTEMS
