"""Quantities as people write them, and SI as the sums need it."""

from calc.units.reading import read, system_of
from calc.units.showing import number_in, show, show_limit, si_unit, unit_label
from calc.units.switching import convert_text
from calc.units.tables import GRAIN, INCH, POUND_FORCE, Quantity, System

__all__ = [
    "GRAIN",
    "INCH",
    "POUND_FORCE",
    "Quantity",
    "System",
    "convert_text",
    "number_in",
    "read",
    "show",
    "show_limit",
    "si_unit",
    "system_of",
    "unit_label",
]
