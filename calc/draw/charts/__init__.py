"""Charts: axes, lines, and what lies on them."""

from calc.draw.charts.axes import Axis
from calc.draw.charts.chart import line_chart
from calc.draw.charts.plots import Band, Limit, Marker, MeasuredPoint, Plot, Ribbon, Scatter, Series

__all__ = [
    "Axis",
    "Band",
    "Limit",
    "Marker",
    "MeasuredPoint",
    "Plot",
    "Ribbon",
    "Scatter",
    "Series",
    "line_chart",
]
