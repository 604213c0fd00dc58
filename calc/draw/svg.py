"""The one writer of SVG."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.sax.saxutils import escape, quoteattr

from calc.draw.shapes import Label, Line, Rect

if TYPE_CHECKING:
    from calc.draw.shapes import Drawing, Shape

_MARGIN = 4.0
_LOOK = {
    "ink": 'fill="none" stroke="currentColor" stroke-width="1.5"',
    "thin": 'fill="none" stroke="currentColor" stroke-width="0.75"',
    "heavy": 'fill="none" stroke="currentColor" stroke-width="4"',
    "string": 'fill="none" stroke="currentColor" stroke-width="2"',
    "zone": 'fill="none" stroke="currentColor" stroke-width="1"',
    "loop": 'fill="currentColor" fill-opacity="0.35" stroke="currentColor" stroke-width="1"',
    "splice": 'fill="currentColor" fill-opacity="0.12" stroke="none"',
}
"""How each role looks where a page brings no styles of its own."""


def number(value: float) -> str:
    """Print a coordinate: two decimals at most, no minus zero, no exponent.

    >>> number(-0.0001), number(2.5), number(10.0)
    ('0', '2.5', '10')
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


def svg(drawing: Drawing, *, prefix: str) -> str:
    """Write a drawing as SVG text.

    Parameters
    ----------
    drawing : Drawing
        Shapes in drawing units, the second axis downwards.
    prefix : str
        Put before every id, so that figures can share a page.
    """
    left, top, right, bottom = drawing.box()
    left, top = left - _MARGIN, top - _MARGIN
    box = " ".join(number(v) for v in (left, top, right - left + _MARGIN, bottom - top + _MARGIN))
    body = "".join(_shape(each) for each in drawing.shapes)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="figure" role="img" viewBox="{box}" '
        f'aria-labelledby="{prefix}-t {prefix}-d"><title id="{prefix}-t">{escape(drawing.title)}</title>'
        f'<desc id="{prefix}-d">{escape(drawing.desc)}</desc>{body}</svg>'
    )


def _shape(shape: Shape) -> str:
    match shape:
        case Line(points, role, closed):
            path = " L".join(f"{number(x)} {number(y)}" for x, y in points)
            return f'<path class="d-{role}" {_LOOK[role]} d="M{path}{"Z" if closed else ""}"/>'
        case Rect(x, y, width, height, role):
            size = f'width="{number(width)}" height="{number(height)}"'
            return f'<rect class="d-{role}" {_LOOK[role]} x="{number(x)}" y="{number(y)}" {size}/>'
        case Label(x, y, text, anchor, size):
            at = f'x="{number(x)}" y="{number(y)}" text-anchor={quoteattr(anchor)} font-size="{number(size)}"'
            return f'<text class="d-label" fill="currentColor" {at}>{escape(text)}</text>'
