"""A shot with one string, and how sure its figures are."""

from calc.making.shot.on_string import Laden, OnString, WeightAt, laden_shot
from calc.making.shot.request import ShotRequest, ShotResult
from calc.making.shot.whole_shot import HEAVIER, SOFTER, work_out_shot

__all__ = [
    "HEAVIER",
    "SOFTER",
    "Laden",
    "OnString",
    "ShotRequest",
    "ShotResult",
    "WeightAt",
    "laden_shot",
    "work_out_shot",
]
