"""The hardest pull of a shot before the string is known, and the usual mass of limbs that were not weighed."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import exp, log
from typing import TYPE_CHECKING

from calc.data import peak_table, peak_terms, pipe_walls, practice
from calc.errors import DomainError, Problem, require
from calc.geometry.ends import wall_area
from calc.numerics import Spread, combine

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Limbs
    from calc.mechanics.bow import LimbShape

_BENDS: Mapping[LimbShape, float] = {"tapered": -1.0, "arc": 0.0, "hinged": 0.5, "uniform": 1.0}
"""Limb shapes by how far they stray from the arc, the softest shot first. Limbs that bend near the handle alone count
as half-way from arc to uniform: own choice. Rigid limbs are in no row of the table, for they cannot give way at all."""
_SECOND = ("peak_soft", "peak_middling", "peak_stiff")
_STIFF = (50.0, 200.0, 900.0)
"""Stiffness of the string / draw weight that each of those constants speaks of. [-]"""


@dataclass(frozen=True, slots=True)
class ShotLoad:
    """What the hardest pull of a shot hangs on, each for one newton of draw weight.

    Attributes
    ----------
    limb, arrow, string : Spread
        One working limb; the arrow; the whole string. [kg/N]
    stiffness : Spread
        Pull that would stretch the string by its own length / draw weight. [-]
    """

    limb: Spread
    arrow: Spread
    string: Spread
    stiffness: Spread


@lru_cache(maxsize=256)
def peak_force_ratio(shape: LimbShape | None, load: ShotLoad) -> Spread:
    """Return the hardest pull in the string of a shot / draw weight [-].

    Parameters
    ----------
    shape : LimbShape or None
        Of the limbs, as somebody saw it; any shape when nobody has looked.
    load : ShotLoad
        Limbs, arrow and string.

    Raises
    ------
    DomainError
        ``min`` for a mass or a stiffness that is none, ``number`` for one that is not finite.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> usual = Spread.exactly
    >>> load = ShotLoad(limb=usual(9e-4), arrow=usual(1.3e-4), string=usual(3e-5), stiffness=usual(120.0))
    >>> peak_force_ratio("tapered", load).value < peak_force_ratio(None, load).value
    True
    """
    for name in ("limb", "arrow", "string", "stiffness"):
        require(name, getattr(load, name).low, low=0.0, open_=True)
    at = {name: _logs(getattr(load, name)) for name in ("limb", "arrow", "string", "stiffness")}
    strays = practice("limb_unknown" if shape is None else "limb_told").spread
    bend = strays.shifted(0.0 if shape is None else _BENDS[shape])
    kept = practice("shot_kept").spread
    rests = [_logs(each.rest) for each in peak_table().rows.values()]
    causes = at | {
        "bend": bend,
        "rest": Spread(min(each.low for each in rests), 0.0, max(each.high for each in rests)),
        "second": _second(at["stiffness"].value),
        "friction": Spread(log(kept.low) / 2.0, 0.0, 0.0),
    }
    apart = ("rest", "second", "friction")
    found = combine(lambda here: {"ratio": _fitted(here) + sum(here[each] for each in apart)}, causes)["ratio"]
    return Spread(exp(found.low), exp(found.value), exp(found.high))


def _logs(each: Spread) -> Spread:
    return Spread(log(each.low), log(each.value), log(each.high))


def _second(stiffness: float) -> Spread:
    """Return how far the second way's pulls are from these, in logarithms, for a string so stiff (a logarithm too)."""
    known, places = [_logs(practice(name).spread) for name in _SECOND], [log(each) for each in _STIFF]
    here = max(places[0], min(places[-1], stiffness))
    first = 0 if here <= places[1] else 1
    part = (here - places[first]) / (places[first + 1] - places[first])
    one, other = known[first], known[first + 1]
    return Spread(*(a + part * (b - a) for a, b in zip(_ends(one), _ends(other), strict=True)))


def _ends(each: Spread) -> tuple[float, float, float]:
    return each.low, each.value, each.high


def _fitted(at: Mapping[str, float]) -> float:
    """Return the logarithm of the ratio by the table; what lies beyond its ends counts as the end."""
    table = peak_table()
    asked = {"limb": at["limb"] - at["arrow"], "string": at["string"] - at["arrow"], "stiffness": at["stiffness"]}
    has = {name: max(low, min(high, exp(asked[name]))) for name, (low, high) in table.ends.items()}
    terms = peak_terms(table.middle, **has)
    arc, other = (
        sum(power * term for power, term in zip(table.rows[name].powers, terms, strict=True))
        for name in ("arc", "tapered" if at["bend"] <= 0.0 else "uniform")
    )
    return arc + abs(at["bend"]) * (other - arc)


def usual_limb_share(limbs: Limbs) -> Spread:
    """Return what one working limb weighs for each newton of draw weight, when nobody has weighed it [kg/N].

    Parameters
    ----------
    limbs : {"wood", "pipe"}
        What they are of.

    Notes
    -----
    Source: `usual_limb_mass` and `pipe_limb_mass` over bows of many lengths and draws (``derived:links``).

    Examples
    --------
    >>> usual_limb_share("pipe").value > usual_limb_share("wood").value
    True
    """
    return peak_table().usual[limbs]


def usual_string_length() -> Spread:
    """Return how long strings are, nock to nock, for what a string weighs where its bow's length counts little [m].

    Notes
    -----
    Source: the bows of `usual_limb_share`.

    Examples
    --------
    >>> 1.4 < usual_string_length().value < 1.6
    True
    """
    return peak_table().usual["string"]


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
