"""What a picture tells: a plane that was seen aslant, and the bend of a line that was marked by hand."""

from calc.geometry.photo.bent_line import BentLine, Marked, bend_of, end_of, fit_line, slope_of
from calc.geometry.photo.plane import Plane, Point, leaning, plane_of, square_on

__all__ = [
    "BentLine",
    "Marked",
    "Plane",
    "Point",
    "bend_of",
    "end_of",
    "fit_line",
    "leaning",
    "plane_of",
    "slope_of",
    "square_on",
]
