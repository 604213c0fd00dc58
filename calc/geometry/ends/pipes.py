"""Pipe used as a bow: its outside diameter by nominal size, and its section when it is pressed flat."""

from __future__ import annotations

from math import pi
from typing import TYPE_CHECKING

from calc.data import pipe_diameters
from calc.errors import DomainError, Problem, require
from calc.geometry.bounds import require_length
from calc.geometry.ends.sections import FlatTip, RoundTip

if TYPE_CHECKING:
    from calc.geometry.ends.sections import Section


def pipe(nominal: str) -> float:
    """Return a pipe's outside diameter from its nominal size.

    Parameters
    ----------
    nominal : str
        As printed on the pipe: ``3/4``, ``1 in``, ``1 1/4"``, ``DN 20``.

    Returns
    -------
    float
        [m]

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

    Returns
    -------
    FlatTip

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.geometry.ends.sections import RoundTip, perimeter
    >>> flat = flattened(0.0267, 0.012)
    >>> round(perimeter(flat) / perimeter(RoundTip(0.0267)), 12)
    1.0
    """
    require_length("diameter_m", diameter_m)
    require_length("depth_m", depth_m)
    require("depth_m", depth_m, high=diameter_m)
    return FlatTip(depth_m + pi * (diameter_m - depth_m) / 2.0, depth_m, depth_m / 2.0)


def is_pipe(section: Section | None) -> bool:
    """Return whether a tip is as thick as a pipe of the table; False for one that is not known.

    Parameters
    ----------
    section : Section or None

    Notes
    -----
    Source: outside diameters of the pipe standard (``asme-b36.10``). A round tip of just that size counts as pipe.

    Examples
    --------
    >>> is_pipe(RoundTip(pipe("3/4"))), is_pipe(RoundTip(0.0127)), is_pipe(None)
    (True, False, False)
    """
    return isinstance(section, RoundTip) and section.diameter_m in pipe_diameters().values()


def wall_area(diameter_m: float, wall_m: float) -> float:
    """Return the area of a pipe's wall across its axis [m^2].

    Parameters
    ----------
    diameter_m : float, > 0
        Outside. [m]
    wall_m : float, > 0 and up to half of the diameter
        [m]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> round(wall_area(2.0, 1.0) / pi, 12)
    1.0
    """
    require_length("diameter_m", diameter_m)
    require_length("wall_m", wall_m)
    require("wall_m", wall_m, high=diameter_m / 2.0)
    return pi * wall_m * (diameter_m - wall_m)
