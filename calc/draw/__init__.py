"""Shapes in drawing units, the drawings made of them, and the one writer that makes SVG of a drawing."""

from calc.draw.axes import Axis
from calc.draw.bow import braced_bow
from calc.draw.chart import line_chart
from calc.draw.dims import Dim, arrow_head
from calc.draw.drawing import PHONE, Drawing
from calc.draw.eye import loop_round_tip
from calc.draw.flat import string_layout
from calc.draw.frames import Box, Point
from calc.draw.plots import Band, Marker, Series
from calc.draw.row import Zone
from calc.draw.section import bundle_section
from calc.draw.shapes import Circle, Group, Label, Line, Path, Pen, Polyline, Shape
from calc.draw.steps import Arc, Curve, To
from calc.draw.style import stylesheet
from calc.draw.writer import svg

__all__ = [
    "PHONE",
    "Arc",
    "Axis",
    "Band",
    "Box",
    "Circle",
    "Curve",
    "Dim",
    "Drawing",
    "Group",
    "Label",
    "Line",
    "Marker",
    "Path",
    "Pen",
    "Point",
    "Polyline",
    "Series",
    "Shape",
    "To",
    "Zone",
    "arrow_head",
    "braced_bow",
    "bundle_section",
    "line_chart",
    "loop_round_tip",
    "string_layout",
    "stylesheet",
    "svg",
]
