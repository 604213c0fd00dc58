"""A shot with one string, and how sure its figures are."""

from calc.making.shot.request import Loose, Loosed
from calc.making.shot.shooting import HEAVIER, SOFTER, loose

__all__ = [
    "HEAVIER",
    "SOFTER",
    "Loose",
    "Loosed",
    "loose",
]
