"""Laid cord, served cord and what they lie round, along any line."""

from calc.draw.cord.laid import Laid, Station, even
from calc.draw.cord.paint import painted
from calc.draw.cord.serving import served
from calc.draw.cord.way import Way

__all__ = ["Laid", "Station", "Way", "even", "painted", "served"]
