"""Path data in few bytes: steps relative to a point that is itself rounded, so that errors never add up."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from calc.draw.steps import Arc, CubicTo

if TYPE_CHECKING:
    from calc.draw.boxes import Point
    from calc.draw.shapes import Many
    from calc.draw.steps import PathStep


def compact(shape: Many) -> str:
    """Return the path data of all parts.

    Parameters
    ----------
    shape : Many
        Paths of one look; `digits` says how many decimals each number keeps.

    Examples
    --------
    >>> from calc.draw.shapes import Many
    >>> from calc.draw.steps import To
    >>> compact(Many((((0.04, 1.0), (To((2.0, 0.5)), To((2.5, 0.55)))), ((3.0, 1.0), (To((3.0, 2.0)),)))))
    'M0 1l2-.5 .5.1m.5.4l0 1'
    """
    text, before = "", (0.0, 0.0)
    for start, steps in shape.parts:
        here = _rounded(start, shape.digits)
        text += "m" + _joined(_less(here, before), shape.digits) if text else "M" + _joined(here, shape.digits)
        written, before = _steps(here, steps, shape.digits)
        text += written
        if shape.closed:
            text, before = text + "Z", here
    return text


def _steps(here: Point, steps: tuple[PathStep, ...], digits: int) -> tuple[str, Point]:
    """Return the data of the steps from a point on, and where they end.

    A curve whose first handle carries the last one straight on is written without it.
    """
    text, last, handle = "", "", None
    for step in steps:
        end = _rounded(step.end, digits)
        flags = ""
        if isinstance(step, CubicTo):
            second = _rounded(step.second, digits)
            smooth = handle is not None and _near(_less((2 * here[0], 2 * here[1]), handle), step.first, digits)
            letter, points = ("s", [second, end]) if smooth else ("c", [_rounded(step.first, digits), second, end])
            handle = second
        else:
            letter, points, handle = ("a" if isinstance(step, Arc) else "l"), [end], None
        if isinstance(step, Arc):
            flags = f"{_joined((step.radius, step.radius), digits)} 0 {int(step.large)} {int(step.clockwise)} "
        told = flags + _joined([each for point in points for each in _less(point, here)], digits)
        if letter != last:
            text += letter + told
        else:
            text += told if told[0] == "-" else " " + told
        last, here = letter, end
    return text, here


def _near(one: Point, other: Point, digits: int) -> bool:
    """Tell whether two handles are the same to 1.5 units of the last decimal: less than a unit for the curve itself."""
    return max(abs(one[0] - other[0]), abs(one[1] - other[1])) <= 1.5 * 10.0**-digits


def _rounded(point: Point, digits: int) -> Point:
    return round(point[0], digits), round(point[1], digits)


def _less(point: Point, start: Point) -> Point:
    return point[0] - start[0], point[1] - start[1]


def _joined(values: tuple[float, ...] | list[float], digits: int) -> str:
    """Print numbers one after another with no more between them than they need."""
    text, pointed, scale = "", False, 10**digits
    for value in values:
        one = _short(round(value * scale), digits)
        if text and not (one[0] == "-" or (one[0] == "." and pointed)):
            text += " "
        text, pointed = text + one, "." in one
    return text


@lru_cache(maxsize=4096)
def _short(count: int, digits: int) -> str:
    """Print a count of units of the last decimal in the fewest characters.

    >>> _short(-50, 2), _short(100, 1), _short(0, 1)
    ('-.5', '10', '0')
    """
    text = f"{count / 10**digits:.{digits}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return text.replace("0.", ".", 1) if text.startswith(("0.", "-0.")) else text
