"""The hardest pull of a shot before anything is known of the string, and the limbs' mass nobody has weighed."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

from calc.data import peak_rows, pipe_walls, practice
from calc.errors import DomainError, Problem, require
from calc.geometry.ends import wall_area
from calc.numerics import Spread, combine, combine_ratios

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Limbs
    from calc.mechanics.bow import LimbShape

_BENDS: tuple[tuple[float, LimbShape], ...] = ((-1.0, "tapered"), (0.0, "arc"), (1.0, "uniform"))
"""Limb shapes of the table by how far they stray from the arc, the softest shot first."""
_HINGED = 0.5
"""Limbs that bend near the handle alone count as half-way from arc to uniform: own choice. Rigid limbs are in no row of
the table, for they cannot give way at all."""


@lru_cache(maxsize=64)
def peak_force_ratio(shape: LimbShape | None = None, grains: float | None = None, limbs: Limbs = "wood") -> Spread:
    """Return the hardest pull in the string of a shot / draw weight [-].

    Parameters
    ----------
    shape : LimbShape, optional
        Of the limbs, as somebody saw it; any shape when nobody has looked.
    grains : float, optional
        Grains of arrow per pound of draw weight, 5 to 15; a usual arrow for a wooden bow, 8 to 10, when it is not
        known.
    limbs : {"wood", "pipe"}
        What they are of: heavy limbs of plastic pipe pull harder once the arrow has gone.

    Raises
    ------
    DomainError
        ``min`` or ``max`` for an arrow outside the table.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> peak_force_ratio("tapered", 9.0).value < peak_force_ratio().value < peak_force_ratio("uniform", 9.0).value
    True
    """
    usual = practice("arrow_least").spread
    if grains is not None:
        require("grains", grains)
    arrow = usual if grains is None else Spread.exactly(grains)
    if shape is None:
        middle, strays, seen = 0.0, practice("limb_unknown").spread, _BENDS
    elif shape == "hinged":
        middle, strays, seen = _HINGED, practice("limb_told").spread, _BENDS[1:]
    else:
        middle = next(bend for bend, name in _BENDS if name == shape)
        strays, seen = practice("limb_told").spread, tuple(each for each in _BENDS if each[1] == shape)
    each = [_row(name, arrow.value, limbs) for _, name in seen]
    shots = Spread(min(one.low / one.value for one in each), 1.0, max(one.high / one.value for one in each))
    causes = {"shots": shots, "bend": strays.shifted(middle), "arrow": arrow}
    return combine_ratios(lambda at: {"ratio": at["shots"] * _middle(at["bend"], at["arrow"], limbs)}, causes)["ratio"]


def _middle(bend: float, grains: float, limbs: Limbs) -> float:
    """Return the middle of the shots of limbs between two shapes of the table, or a little beyond its last."""
    first = 0 if bend <= 0.0 else 1
    (start, one), (_, other) = _BENDS[first : first + 2]
    low, high = _row(one, grains, limbs).value, _row(other, grains, limbs).value
    return float(low * (high / low) ** (bend - start))


def _row(shape: LimbShape, grains: float, limbs: Limbs) -> Spread:
    """Return the shots with one shape and one arrow, on the straight line between the rows of the table."""
    rows = [(row.grains_per_pound, row.ratio) for row in peak_rows() if (row.shape, row.limbs) == (shape, limbs)]
    require("grains", grains, low=rows[0][0], high=rows[-1][0])
    (before, one), (after, other) = next(pair for pair in pairwise(rows) if grains <= pair[1][0])
    part = (grains - before) / (after - before)
    ends = ((one.low, other.low), (one.value, other.value), (one.high, other.high))
    return Spread(*(a + part * (b - a) for a, b in ends))


def usual_limb_mass(brace_m: float, draw_m: float, draw_force_n: float) -> Spread:
    """Return what one working limb may weigh when nobody has weighed it [kg].

    Parameters
    ----------
    brace_m, draw_m : float, > 0
        Brace height; full draw, from the same point. [m]
    draw_force_n : float, > 0
        Draw weight. [N]

    Raises
    ------
    DomainError
        ``min`` or ``number``; ``pair`` with reason ``draw_short``.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> round(usual_limb_mass(0.1524, 0.7112, 152.297).value, 3)
    0.162
    """
    require("brace_m", brace_m, low=0.0)
    require("draw_m", draw_m, low=0.0, open_=True)
    require("draw_force_n", draw_force_n, low=0.0, open_=True)
    if draw_m <= brace_m:
        raise DomainError(Problem(field="draw_m", code="pair", other="brace_m", reason="draw_short"))
    return practice("limb_mass").spread.scaled(draw_force_n * (draw_m - brace_m))


def pipe_limb_mass(diameter_m: float, limb_m: Spread, schedule: str | None = None) -> Spread:
    """Return what one working limb of plastic pipe may weigh when nobody has weighed it [kg].

    Parameters
    ----------
    diameter_m : float
        Outside, of a pipe of the table. [m]
    limb_m : Spread, > 0
        From the stiff handle to the tip. [m]
    schedule : {"40", "80"} or None
        Of the wall; None: not known, schedule 40 as a rule.

    Raises
    ------
    DomainError
        ``choice`` for a diameter or a schedule that the table does not have.

    Notes
    -----
    Source: density x `wall_area` x length x ``pipe_kept`` of the constants, for limbs that are cut narrower, wrapped or
    nested; walls of the pipe standard (``asme-b36.10``) and what they may be thicker, density of rigid PVC
    (``pvc-pipe``). Pressing or bending a pipe flat leaves its weight as it was. Other plastics are lighter.

    Examples
    --------
    A limb of 20 in of 1/2 in pipe:

    >>> round(1000 * pipe_limb_mass(0.84 * 0.0254, Spread.exactly(0.508)).value)
    124
    """
    walls = pipe_walls()
    least = [each[diameter_m] for name, each in walls.items() if schedule in {None, name} and diameter_m in each]
    if not least:
        raise DomainError(Problem(field="diameter_m", code="choice"))
    causes = {
        "wall": Spread(least[0], least[0], least[-1]),
        "over": practice("pipe_wall_over").spread,
        "density": practice("pipe_density").spread,
        "limb": limb_m,
        "kept": practice("pipe_kept").spread,
    }

    def weighed(at: Mapping[str, float]) -> dict[str, float]:
        line_kg_m = at["density"] * wall_area(diameter_m, at["wall"] + at["over"])
        return {"mass": line_kg_m * at["limb"] * at["kept"]}

    return combine(weighed, causes)["mass"]
