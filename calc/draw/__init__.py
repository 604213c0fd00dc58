"""Shapes, and the one writer that makes SVG of them."""

from calc.draw.shapes import Drawing, Label, Line, Rect
from calc.draw.string import Zone, braced_bow, string_layout
from calc.draw.svg import svg

__all__ = ["Drawing", "Label", "Line", "Rect", "Zone", "braced_bow", "string_layout", "svg"]
