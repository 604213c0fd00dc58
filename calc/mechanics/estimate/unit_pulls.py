"""What a bow of unknown strength does for each newton of its draw weight: other forces, string tension, energy."""

from __future__ import annotations

from dataclasses import dataclass
from math import sin
from typing import TYPE_CHECKING, TypeAlias

from calc.errors import DomainError, Problem
from calc.mechanics.bow import limb_state_near, string_length

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from calc.mechanics.bow import Bow, LimbShape, LimbState
    from calc.mechanics.estimate.state import BowState

Place: TypeAlias = "tuple[float | None, float]"
"""Where a force is looked at: brace height, None for that asked about, and draw. [m]"""
Seen: TypeAlias = "dict[tuple[LimbShape, float | None], tuple[LimbState, ...]]"


@dataclass(frozen=True, slots=True)
class Pulls:
    """A bow drawn to its draw weight, and elsewhere.

    Attributes
    ----------
    forces : tuple of float
        At each place / draw weight. [-]
    brace, draw : float
        Tension of the string braced, drawn / draw weight. [-]
    energy_m : float
        Stored between brace and full draw / draw weight. [m]
    seen : Seen
        The limbs' states, to look for others near them.
    """

    forces: tuple[float, ...]
    brace: float
    draw: float
    energy_m: float
    seen: Seen


def pulls(state: BowState, brace_m: float, draw_m: float, places: tuple[Place, ...], near: Seen) -> Pulls:
    """Return what a bow does for each newton of its draw weight.

    Parameters
    ----------
    state : BowState
        The bow; limbs between two shapes do what lies between them.
    brace_m, draw_m : float
        Where draw weight is told. [m]
    places : tuple of Place
        Where else to look.
    near : Seen
        States of bows not far from it, as far as there are any.

    Raises
    ------
    DomainError
        As `static_tension`.

    Notes
    -----
    Source: the same limbs hold the string at every draw (``derived:statics``).
    """
    rows: list[tuple[float, list[float]]] = []
    seen: Seen = {}
    for bow, share in state.ends():
        states = _states(bow, brace_m, draw_m, places, near)
        seen |= {(bow.shape, brace): held for brace, held in states.items()}
        rows.append((share, _row(bow, states, places)))
    mixed = [sum(share * row[k] for share, row in rows) for k in range(len(places) + 3)]
    brace, draw, energy_m, *forces = mixed
    return Pulls(tuple(forces), brace, draw, energy_m, seen)


def _states(
    bow: Bow, brace_m: float, draw_m: float, places: tuple[Place, ...], near: Seen
) -> dict[float | None, tuple[LimbState, ...]]:
    """Return the limb braced and drawn, full draw first where it is braced as asked, by brace height."""
    found = {}
    for brace in dict.fromkeys((None, *(each[0] for each in places))):
        at_m = brace_m if brace is None else brace
        draws = tuple(each[1] for each in places if each[0] == brace)
        draws = (draw_m, *draws) if brace is None else draws
        string_length(bow, at_m)
        _refuse(draws, at_m)
        found[brace] = limb_state_near(bow, at_m, draws, near.get((bow.shape, brace), ()))
    return found


def _refuse(draws_m: Iterable[float], brace_m: float) -> None:
    if min(draws_m) <= brace_m:
        raise DomainError(Problem(field="draw_m", code="pair", other="brace_m", reason="draw_short"))


def _row(bow: Bow, states: Mapping[float | None, tuple[LimbState, ...]], places: tuple[Place, ...]) -> list[float]:
    """Return tension braced and drawn, energy and forces, each / draw weight."""
    start, full, *_ = states[None]
    weight = full_force(full)
    left = {brace: iter(held[2 if brace is None else 1 :]) for brace, held in states.items()}
    forces = [full_force(next(left[brace])) / weight for brace, _ in places]
    energy_m = 2.0 * bow.limb_m * (full.energy - start.energy) / weight
    return [start.load / weight, full.load / weight, energy_m, *forces]


def full_force(held: LimbState) -> float:
    """Return the force on the fingers of a drawn bow x limb length^2 / bending stiffness at the handle [-].

    Parameters
    ----------
    held : LimbState
        Drawn.

    Notes
    -----
    Source: both halves of the string pull on the fingers (``derived:statics``).
    """
    return 2.0 * held.load * sin(held.pull_rad)
