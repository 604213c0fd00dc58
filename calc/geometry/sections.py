"""Limb-tip sections: what a loop has to go round."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import TypeAlias

from calc.data import pipe_diameters
from calc.errors import DomainError, Problem, require


@dataclass(frozen=True, slots=True)
class RoundTip:
    """A round tip of a diameter [m]."""

    diameter_m: float

    def __post_init__(self) -> None:
        require("diameter_m", self.diameter_m, low=0.0, open_=True)

    @property
    def width_m(self) -> float:
        """Across the limb [m]."""
        return self.diameter_m

    @property
    def depth_m(self) -> float:
        """From belly to back [m]."""
        return self.diameter_m

    @property
    def corner_m(self) -> float:
        """Radius of the corners [m]."""
        return self.diameter_m / 2.0


@dataclass(frozen=True, slots=True)
class FlatTip:
    """A flat tip: width across the limb, depth from belly to back, corners rounded by a radius [m]."""

    width_m: float
    depth_m: float
    corner_m: float = 0.0

    def __post_init__(self) -> None:
        require("width_m", self.width_m, low=0.0, open_=True)
        require("depth_m", self.depth_m, low=0.0, open_=True)
        require("corner_m", self.corner_m, low=0.0, high=min(self.width_m, self.depth_m) / 2.0)


Section: TypeAlias = RoundTip | FlatTip


def perimeter(section: Section) -> float:
    """Return the length once round a tip. [m].

    Examples
    --------
    >>> perimeter(FlatTip(3.0, 2.0)), round(perimeter(RoundTip(1.0)), 6)
    (10.0, 3.141593)
    """
    straight_m = 2.0 * (section.width_m + section.depth_m - 4.0 * section.corner_m)
    return straight_m + 2.0 * pi * section.corner_m


def pipe(nominal: str) -> float:
    """Return a pipe's outside diameter from its nominal size. [m].

    Parameters
    ----------
    nominal : str
        As printed on the pipe: ``3/4``, ``1 in``, ``1 1/4"``, ``DN 20``.

    Raises
    ------
    DomainError
        ``choice`` for a size that is not in the table.

    Notes
    -----
    Source: outside diameters of the pipe standard (``asme-b36.10``, ``calc/data/pipes.toml``). Another
    standard's pipe of the same name can differ by 1 mm: then measure it and use `RoundTip`.

    Examples
    --------
    >>> round(pipe("3/4 in") / 0.0254, 3)
    1.05
    """
    key = nominal.casefold().replace("inches", "").replace("inch", "").replace("in", "").strip(" \"″”'")
    key = " ".join(key.replace("dn", "dn ").split())
    found = pipe_diameters().get(key)
    if found is None:
        raise DomainError(Problem(field="nominal", code="choice"))
    return found


def flattened(diameter_m: float, depth_m: float) -> FlatTip:
    """Return the section of a round pipe pressed flat: its perimeter stays, its sides become half circles.

    Parameters
    ----------
    diameter_m : float, > 0
        Of the pipe before. [m]
    depth_m : float, > 0 and <= diameter_m
        From belly to back after. [m]

    Examples
    --------
    >>> flat = flattened(0.0267, 0.012)
    >>> round(perimeter(flat) / perimeter(RoundTip(0.0267)), 12)
    1.0
    """
    require("diameter_m", diameter_m, low=0.0, open_=True)
    require("depth_m", depth_m, low=0.0, open_=True)
    require("depth_m", depth_m, high=diameter_m)
    return FlatTip(depth_m + pi * (diameter_m - depth_m) / 2.0, depth_m, depth_m / 2.0)
