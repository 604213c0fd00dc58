"""What is drawn for who cuts boards, read back by the library for such drawings: in true size, hole by hole."""

from __future__ import annotations

import importlib.util
import json
from math import hypot
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree as ET

import pytest
from ezdxf.filemanagement import readfile

from calc import bridge
from calc.__main__ import main
from calc.paper.posts import Posts, post_pages, posts_of
from calc.worksheets import one
from calc.worksheets.core import Answer, ask, by_key, usual
from tests.calc.paper.test_cards import true_sizes

if TYPE_CHECKING:
    from pathlib import Path

    from ezdxf.document import Drawing

pytestmark = pytest.mark.contract
MILLIMETRES = 4
THREE = {"bundles": "3", "strands": "24"}


def drawn(folder: Path, sheet: str, *words: str) -> Drawing:
    """Return the drawing that the terminal writes."""
    file = folder / "board.dxf"
    assert main([sheet, *words, "--card", str(file)]) == 0
    found = readfile(file)
    assert not found.audit().errors
    assert found.units == MILLIMETRES
    return found


def numbers(sheet: str, **typed: str) -> dict[str, float]:
    answer = ask(one(sheet), usual(one(sheet), typed), "inch")
    assert isinstance(answer, Answer)
    return {key: row.spread.value * 1e3 for key, row in by_key(answer.rows).items()}


def on(drawing: Drawing, layer: str) -> list[Any]:
    return list(drawing.modelspace().query(f'*[layer=="{layer}"]'))


def outlines(drawing: Drawing) -> list[tuple[float, float]]:
    """Return how long and how tall each board is."""
    found = []
    for each in on(drawing, "CUT"):
        assert each.closed
        xs, ys = zip(*((x, y) for x, y, *_ in each.get_points()), strict=True)
        found.append((max(xs) - min(xs), max(ys) - min(ys)))
    return found


@pytest.mark.exact
@pytest.mark.parametrize(("units", "bar_mm"), [("inch", 101.6), ("metric", 100.0)])
def test_a_marking_strip_has_the_marks_of_the_bench_sheet_in_true_size(
    tmp_path: Path, units: str, bar_mm: float
) -> None:
    drawing = drawn(tmp_path, "string", "--form", "strip", "--units", units, "--name", "Ash 62")
    told = numbers("string")
    keys = ("mark_tail_upper", "mark_loop_upper", "mark_body", "mark_loop_lower", "mark_tail_lower")
    expected = [0.0, *(told[key] for key in keys)]
    assert sorted(each.dxf.start.x for each in on(drawing, "MARKS")) == pytest.approx(expected, abs=0.01)
    assert [long for long, _ in outlines(drawing)] == pytest.approx([told["mark_tail_lower"]], abs=0.01)
    (bar,) = (each for each in on(drawing, "WORDS") if each.dxftype() == "LINE")
    assert bar.dxf.end.x - bar.dxf.start.x == pytest.approx(bar_mm)
    words = [each.dxf.text for each in on(drawing, "WORDS") if each.dxftype() == "TEXT"]
    assert "Marks of one bundle, Ash 62" in words


@pytest.mark.exact
def test_strands_wound_round_the_pegs_are_stepped_and_all_cut_alike(tmp_path: Path) -> None:
    """A strand lies between the sides of its two pegs; holes are inside the board and do not run into each other."""
    drawing = drawn(tmp_path, "string", *(f"{key}={text}" for key, text in THREE.items()), "--form", "pegs")
    told = numbers("string", **THREE)
    ((long, tall),) = outlines(drawing)
    bottom = min(y for each in on(drawing, "CUT") for _, y, *_ in each.get_points())
    holes = sorted((each.dxf.center.x, each.dxf.center.y, each.dxf.radius) for each in on(drawing, "HOLES"))
    count = int(THREE["strands"]) // int(THREE["bundles"])
    assert len(holes) == 2 * count
    first, second = holes[:count], holes[count:]
    for step, ((x, y, radius), (to_x, to_y, _)) in enumerate(zip(first, second, strict=True)):
        assert y == pytest.approx(to_y)
        assert to_x - radius - (x + radius) == pytest.approx(told["cut_length"], abs=0.01)
        assert x - first[0][0] == pytest.approx(step * told["step"], abs=0.01)
    for at, (x, y, radius) in enumerate(holes):
        assert radius < x < long - radius
        assert radius < y - bottom < tall - radius
        assert all(hypot(x - a, y - b) > radius + c for a, b, c in holes[:at])


