"""A marking strip in true size: printed, cut out, joined end to end and laid beside the bundle."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from calc.draw import FIRM, HAIR, Box, Circle, Drawing, Label, Line, Pen, Polyline, Scale, tape, text_width, wrapped
from calc.draw.cards.paper import Placed
from calc.units import read

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.draw import Shape
    from calc.draw.cards.paper import Paper
    from calc.units import System

PER_M = 96.0 / 0.0254
"""Drawing units in a metre: true size."""
_TALL = 104.0
_LAP = 24.0
"""Glued under the next piece, a quarter of an inch."""
_TAPE_TOP = 30.0
_GAUGE = 78.0
_SIZE = 13.0
_NUMBER = 52.0
"""Room for the number of a piece."""
_CHECKS: dict[System, str] = {"inch": "4 in", "metric": "100 mm"}
_CUT = Pen("quiet", 1.0, dash=True)


@dataclass(frozen=True, slots=True)
class StripMark:
    """A mark on a strip: how far from its left end, and what is printed beside it.

    Attributes
    ----------
    at_m : float, >= 0
        From the left end. [m]
    words : str
        What is there; empty for a line alone.
    over : bool
        Whether they stand over the mark, where marks are close; else beside it.
    """

    at_m: float
    words: str
    over: bool = False


@dataclass(frozen=True, slots=True)
class LoopGauge:
    """The size of a loop, to hold a bundle and a finished loop against.

    Attributes
    ----------
    words : str
        What it is for.
    plied_m, flat_m : float, > 0
        From throat to throat when it is plied; what is marked off for it on the flat bundle. [m]
    plied_text, flat_text : str
        The same, as printed.
    """

    words: str
    plied_m: float
    flat_m: float
    plied_text: str
    flat_text: str


def strip_pages(
    marks: Sequence[StripMark], paper: Paper, *, system: System, title: str
) -> tuple[tuple[Placed, ...], ...]:
    """Return the pages of a marking strip, in true size.

    Parameters
    ----------
    marks : sequence of StripMark
        In order; the last is the end of the strip.
    paper : Paper
        What it is printed on.
    system : {"inch", "metric"}
        Of the tape along it and of the bar that proves its size.
    title : str
        What is marked.

    Returns
    -------
    tuple of tuple of Placed
        Drawings of each page. The pieces are numbered and lap over each other.
    """
    inner = paper.inner
    joined = (
        "Print at 100 %, not fitted to the page. Cut along the broken lines, and glue each piece over the grey end of "
        "the one before."
    )
    head = _heading(f"{title}. {joined}", system, inner.width)
    each_m = (inner.width - 2.0 * _LAP) / PER_M
    count = ceil(marks[-1].at_m / each_m - 1e-9)
    spans = [(index * each_m, min(marks[-1].at_m, (index + 1) * each_m)) for index in range(count)]
    pieces = [_piece(marks, spans, index, system, inner.width) for index in range(count)]
    room = int((inner.height - head.frame.height) // _TALL)
    pages = []
    for start in range(0, count, room):
        top = inner.top + head.frame.height
        placed = [Placed(head, inner.left, inner.top)]
        placed += [
            Placed(piece, inner.left, top + row * _TALL) for row, piece in enumerate(pieces[start : start + room])
        ]
        pages.append(tuple(placed))
    return tuple(pages)


def gauge_pages(
    gauges: Sequence[LoopGauge], paper: Paper, *, system: System, title: str
) -> tuple[tuple[Placed, ...], ...]:
    """Return the pages of gauges for loops, in true size.

    Parameters
    ----------
    gauges : sequence of LoopGauge
    paper : Paper
        What they are printed on.
    system : {"inch", "metric"}
        Of the bar that proves their size.
    title : str
        What they are for.

    Returns
    -------
    tuple of tuple of Placed
        Drawings of each page. Loops longer than the paper is wide are left out, and that is said.
    """
    inner = paper.inner
    fitting = [each for each in gauges if each.flat_m * PER_M <= inner.width - 12.0]
    left_out = " Loops that are longer than the paper are left out." if len(fitting) < len(gauges) else ""
    head = _heading(f"{title}.{left_out} Print at 100 %, not fitted to the page.", system, inner.width)
    drawn = [_gauge(each, index, inner.width) for index, each in enumerate(fitting)]
    top = inner.top + head.frame.height
    room = int((inner.bottom - top) // _GAUGE)
    return tuple(
        (
            Placed(head, inner.left, inner.top),
            *(Placed(each, inner.left, top + row * _GAUGE) for row, each in enumerate(drawn[start : start + room])),
        )
        for start in range(0, len(drawn), room)
    )


def _gauge(gauge: LoopGauge, index: int, width: float) -> Drawing:
    left, top, bottom = 8.0, 24.0, _GAUGE - 10.0
    plied, flat = (left + length * PER_M for length in (gauge.plied_m, gauge.flat_m))
    words = f"mark off {gauge.flat_text}", f"plied {gauge.plied_text}, to the broken line"
    wide = max(text_width(words[0], _SIZE, bold=True), text_width(words[1], _SIZE))
    beside = flat + 8.0 if flat + 8.0 + wide <= width else left + 8.0
    shapes: list[Shape] = [
        *(Line((x, top), (x, bottom), FIRM) for x in (left, flat)),
        *(Line((left, y), (flat, y), _CUT) for y in (top, bottom)),
        Line((plied, top), (plied, bottom), _CUT),
        Label((left, top - 7.0), gauge.words, _SIZE, bold=True),
        Label((beside, top + 14.0), words[0], _SIZE, bold=True),
        Label((beside, top + 32.0), words[1], _SIZE),
    ]
    said = f"Mark off {gauge.flat_text}; plied {gauge.plied_text} from throat to throat."
    return _block(f"gauge-{index}", gauge.words, said, shapes, (width, _GAUGE))


def _block(key: str, title: str, desc: str, shapes: Sequence[Shape], size: tuple[float, float]) -> Drawing:
    wide, tall = size
    ground = Polyline(((4.0, 4.0), (wide - 4.0, 4.0), (wide - 4.0, tall - 4.0), (4.0, tall - 4.0)), None, closed=True)
    return Drawing(key=key, title=title, desc=desc, shapes=(ground, *shapes), width=wide)


def _heading(title: str, system: System, width: float) -> Drawing:
    """Say how to use it, and draw the bar that proves the size."""
    bar_text = _CHECKS[system]
    bar = read("bar", bar_text, "length", low=0.0, high=1.0, system=system) * PER_M
    words = f"{title} Measure the bar: it must be {bar_text} long, or all is wrong."
    lines = wrapped(words, width - 12.0, _SIZE)
    shapes: list[Shape] = [Label((6.0, 20.0 + 16.0 * row), line, _SIZE) for row, line in enumerate(lines)]
    y = 20.0 + 16.0 * len(lines) + 14.0
    shapes += [
        Line((6.0, y), (6.0 + bar, y), FIRM),
        *(Line((x, y - 7.0), (x, y + 7.0), FIRM) for x in (6.0, 6.0 + bar)),
        Label((16.0 + bar, y + 5.0), bar_text, _SIZE, bold=True),
    ]
    return _block("strip-head", title, words, shapes, (width, y + 16.0))


def _piece(
    marks: Sequence[StripMark], spans: Sequence[tuple[float, float]], index: int, system: System, width: float
) -> Drawing:
    (start_m, end_m), count = spans[index], len(spans)
    scale = Scale(start_m, end_m, _LAP, PER_M)
    top = _TAPE_TOP
    bottom = top + 46.0
    here = [each for each in marks if start_m <= each.at_m <= end_m + 1e-9]
    shapes: list[Shape] = [
        *tape(scale, top, system, [scale.x(each.at_m) for each in here]),
        *(Line((scale.left, y), (scale.right, y), _CUT) for y in (top, bottom)),
        Label((_free(scale, here), bottom - 4.0), f"{index + 1} of {count}", 12.6, ink="quiet"),
    ]
    for each in here:
        x = scale.x(each.at_m)
        near_end = x > (scale.left + scale.right) / 2.0
        shapes.append(Line((x, top if each.over else top - 12.0), (x, bottom), FIRM))
        if each.over and each.words:
            shapes.append(Label((x, top - 4.0), each.words, _SIZE, "middle", bold=True))
        elif each.words:
            at = (x - 4.0 if near_end else x + 4.0, top - 4.0)
            shapes.append(Label(at, each.words, _SIZE, "end" if near_end else "start", bold=True))
    if index < count - 1:
        lap = Box(scale.right, top, scale.right + _LAP - 6.0, bottom)
        shapes.append(_rectangle(lap, tint=True))
        shapes += _register(scale.right, top, bottom)
    if index:
        shapes += _register(scale.left, top, bottom)
        shapes.append(Line((scale.left, top), (scale.left, bottom), _CUT))
    said = "; ".join(f"{each.words} at {each.at_m * 1000.0:.1f} mm" for each in here) or "no marks"
    return _block(f"strip-{index}", f"Piece {index + 1} of {count}", f"{said}.", shapes, (width, _TALL))


def _free(scale: Scale, marks: Sequence[StripMark]) -> float:
    """Return where the number of a piece stands clear of its marks; at its left end where they are everywhere."""
    places = [scale.left + 12.0 + _NUMBER * step for step in range(int((scale.right - scale.left) / _NUMBER))]
    marked = [scale.x(each.at_m) for each in marks]
    clear = (at for at in places if not any(at - 4.0 < x < at + _NUMBER for x in marked))
    return next(clear, scale.left + 12.0)


def _rectangle(box: Box, *, tint: bool) -> Polyline:
    corners = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
    return Polyline(corners, HAIR, "tint" if tint else "none", closed=True)


def _register(x: float, top: float, bottom: float) -> tuple[Shape, ...]:
    """Draw the mark that two pieces share: a ring on the seam and a line through it."""
    middle = (top + bottom) / 2.0 + 10.0
    return Circle((x, middle), 4.0, HAIR), Line((x, middle - 8.0), (x, middle + 8.0), HAIR)
