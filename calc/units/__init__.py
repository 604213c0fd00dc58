"""Quantities as people write them, and SI as the sums need it."""

from calc.units.reading import read
from calc.units.showing import convert_text, show, si_unit, unit_label
from calc.units.tables import Quantity, System

__all__ = ["Quantity", "System", "convert_text", "read", "show", "si_unit", "unit_label"]
