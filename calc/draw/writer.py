"""The one writer of SVG."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from calc.draw.dims import Dim
from calc.draw.drawing import every
from calc.draw.path_data import compact
from calc.draw.readouts import Readout
from calc.draw.shapes import Circle, Comb, Frame, Group, Label, Line, Many, Path, Polyline
from calc.draw.steps import Arc, To
from calc.draw.style import DASHES, HATCHED, PAPER, TINT, WEIGHTS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from calc.draw.boxes import Box, Point
    from calc.draw.drawing import Drawing
    from calc.draw.shapes import Anchor, Fill, Ink, Pen, Shape
    from calc.draw.steps import PathStep

_PREFIX = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")
_ESCAPES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;"})
_IN_SINGLE = str.maketrans({"&": "&amp;", "<": "&lt;", "'": "&#39;"})
_FORBIDDEN = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_PLAIN = re.compile(r"[\w .,/−-]*")
_FILLED = (Path, Polyline, Circle, Many)
_NESTED = (Group, Frame, Dim)
_ZEROS = [("-0.00", "0"), (".00", ""), *((f".{tenth}0", f".{tenth}") for tenth in range(1, 10))]
"""What is left out of numbers printed with two decimals."""


def svg(drawing: Drawing, *, prefix: str, at: Box | None = None) -> str:
    """Return a drawing as one SVG element.

    Parameters
    ----------
    drawing : Drawing
        What to draw.
    prefix : str
        Starts every id: a letter, then letters, figures, ``-`` or ``_``; no two drawings of a page share one.
    at : Box or None
        Where it lies in a drawing round it, in that one's units; None where it stands by itself.

    Returns
    -------
    str
        The same bytes for the same drawing, always. Colours come from the classes of `stylesheet`, and where
        there is no style sheet from attributes.

    Raises
    ------
    ValueError
        For a prefix that cannot start an id.
    """
    if not _PREFIX.fullmatch(prefix):
        msg = f"prefix: got {prefix!r}, expected a letter, then letters, figures, - or _"
        raise ValueError(msg)
    frame = drawing.frame
    view = " ".join(number(each) for each in (frame.left, frame.top, frame.width, frame.height))
    place = (
        ""
        if at is None
        else (f' x="{number(at.left)}" y="{number(at.top)}" width="{number(at.width)}" height="{number(at.height)}"')
    )
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing"{place} viewBox="{view}" role="img"'
        f' aria-labelledby="{prefix}-title {prefix}-desc" font-family="sans-serif" fill="none"'
        ' stroke-linecap="round" stroke-linejoin="round">'
    )
    said = (
        f'<title id="{prefix}-title">{escaped(drawing.title)}</title>'
        f'<desc id="{prefix}-desc">{escaped(drawing.desc)}</desc>'
    )
    body = "\n".join(_element(each, prefix) for each in drawing.shapes)
    return f"{head}\n{said}\n{_patterns(drawing.shapes, prefix)}{body}\n</svg>"


def number(value: float) -> str:
    """Return a coordinate as printed: at most two decimals, no exponent, no minus zero.

    Parameters
    ----------
    value : float
        In drawing units.

    Examples
    --------
    >>> number(12.0), number(-0.001), number(1e-9), number(1234567.126)
    ('12', '0', '0', '1234567.13')
    """
    text = f"{value:.2f}"
    if not text.endswith("0"):
        return text
    return text[:-1] if not text.endswith("00") else text[:-3] if text != "-0.00" else "0"


def escaped(text: str) -> str:
    """Return words that may stand in XML, whatever was typed.

    Parameters
    ----------
    text : str
        As typed; characters that XML does not allow are left out.

    Examples
    --------
    >>> escaped('1 < 2 & "so"' + chr(7))
    '1 &lt; 2 &amp; &quot;so&quot;'
    """
    return text if _PLAIN.fullmatch(text) else _FORBIDDEN.sub("", text).translate(_ESCAPES)


def _patterns(shapes: tuple[Shape, ...], prefix: str) -> str:
    fills = {each.fill for each in every(shapes) if isinstance(each, _FILLED)}
    parts = []
    for fill, content, turn in (("b", _HATCH, 45), ("c", _DOTS, 0)):
        if fill in fills:
            parts.append(
                f'<pattern id="{prefix}-{fill}" width="4" height="4" patternUnits="userSpaceOnUse"'
                f' patternTransform="rotate({turn})">{_GROUND}{content}</pattern>'
            )
    return f"<defs>{''.join(parts)}</defs>\n" if parts else ""


_GROUND = f'<path class="d-fill-ground" fill="{PAPER["ground"]}" d="M0 0H4V4H0Z"/>'
_HATCH = f'<path class="d-line-b" stroke="{PAPER["b"]}" stroke-width="1.8" d="M0 2H4"/>'
_DOTS = f'<path class="d-fill-c" fill="{PAPER["c"]}" d="M.8 2a1.2 1.2 0 0 1 2.4 0a1.2 1.2 0 0 1 -2.4 0Z"/>'


def _element(shape: Shape, prefix: str) -> str:
    if isinstance(shape, _NESTED):
        return f"<g{_group(shape, prefix)}>{_all(shape.shapes, prefix)}</g>"
    match shape:
        case Line(_, _, pen):
            made = f'<path {_look(pen, "none", prefix)} d="{_way(shape)}"/>'
        case Label():
            made = _words(shape)
        case Polyline():
            end = "Z" if shape.closed else ""
            made = f'<path {_look(shape.pen, shape.fill, prefix)} d="{_way(shape)}{end}"/>'
        case Comb(level, ticks, pen):
            foot = f"{level:.2f}"
            way = _trimmed("".join([f"M{x:.2f} {foot}V{y:.2f}" for x, y in ticks]))
            made = f'<path {_look(pen, "none", prefix)} d="{way}"/>'
        case Readout():
            held = _FORBIDDEN.sub("", shape.json()).translate(_IN_SINGLE)
            made = f"<g class=\"readout-points\" data-readout='{held}'></g>"
        case Circle((x, y), radius, pen, fill):
            look = _look(pen, fill, prefix)
            made = f'<circle {look} cx="{number(x)}" cy="{number(y)}" r="{number(radius)}"/>'
        case Many():
            role = f' data-role="{shape.role}"' if shape.role else ""
            look = _band(shape.fill, shape.band, prefix) if shape.band else _look(shape.pen, shape.fill, prefix)
            made = f'<path {look}{role} d="{compact(shape)}"/>'
        case _:
            end = "Z" if shape.closed else ""
            made = f'<path {_look(shape.pen, shape.fill, prefix)} d="{_way(shape)}{end}"/>'
    return made


def _group(shape: Group | Frame | Dim, prefix: str) -> str:
    match shape:
        case Group(key):
            return f' id="{prefix}-{key}" data-part="{key}"'
        case Frame(index, count):
            away = "" if index == count - 1 else ' visibility="hidden"'
            return f' class="d-frame d-of{count} d-f{index}"{away}'
        case _:
            return ' class="d-dim"'


def _way(shape: Line | Polyline | Path) -> str:
    match shape:
        case Line(start, end):
            return _joined((start, end))
        case Polyline(points):
            return _joined(points)
        case _:
            (x, y), steps = shape.start, shape.steps
            return _trimmed(f"M{x:.2f} {y:.2f}{''.join([_step(each) for each in steps])}")


def _all(shapes: Iterable[Shape], prefix: str) -> str:
    return "".join(_element(each, prefix) for each in shapes)


def _joined(points: Iterable[Point]) -> str:
    """Return straight steps from point to point, each number as `number` prints it."""
    return _trimmed("M" + "L".join([f"{x:.2f} {y:.2f}" for x, y in points]))


def _trimmed(text: str) -> str:
    """Leave the zeros out that end numbers with two decimals."""
    for long, short in _ZEROS:
        text = text.replace(long, short)
    return text


def _step(step: PathStep) -> str:
    """Return a step of a path, its numbers not yet trimmed."""
    x, y = step.end
    match step:
        case To():
            return f"L{x:.2f} {y:.2f}"
        case Arc(_, radius, clockwise, large):
            return f"A{radius:.2f} {radius:.2f} 0 {large:d} {clockwise:d} {x:.2f} {y:.2f}"
        case _:
            (a, b), (c, d) = step.first, step.second
            return f"C{a:.2f} {b:.2f} {c:.2f} {d:.2f} {x:.2f} {y:.2f}"


@lru_cache(maxsize=256)
def _look(pen: Pen | None, fill: Fill, prefix: str) -> str:
    """Return class and fall-back attributes of a line and its filling."""
    classes: list[str] = []
    plain: list[str] = []
    if pen:
        classes.append(f"d-line-{pen.ink}")
        plain.append(f'stroke="{PAPER[pen.ink]}" stroke-width="{number(pen.weight)}"')
        if pen.weight in WEIGHTS:
            classes.append(f"d-w{pen.weight:.0f}")
        if pen.dash:
            name, pattern = DASHES[pen.dash]
            classes.append(name)
            plain.append(f'stroke-dasharray="{pattern}"')
        if pen.cap == "butt":
            plain.append('stroke-linecap="butt"')
    if fill == "tint":
        classes.append("d-tint")
        plain.append(f'fill="{PAPER["ink"]}" fill-opacity="{TINT}"')
    elif fill in HATCHED:
        plain.append(f'fill="url(#{prefix}-{fill})"')
    elif fill != "none":
        classes.append(f"d-fill-{fill}")
        plain.append(f'fill="{PAPER[fill]}"')
    return " ".join([f'class="{" ".join(classes)}"', *plain])


def _band(fill: Fill, thick: float, prefix: str) -> str:
    """Return class and fall-back attributes of a line as thick as a bundle that is filled like one."""
    if fill in HATCHED:
        colour = f'stroke="url(#{prefix}-{fill})"'
    elif fill == "none" or fill == "tint":  # noqa: PLR1714 - the type checker understands it so
        msg = f"Many: got a band filled with {fill}, expected an ink or the look of a bundle"
        raise ValueError(msg)
    else:
        colour = f'class="d-line-{fill}" stroke="{PAPER[fill]}"'
    return f'{colour} stroke-width="{number(thick)}" stroke-linecap="butt"'


def _words(label: Label) -> str:
    x, y = label.at
    look = _lettering(label.size, label.anchor, label.ink, label.bold, label.backed)
    return f'<text {look} x="{number(x)}" y="{number(y)}">{escaped(label.text)}</text>'


@lru_cache(maxsize=256)
def _lettering(size: float, anchor: Anchor, ink: Ink, bold: bool, backed: bool) -> str:  # noqa: FBT001 - a label's own
    """Return class and fall-back attributes of words."""
    classes = [f"d-fill-{ink}", *(["d-bold"] if bold else []), *(["d-backed"] if backed else [])]
    plain = [f'fill="{PAPER[ink]}" font-size="{number(size)}"']
    if anchor != "start":
        plain.append(f'text-anchor="{anchor}"')
    if bold:
        plain.append('font-weight="700"')
    if backed:
        plain.append(f'stroke="{PAPER["ground"]}" stroke-width="4" paint-order="stroke"')
    return " ".join([f'class="{" ".join(classes)}"', *plain])
