"""Readings that no bow with the given measures could give."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.mechanics.bow import HIGHEST
from calc.mechanics.estimate.state import BowState

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.mechanics.bow import Bow
    from calc.mechanics.estimate.bow_estimate import BowEstimate
    from calc.mechanics.estimate.readings import StringRead


def _pair(reason: str, limit_m: float | None) -> DomainError:
    return DomainError(
        Problem(field="pairs", code="pair", limit=limit_m, other="nock_to_nock_m", reason=f"pair_{reason}")
    )


def check_strings(bow: Bow, strings: Sequence[StringRead]) -> None:
    """Refuse strings that no bow of these measures could have had; see `BowEstimate.given`.

    Parameters
    ----------
    bow : Bow
        As told.
    strings : sequence of StringRead

    Raises
    ------
    DomainError
        ``pairs`` with reasons ``pair_string_long``, ``pair_string_stiff``, ``pair_string_short``.
    """
    room_m = bow.nock_to_nock_m / 2.0 - bow.contact_m
    proud_m = practice("proud_reading").spread.low
    stiffest = BowState(bow.nock_to_nock_m, room_m, "uniform", 0.0, bow.handle_proud_m, bow.follow, bow.contact_m)
    for each in strings:
        if each.string_m >= bow.nock_to_nock_m:
            raise _pair("string_long", bow.nock_to_nock_m)
        if each.string_m > (limit_m := stiffest.string_m(each.brace_m + proud_m)):
            raise _pair("string_stiff", limit_m)
        if each.brace_m + bow.handle_proud_m >= HIGHEST * room_m:
            raise _pair("string_short", each.string_m)


def check_forces(bow: BowEstimate) -> None:
    """Refuse forces read at draws that are none; see `BowEstimate.given`.

    Parameters
    ----------
    bow : BowEstimate
        With its forces.

    Raises
    ------
    DomainError
        ``missing`` where the draw is not told; ``pair`` with reason ``draw_short``.
    """
    if not bow.forces and bow.draw_weight_n is None:
        return
    if bow.draw_m is None:
        raise DomainError(Problem(field="draw_m", code="missing"))
    told = ("draw_m", bow.draw_m, bow.reference_m)
    read = (("at_m", each.draw_m, each.brace_m or bow.reference_m) for each in bow.forces)
    for field, draw_m, brace_m in (told, *read):
        if draw_m <= brace_m:
            raise DomainError(Problem(field=field, code="pair", other="brace_m", reason="draw_short"))


def too_far(bow: BowEstimate, problem: Problem | None, *, farthest: float) -> DomainError:
    """Return what to say of readings that no bow goes with.

    Parameters
    ----------
    bow : BowEstimate
        With its readings.
    problem : Problem or None
        What the sums stopped at; None: they came to an end, far off.
    farthest : float
        How far causes may stray, in units of how unsure they are. [-]

    Notes
    -----
    Source: `BowEstimate.strayed` with and without the forces (``derived:estimate``).
    """
    if problem is not None and problem.reason == "draw_long":
        longest_m = max((each.draw_m for each in bow.forces), default=0.0)
        return DomainError(replace(problem, field="at_m" if longest_m >= (bow.draw_m or 0.0) else "draw_m"))
    if problem is not None and problem.code == "max":
        return DomainError(problem)
    if bow.forces and (not bow.strings or replace(bow, forces=()).strayed <= farthest):
        return DomainError(Problem(field="readings", code="model", reason="forces_apart"))
    if not bow.strings:
        return DomainError(Problem(field="thread_gap_m", code="pair", other="string_follow_m", reason="thread_apart"))
    first = bow.strings[0]
    short = len(bow.strings) == 1 and bow.middle.string_m(first.brace_m) > first.string_m
    return _pair("string_short", first.string_m) if short else _pair("far", None)
