"""What every drawing is held to, read back from its SVG alone."""

from __future__ import annotations

import re
from math import isfinite
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest

from calc.draw import svg

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.draw import Drawing

MOST_BYTES = 60_000
_NUMBER = re.compile(r"-?(?:\d+\.?\d*|\.\d+)")
_TAKES = {"M": 2, "L": 2, "V": 1, "C": 6, "S": 4, "A": 7, "Z": 0}


def points_of(data: str) -> list[tuple[float, float]]:
    """Return every point and handle of path data; a small reader of its own, written from the SVG grammar."""
    assert not re.search(r"[^-MLVCAZmlcsa\d. ]", data), data
    points: list[tuple[float, float]] = []
    here, start = (0.0, 0.0), (0.0, 0.0)
    for letter, rest in re.findall(r"([A-Za-z])([^A-Za-z]*)", data):
        values = [float(each) for each in _NUMBER.findall(rest)]
        takes = _TAKES[letter.upper()]
        values, takes = ([here[0], *values], 2) if letter == "V" else (values, takes)
        assert takes == 0 or len(values) % takes == 0, (letter, rest)
        for at in range(0, len(values), takes or 1):
            pair = values[at : at + takes][-2:] if letter in "aA" else values[at : at + takes]
            base = here if letter.islower() else (0.0, 0.0)
            points += [(2 * here[0] - points[-2][0], 2 * here[1] - points[-2][1])] if letter == "s" else []
            found = [(base[0] + x, base[1] + y) for x, y in zip(pair[::2], pair[1::2], strict=True)]
            points += found
            here = found[-1]
            start = here if letter in "mM" else start
        here = start if letter in "zZ" else here
    return points


def check(drawing: Drawing) -> str:
    """Hold a drawing to the rules of all drawings; return its SVG."""
    text = svg(drawing, prefix="p1")
    assert len(text.encode()) <= MOST_BYTES, f"{drawing.key}: {len(text.encode())} bytes"
    root = ET.fromstring(text)  # noqa: S314 - our own text
    left, top, width, height = (float(each) for each in root.attrib["viewBox"].split())
    spots: list[tuple[float, float]] = []
    inner = {id(part) for each in root.iter() if each.tag.endswith("pattern") for part in each.iter()}
    for each in root.iter():
        if id(each) in inner:
            continue
        spots += points_of(each.attrib["d"]) if "d" in each.attrib else []
        spots += [(float(each.attrib["x"]), float(each.attrib["y"]))] if each.tag.endswith("text") else []
    for x, y in set(spots):
        assert isfinite(x)
        assert isfinite(y)
        assert left - 0.1 <= x <= left + width + 0.1, (drawing.key, x, y)
        assert top - 0.1 <= y <= top + height + 0.1, (drawing.key, x, y)
    for label in drawing.labels:
        assert drawing.frame.holds(label.box(), 0.01), (drawing.key, label.text)
    ids = [each.attrib["id"] for each in root.iter() if "id" in each.attrib]
    assert len(set(ids)) == len(ids)
    assert all(each.startswith("p1-") for each in ids)
    named = {each.attrib["id"]: (each.text or "") for each in root if "id" in each.attrib}
    assert all(named[each].strip() for each in root.attrib["aria-labelledby"].split())
    return text


@pytest.fixture
def sound() -> Callable[[Drawing], str]:
    """Return the check."""
    return check


@pytest.fixture
def points() -> Callable[[str], list[tuple[float, float]]]:
    """Return the reader of path data."""
    return points_of
