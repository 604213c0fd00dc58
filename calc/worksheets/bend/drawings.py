"""Drawings of the bend sheet: the bow as it was marked beside an even bend, the bend along each limb, its thirds."""

from __future__ import annotations

from math import atan2, cos, degrees, sin
from typing import TYPE_CHECKING

from calc.draw import FIRM, HAIR, PHONE, Circle, Drawing, Label, Line, Pen, Polyline
from calc.draw.charts import Axis, Ribbon, Series, line_chart
from calc.mechanics.photo import LIMBS, PLACES, even
from calc.units import INCH
from calc.worksheets.core import File, Table, shown

if TYPE_CHECKING:
    from calc.draw import Point, Shape
    from calc.mechanics.photo import SeenBow
    from calc.units import System

_EDGE, _TOP, _SMALL = 10.0, 30.0, 12.6
_EVEN = Pen("quiet", 1.5, dash=True)
_OVER_M = {"inch": 4.0 * INCH, "metric": 0.1}
_OVER = {"inch": "in 4 in", "metric": "in 100 mm"}
WHERE = ("by the handle", "in its middle", "by the nock")
_MORE, _LESS, _ALIKE = "more than even", "less than even", "even, as far as the taps tell"


def bow(found: SeenBow) -> Drawing:
    """Return the bow as it was marked, its nocks level and the string below, with an even bend beside it.

    Parameters
    ----------
    found : SeenBow
        The picture, worked out.
    """
    photo, plane = found.photo, found.plane
    curves = [each.points() for each in found.lines]
    evens = [even(each) for each in found.lines]
    taps = [plane.at(each) for limb in photo.limbs for each in limb]
    string = plane.at(photo.string)
    left, right = curves[1][-1], curves[0][-1]
    turn = atan2(right[1] - left[1], right[0] - left[0])
    middle = (curves[0][0][0] + curves[1][0][0]) / 2.0, (curves[0][0][1] + curves[1][0][1]) / 2.0

    def turned(point: Point) -> Point:
        x, y = point[0] - middle[0], point[1] - middle[1]
        return x * cos(turn) + y * sin(turn), y * cos(turn) - x * sin(turn)

    down = 1.0 if turned(string)[1] > 0.0 else -1.0
    whole = [turned(each) for part in (*curves, *evens, taps) for each in part]
    if photo.hold == "drawn":
        whole.append(turned(string))
    low_x, high_x = min(x for x, _ in whole), max(x for x, _ in whole)
    top = min(down * y for _, y in whole)
    scale = (PHONE - 2.0 * _EDGE) / (high_x - low_x)

    def placed(point: Point) -> Point:
        x, y = turned(point)
        return _EDGE + (x - low_x) * scale, _TOP + (down * y - top) * scale

    ends = [placed(each[-1]) for each in curves]
    shapes: list[Shape] = [Polyline(tuple(placed(at) for at in each), _EVEN) for each in evens]
    shapes.append(Line(placed(curves[0][0]), placed(curves[1][0]), Pen("ink", 4.0)))
    shapes += [Polyline(tuple(placed(at) for at in each), Pen("ink", 3.0)) for each in curves]
    if photo.hold == "drawn":
        shapes += [Line(placed(string), end, FIRM) for end in ends]
    if photo.hold == "braced":
        shapes.append(Line(ends[0], ends[1], FIRM))
    shapes += [Circle(placed(each), 2.5, HAIR, "ground") for each in taps]
    foot = max(each.box().bottom for each in shapes) + 18.0
    shapes += [
        Label((_EDGE, foot), "lower nock", _SMALL, "start", "quiet"),
        Label((PHONE - _EDGE, foot), "upper nock", _SMALL, "end", "quiet"),
        Label((PHONE / 2.0, 14.0), "dashed: an even bend", _SMALL, "middle", "quiet"),
    ]
    return Drawing(
        key="bend",
        title="The bow as it was marked",
        desc="The line through the points of each limb, and dashed an even bend with the same ends. To scale.",
        shapes=tuple(shapes),
    )


def chart(found: SeenBow, system: System) -> Drawing:
    """Return how much each limb bends along its length.

    Parameters
    ----------
    found : SeenBow
        The picture, worked out.
    system : {"inch", "metric"}
        The reader's units.
    """
    over_m = _OVER_M[system]
    lines = {name: [found.found[f"curve_{name}_{k}"].scaled(over_m) for k in range(PLACES + 1)] for name in LIMBS}
    places = [100.0 * k / PLACES for k in range(PLACES + 1)]
    low, high = (
        degrees(of(getattr(each, end) for line in lines.values() for each in line))
        for of, end in ((min, "low"), (max, "high"))
    )
    series = [
        Series(
            name,
            tuple((place, degrees(each.value)) for place, each in zip(places, lines[name], strict=True)),
            dash=name == "lower",
        )
        for name in LIMBS
    ]
    ribbons = [
        Ribbon(
            "",
            *(
                tuple((p, degrees(getattr(e, end))) for p, e in zip(places, line, strict=True))
                for end in ("low", "high")
            ),
        )
        for line in lines.values()
    ]
    return line_chart(
        series,
        Axis("along the limb, %: 0 at the handle, 100 at the nock", 0.0, 100.0),
        Axis(f"bend, degrees {_OVER[system]}", min(0.0, low), high),
        key="along",
        title="How much each limb bends along its length",
        desc="A line for each limb, with what the taps leave open about it.",
        ribbons=ribbons,
    )


def table(found: SeenBow, system: System) -> Table:
    """Return the bend of each third of each limb, and what it is beside an even bend.

    Parameters
    ----------
    found : SeenBow
        The picture, worked out.
    system : {"inch", "metric"}
        The reader's units.
    """
    cells = []
    for name in LIMBS:
        for k, where in enumerate(WHERE):
            each = found.found[f"{name}_{k}"]
            low, high = (shown(each, "angle", system, end) for end in ("low", "high"))
            even_rad = shown(found.found[f"bend_{name}"].scaled(1.0 / 3.0), "angle", system)
            cells.append(
                (f"{name}, {where}", shown(each, "angle", system), f"{low} to {high}", even_rad, judged(found, name, k))
            )
    return Table(
        key="thirds",
        title="The bend of each third",
        heads=("Where", "Bends", "Between", "Even", "So it bends"),
        cells=tuple(cells),
        note="An even limb bends by a third of its whole bend in each third.",
    )


def judged(found: SeenBow, name: str, third: int) -> str:
    """Return whether a third of a limb bends more or less than it would if the limb bent evenly.

    Parameters
    ----------
    found : SeenBow
        The picture, worked out.
    name : str
        Of the limb.
    third : int
        0 by the handle, 2 by the nock.
    """
    more = found.found[f"over_{name}_{third}"]
    return _MORE if more.low > 0.0 else _LESS if more.high < 0.0 else _ALIKE


def points(found: SeenBow) -> File:
    """Return the lines of both limbs and an even bend in pixels of the picture, to be drawn over it.

    Parameters
    ----------
    found : SeenBow
        The picture, worked out.
    """
    rows = ["line,x,y"]
    for name, line in zip(LIMBS, found.lines, strict=True):
        for words, curve in ((name, line.points(24)), (f"{name} even", even(line))):
            rows += [f"{words},{x:.1f},{y:.1f}" for x, y in map(found.plane.seen, curve)]
    return File(name="bend.csv", media="text/csv", text="\r\n".join(rows) + "\r\n")