@pytest.mark.exact
@pytest.mark.parametrize("form", ["strip", "pegs", "gauges"])
def test_the_svg_is_the_same_drawing(tmp_path: Path, form: str) -> None:
    drawing = drawn(tmp_path, "string", "--form", form)
    file = tmp_path / "board.svg"
    assert main(["string", "--form", form, "--card", str(file)]) == 0
    root = ET.fromstring(file.read_text(encoding="utf-8"))  # noqa: S314 - our own text
    wide, tall = (float(root.attrib[key].removesuffix("mm")) for key in ("width", "height"))
    assert [float(each) for each in root.attrib["viewBox"].split()[2:]] == [wide, tall], "one unit is a millimetre"

    def found(tag: str, *keys: str) -> list[tuple[float, ...]]:
        shapes = (each for each in root.iter() if each.tag.endswith(f"}}{tag}"))
        return [tuple(float(each.attrib[key]) for key in keys) for each in shapes]

    assert found("rect", "width", "height") == [pytest.approx(each, abs=0.002) for each in outlines(drawing)]
    holes = [(each.dxf.center.x, each.dxf.radius) for each in on(drawing, "HOLES")]
    assert found("circle", "cx", "r") == [pytest.approx(each, abs=0.002) for each in holes]
    words = [(each.text or "").replace("\u00a0", " ") for each in root.iter() if each.tag.endswith("}text")]
    assert words == [each.dxf.text for each in on(drawing, "WORDS") if each.dxftype() == "TEXT"]


@pytest.mark.exact
def test_gauges_are_the_loops_of_the_string_and_their_plied_length_is_a_line(tmp_path: Path) -> None:
    drawing = drawn(tmp_path, "string", "--form", "gauges")
    told = numbers("string")
    upper, lower, *others = (long for long, _ in outlines(drawing))
    assert (upper, lower) == pytest.approx((told["loop_upper"], told["loop_lower"]), abs=0.01)
    lines = on(drawing, "MARKS")
    assert len(lines) == len(others) + 2
    assert all(0.0 < each.dxf.start.x < long for each, (long, _) in zip(lines, outlines(drawing), strict=True))


@pytest.mark.exact
def test_posts_of_an_endless_string_stand_as_far_apart_as_the_sheet_says(tmp_path: Path) -> None:
    drawing = drawn(tmp_path, "endless", "post_diameter=12 mm")
    told = numbers("endless", post_diameter="12 mm")
    left, right = sorted(on(drawing, "HOLES"), key=lambda each: float(each.dxf.center.x))
    assert left.dxf.radius == right.dxf.radius == pytest.approx(6.0)
    over = right.dxf.center.x + right.dxf.radius - (left.dxf.center.x - left.dxf.radius)
    assert over == pytest.approx(told["post_spacing"], abs=0.01)


def test_a_strip_for_the_posts_is_as_long_as_they_stand_apart(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "posts.html"
    assert main(["endless", "--card", str(file), "--name", "Ash <b>", "--paper", "Letter"]) == 0
    text = file.read_text(encoding="utf-8")
    assert "<title>Posts of an endless string, Ash b</title>" in text
    posts = posts_of({}, "inch")
    assert isinstance(posts, Posts)
    bars, pieces = true_sizes(post_pages(posts, "Letter", "inch"), "Letter")
    assert bars == pytest.approx([0.1016] * len(bars), abs=1e-5)
    assert sum(pieces) == pytest.approx(numbers("endless")["post_spacing"] / 1e3, abs=1e-4)
    assert main(["endless", "--card", str(tmp_path / "posts.svg")]) == 0
    assert main(["endless", "post_diameter=heavy", "--card", str(file)]) == 2
    assert "post_diameter" in capsys.readouterr().err
    asked = {"card": "endless", "system": "inch", "paper": "Letter", "form": "posts"}
    reply = json.loads(bridge.handle(json.dumps({**asked, "strings": [{"inputs": {}, "name": "Ash <b>"}]})))
    assert reply["html"] == text


def test_only_what_is_cut_from_boards_is_drawn_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["string", "--card", str(tmp_path / "card.dxf")]) == 2
    assert "ends in .html, .svg, .txt;" in capsys.readouterr().err
    assert main(["endless", "--card", str(tmp_path / "posts.txt")]) == 2
    assert "ends in .html, .svg, .dxf;" in capsys.readouterr().err


def test_without_the_package_it_is_told_what_is_missing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    found = importlib.util.find_spec
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None if name == "ezdxf" else found(name))
    assert main(["string", "--form", "strip", "--card", str(tmp_path / "strip.dxf")]) == 2
    assert "pip install ezdxf" in capsys.readouterr().err
