"""A shot with one string, and how sure its figures are."""

from calc.making.shot.request import ShotRequest, ShotResult
from calc.making.shot.whole_shot import HEAVIER, SOFTER, work_out_shot

__all__ = [
    "HEAVIER",
    "SOFTER",
    "ShotRequest",
    "ShotResult",
    "work_out_shot",
]
