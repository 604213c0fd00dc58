"""Shapes in drawing units, the drawings made of them, and the one writer that makes SVG of a drawing."""

from calc.draw.boxes import Box, Point
from calc.draw.dims import HEAD, Dim, arrow_head
from calc.draw.drawing import PHONE, Drawing
from calc.draw.flip import turned_over
from calc.draw.shapes import (
    FIRM,
    HAIR,
    LINE,
    MARK,
    Anchor,
    Circle,
    Dash,
    Fill,
    Frame,
    Group,
    Ink,
    Label,
    Line,
    Many,
    Path,
    Pen,
    Polyline,
    Shape,
)
from calc.draw.steps import Arc, CubicTo, PathStep, To
from calc.draw.style import stylesheet
from calc.draw.tape_measure import Scale, tape
from calc.draw.text import ASCENT, DESCENT, text_width, wrapped
from calc.draw.writer import escaped, svg

__all__ = [
    "ASCENT",
    "DESCENT",
    "FIRM",
    "HAIR",
    "HEAD",
    "LINE",
    "MARK",
    "PHONE",
    "Anchor",
    "Arc",
    "Box",
    "Circle",
    "CubicTo",
    "Dash",
    "Dim",
    "Drawing",
    "Fill",
    "Frame",
    "Group",
    "Ink",
    "Label",
    "Line",
    "Many",
    "Path",
    "PathStep",
    "Pen",
    "Point",
    "Polyline",
    "Scale",
    "Shape",
    "To",
    "arrow_head",
    "escaped",
    "stylesheet",
    "svg",
    "tape",
    "text_width",
    "turned_over",
    "wrapped",
]
