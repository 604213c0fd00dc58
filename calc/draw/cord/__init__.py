"""Laid cord, served cord and what they lie round, along any line."""

from calc.draw.cord.laid import CordStation, Laid, even
from calc.draw.cord.paint import painted
from calc.draw.cord.serving import served
from calc.draw.cord.way import Way

__all__ = ["CordStation", "Laid", "Way", "even", "painted", "served"]
