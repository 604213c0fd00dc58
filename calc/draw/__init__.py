"""Shapes in drawing units, the drawings made of them, and the one writer that makes SVG of a drawing."""

from calc.draw.axes import Axis
from calc.draw.bow import braced_bow
from calc.draw.chart import line_chart
from calc.draw.dims import Dim, arrow_head
from calc.draw.drawing import PHONE, Drawing
from calc.draw.eye import loop_round_tip
from calc.draw.flat import string_layout
from calc.draw.frames import Box, Point
from calc.draw.plots import Band, Limit, Marker, Reading, Ribbon, Scatter, Series
from calc.draw.posts import endless_posts
from calc.draw.row import Zone
from calc.draw.section import bundle_section
from calc.draw.shapes import Circle, Frame, Group, Label, Line, Many, Path, Pen, Polyline, Shape
from calc.draw.steps import Arc, Curve, To
from calc.draw.style import stylesheet
from calc.draw.throat import serving_in_throat
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
    "Frame",
    "Group",
    "Label",
    "Limit",
    "Line",
    "Many",
    "Marker",
    "Path",
    "Pen",
    "Point",
    "Polyline",
    "Reading",
    "Ribbon",
    "Scatter",
    "Series",
    "Shape",
    "To",
    "Zone",
    "arrow_head",
    "braced_bow",
    "bundle_section",
    "endless_posts",
    "line_chart",
    "loop_round_tip",
    "serving_in_throat",
    "string_layout",
    "stylesheet",
    "svg",
]
