"""Path data in few bytes: steps relative to a point that is itself rounded, so that errors never add up."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from calc.draw.steps import Arc, Curve

if TYPE_CHECKING:
    from calc.draw.frames import Point
    from calc.draw.shapes import Many
    from calc.draw.steps import Step


def compact(shape: Many) -> str:
    """Return the path data of all parts.

    >>> from calc.draw.shapes import Many
    >>> from calc.draw.steps import To
    >>> compact(Many((((0.04, 1.0), (To((2.0, 0.5)), To((2.5, 0.55)))),), closed=True))
    'M0 1l2-.5l.5.1Z'
    """
    end = "Z" if shape.closed else ""
    return "".join(_part(start, steps, shape.digits) + end for start, steps in shape.parts)


def _part(start: Point, steps: tuple[Step, ...], digits: int) -> str:
    here = _rounded(start, digits)
    text = "M" + _joined(here, digits)
    for step in steps:
        end = _rounded(step.end, digits)
        if isinstance(step, Curve):
            points = [_rounded(step.first, digits), _rounded(step.second, digits), end]
            text += "c" + _joined([each for point in points for each in _less(point, here)], digits)
        elif isinstance(step, Arc):
            flags = f" 0 {int(step.large)} {int(step.clockwise)} "
            text += "a" + _joined((step.radius, step.radius), digits) + flags + _joined(_less(end, here), digits)
        else:
            text += "l" + _joined(_less(end, here), digits)
        here = end
    return text


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
