"""Pins, clips, wax, weights and other plain things about a bench, in few lines."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw import FIRM, HAIR, LINE, Arc, Circle, CubicTo, Line, Many, Path, Pen, Polyline, To

if TYPE_CHECKING:
    from calc.draw import Point, Shape
    from calc.draw.cord.way import Way

MARKED, _RIM = Pen("accent", 3.0, cap="butt"), Pen("ground", 6.0, cap="butt")


def pin(at: Point, radius: float = 7.0) -> tuple[Shape, ...]:
    """Return a nail or pin seen from above.

    Parameters
    ----------
    at : Point
        Its middle.
    radius : float
        In drawing units.
    """
    x, y = at
    return Circle(at, radius, FIRM, "ground"), Circle((x, y), radius * 0.32, None, "ink")


def box(left: float, top: float, right: float, bottom: float, *, pen: Pen = FIRM, tint: bool = True) -> Polyline:
    """Return a plain upright box.

    Parameters
    ----------
    left, top, right, bottom : float
        Its sides, in drawing units.
    pen : Pen
        Of its outline.
    tint : bool
        Whether it is tinted; otherwise it covers what lies beneath.
    """
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    return Polyline(corners, pen, "tint" if tint else "ground", closed=True)


def clip(at: Point, half: float) -> tuple[Shape, ...]:
    """Return a clip that holds a level bundle.

    Parameters
    ----------
    at : Point
        Where the bundle's middle runs through it.
    half : float
        Half the bundle's thickness.
    """
    x, y = at
    out = half + 7.0
    jaws = box(x - 7.0, y - out, x + 7.0, y + out, tint=False)
    return jaws, Line((x - 7.0, y), (x + 7.0, y), LINE), Circle((x, y - out + 5.0), 2.0, LINE, "ground")


def mark(way: Way, at: float, half: float) -> tuple[Line, Line]:
    """Return a pen mark across a cord.

    Parameters
    ----------
    way : Way
        The cord's middle line.
    at : float
        Running length of the mark.
    half : float
        Half the cord's thickness.
    """
    return marked(way.aside(at, half + 1.0), way.aside(at, -half - 1.0))


def marked(start: Point, end: Point) -> tuple[Line, Line]:
    """Return a pen mark with a rim of ground, so that it shows on a bundle of its own tone.

    Parameters
    ----------
    start, end : Point
        In drawing units.
    """
    return Line(start, end, _RIM), Line(start, end, MARKED)


def wax(left: float, top: float, wide: float = 66.0, tall: float = 34.0) -> tuple[Shape, ...]:
    """Return a block of wax with a worn groove below.

    Parameters
    ----------
    left, top : float
        Its upper left corner, seen from the front.
    wide, tall : float
        In drawing units.
    """
    right, bottom, slant = left + wide, top + tall, 8.0
    front = Path(
        (left, top),
        (To((right, top)), To((right, bottom)), CubicTo((right - 20.0, bottom - 6.0), (left + 20.0, bottom - 6.0),
                                                      (left, bottom))),
        FIRM, "ground", closed=True,
    )  # fmt: skip
    upper = ((left, top), (left + slant, top - slant), (right + slant, top - slant), (right, top))
    side = ((right, top), (right + slant, top - slant), (right + slant, bottom - slant), (right, bottom))
    sides = [Polyline(each, LINE, "tint", closed=True) for each in (upper, side)]
    return front, *sides


def weight(at: Point, size: float = 46.0, wide: float | None = None) -> tuple[Shape, ...]:
    """Return a weight that hangs from a point.

    Parameters
    ----------
    at : Point
        Where it hangs.
    size : float
        Its height below the ring, in drawing units.
    wide : float or None
        None for as wide as high.
    """
    x, y = at
    r, top, low = 6.0, y + 12.0, (wide or size) / 2.0
    body = ((x - 0.72 * low, top), (x + 0.72 * low, top), (x + low, top + size), (x - low, top + size))
    return Circle((x, y + r), r, FIRM), Polyline(body, FIRM, "tint", closed=True)


def ground_line(left: float, right: float, y: float) -> Many:
    """Return the line of a floor or of the ground, with short strokes beneath.

    Parameters
    ----------
    left, right : float
        Its ends.
    y : float
        Its height on the page.
    """
    strokes = tuple(
        ((left + 8.0 + 14.0 * index, y), (To((left + 14.0 * index, y + 7.0)),))
        for index in range(int((right - left - 8.0) / 14.0) + 1)
    )
    return Many((((left, y), (To((right, y)),)), *strokes), HAIR)


def square(corner: Point, up: float, along: float) -> tuple[Shape, ...]:
    """Return a bow square: one bar along the string, one square to it.

    Parameters
    ----------
    corner : Point
        Where both bars meet.
    up : float
        Length of the upright bar, in drawing units.
    along : float
        Length of the level bar, to the right.
    """
    x, y = corner
    wide = 9.0
    bar = ((x, y), (x + along, y), (x + along, y - wide), (x + wide, y - wide), (x + wide, y - up), (x, y - up))
    ticks = tuple(
        ((x, y - 14.0 - 8.0 * i), (To((x + 4.0, y - 14.0 - 8.0 * i)),)) for i in range(int((up - 16.0) / 8.0))
    )
    return (Polyline(bar, LINE, "ground", closed=True), *((Many(ticks, HAIR),) if ticks else ()))


def jar(left: float, right: float, top: float, bottom: float, round_by: float = 8.0) -> Path:
    """Return an open vessel seen from the side.

    Parameters
    ----------
    left, right, top, bottom : float
        Its sides, in drawing units.
    round_by : float
        Radius of its lower corners.
    """
    steps = (
        To((left, bottom - round_by)),
        Arc((left + round_by, bottom), round_by, clockwise=False),
        To((right - round_by, bottom)),
        Arc((right, bottom - round_by), round_by, clockwise=False),
        To((right, top)),
    )
    return Path((left, top), steps, FIRM)


def cross_out(at: Point, size: float = 9.0) -> tuple[Shape, ...]:
    """Return the cross of what is wrong.

    Parameters
    ----------
    at : Point
        Its middle.
    size : float
        Half its width, in drawing units.
    """
    x, y = at
    pen = Pen("accent", 3.0)
    return Line((x - size, y - size), (x + size, y + size), pen), Line((x - size, y + size), (x + size, y - size), pen)


def tick_off(at: Point, size: float = 9.0) -> Polyline:
    """Return the tick of what is right.

    Parameters
    ----------
    at : Point
        Its middle.
    size : float
        Half its width, in drawing units.
    """
    x, y = at
    return Polyline(((x - size, y), (x - size / 3.0, y + 0.7 * size), (x + size, y - 0.8 * size)), Pen("ink", 3.0))


def dashed(points: tuple[Point, ...]) -> Polyline:
    """Return a broken outline, for what is not there or must stay clear.

    Parameters
    ----------
    points : tuple of Point
        In order.
    """
    return Polyline(points, Pen("quiet", 1.0, dash=True))
