"""Tuning a string that is on the bow: how many turns, how far they go, and what readings teach."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.making.string import body_lay, body_of, raw_for
from calc.making.tuning.bracing import free_body
from calc.numerics import Spread, beside

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.making.string import Body, Turned
    from calc.mechanics.estimate import BowEstimate, BowState

_LEAST_RESPONSE = 0.05
_FAR = 2.0
"""Readings this many of their own errors away from the sums are believed alone."""


@dataclass(frozen=True, slots=True)
class BraceReading:
    """A brace height read earlier.

    Attributes
    ----------
    since : float
        Turns put in since then. [turn]
    brace_m : float
        Brace height as it was read. [m]
    """

    since: float
    brace_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Tuned:
    """A string on the bow, as it is found.

    Attributes
    ----------
    bow : BowEstimate
    brace_m, wanted_m : float
        Brace height now and wanted. [m]
    string_m : float or None
        Nock to nock, braced; None: what the bow's shape says. [m]
    tail_m : float
        Laid into each splice. [m]
    bundles : int
    bundle_m, cord_m : float or None
        Diameter of one bundle, or of the plied body; one of them is known. [m]
    turns, per_m : float or None
        Turns in the free body, or over a length of it [turn], [turn/m]; neither: not counted.
    readings : tuple of BraceReading
        Earlier ones, of the same string on the same bow.
    """

    bow: BowEstimate
    brace_m: float
    wanted_m: float
    string_m: float | None
    tail_m: float
    bundles: int
    bundle_m: float | None
    cord_m: float | None
    turns: float | None
    per_m: float | None
    readings: tuple[BraceReading, ...] = ()

    def causes(self) -> dict[str, Spread]:
        """Return everything that is uncertain beside the bow, by name."""
        reading = practice("tape_reading").spread
        found = {
            "reading": reading,
            "cord": practice("thickness_reading").spread,
            "spring": practice("spring").spread,
            "response": practice("turn_response").spread,
        }
        if self.turns is None and self.per_m is None:
            loosest, tightest = (practice(name).spread.value for name in ("lay_loosest", "lay_tightest"))
            found["lay"] = Spread(loosest, body_lay(), tightest)
        else:
            found["count"] = Spread(-0.5, 0.0, 0.5)
        return found | {f"reading {at}": reading for at, _ in enumerate(self.readings)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Tuning:
    """What to do about a string.

    Attributes
    ----------
    asked : Tuned
    body : Body
        The free body as it is now, in the middle of what is uncertain.
    causes, figures : mapping of str to Spread
        What is uncertain; every answer by row key.
    untaught : Spread or None
        Brace height for a turn without the readings; None without readings. [m]
    believed : float
        Share of the answer to a turn that the readings decide, 0 without readings. [-]
    """

    asked: Tuned
    body: Body
    causes: Mapping[str, Spread]
    figures: Mapping[str, Spread]
    untaught: Spread | None = None
    believed: float = 0.0

    @property
    def response(self) -> float:
        """What a turn does / what the sums alone say [-]."""
        return self.figures["response"].value

    def limbs(self) -> BowState:
        """Return the limbs in the middle of what is uncertain."""
        return self.asked.bow.middle

    def brace_at(self, turns: float) -> float:
        """Return the brace height at a count of body turns [m]."""
        return self.brace_of(self.body.at_turns(max(turns, 0.0)))

    def brace_of(self, turned: Turned) -> float:
        """Return the brace height with the body turned so [m]."""
        limbs, asked = self.limbs(), self.asked
        string_m = limbs.string_m(asked.brace_m) + turned.cord_m - self.body.cord_m
        return _answered(asked.brace_m, limbs.brace_m(string_m), self.response)


def tune(asked: Tuned) -> Tuning:
    """Return the turns that bring a string to the brace height wanted, and what is left of its room.

    Parameters
    ----------
    asked : Tuned
        The string as it is found.

    Raises
    ------
    DomainError
        ``model`` with reason ``jam`` for more turns than the cord can hold; ``max`` for a brace height the bow cannot
        take; ``pair`` with reason ``tails_long``, ``turns_backward`` or ``turns_apart``.

    Notes
    -----
    Source: the free body turned at its ends (``derived:window``) on the limbs of the bow (``derived:limbs``). What a
    turn really does / what the sums say is ``turn_response``; readings are held against the sums in the same way and
    both are weighed by how sure they are (``derived:tuning``). Beyond the slackest and the jammed lay no turn helps:
    there the answer stands at that end. Leaves out the change of stretch with brace height, and creep between readings.
    """
    causes = asked.causes()
    moves = beside(asked.bow.moves, causes)
    middle = moves.centre
    limbs = asked.bow.state(middle)
    free_m = free_body(
        asked.string_m or limbs.string_m(asked.brace_m), asked.tail_m, practice("tip_usual").spread.value
    )
    for name, height_m in (("now_m", asked.brace_m), ("brace_m", asked.wanted_m)):
        require(name, height_m, low=0.0, high=limbs.highest_m)
    body = _body(asked, middle, free_m)
    weight, untaught = 0.0, None
    if asked.readings:
        untaught = moves.spread(lambda at: _untaught(asked, at, free_m))
        weight = _weight(asked, middle, free_m, untaught)
    figures = moves.spreads(lambda at: _answer(asked, at, free_m, weight))
    return Tuning(
        asked=asked,
        body=body,
        causes=asked.bow.causes | causes,
        figures=figures,
        untaught=untaught,
        believed=weight,
    )


def _body(asked: Tuned, at: Mapping[str, float], free_m: float) -> Body:
    """Return the free body at one set of causes."""
    turns = asked.turns if asked.turns is not None else None if asked.per_m is None else asked.per_m * free_m
    return body_of(
        cord_m=free_m,
        bundles=asked.bundles,
        bundle_m=None if asked.bundle_m is None else asked.bundle_m * (1.0 + at["cord"]),
        over_m=None if asked.cord_m is None else asked.cord_m * (1.0 + at["cord"]),
        turns=None if turns is None else max(0.0, turns + at["count"]),
        lay_rad=at.get("lay", 0.0),
        spring=at["spring"],
        loose=at.get("count", 0.0) != 0.0 or at["cord"] != 0.0,
    )


def _answer(asked: Tuned, at: Mapping[str, float], free_m: float, weight: float) -> dict[str, float]:
    """Return every figure at one set of causes; `weight` is the share the readings decide."""
    limbs = asked.bow.state(at)
    body = _body(asked, at, free_m)
    brace_m = asked.brace_m + at["reading"]
    string_m = limbs.string_m(brace_m)
    measured = _measured(asked, limbs, body, at)
    response = max(_LEAST_RESPONSE, (1.0 - weight) * at["response"] + weight * measured)

    def braced(cord_m: float) -> float:
        return _answered(brace_m, limbs.brace_m(string_m + cord_m - body.cord_m), response)

    asked_m = max(brace_m + (asked.wanted_m - brace_m) / response, 1e-6)
    wanted_cord_m = body.cord_m + limbs.string_m(asked_m) - string_m
    new = body.of_cord(wanted_cord_m)
    ends = body.ends
    fresh = raw_for(body.cord_m + limbs.string_m(asked.wanted_m) - string_m, body.bundle_m, asked.bundles, body_lay())
    return {
        "turns_now": body.turns,
        "turns_change": new.turns - body.turns,
        "turns_new": new.turns,
        "lay_now": body.lay_rad,
        "lay_new": new.lay_rad,
        "brace_per_turn": -response * limbs.slope(brace_m) * body.taken_per_turn,
        "turns_to_jam": ends.jam.turns - new.turns,
        "turns_to_loose": new.turns - ends.loose.turns,
        "turns_loose": ends.loose.turns,
        "turns_tight": ends.tight.turns,
        "turns_jam": ends.jam.turns,
        "brace_low": braced(ends.loose.cord_m),
        "brace_high": braced(ends.tight.cord_m),
        "brace_then": braced(new.cord_m),
        "response": response,
        "response_measured": measured,
        "bundle_diameter": body.bundle_m,
        "free_body": body.cord_m,
        "string_change": limbs.string_m(asked.wanted_m) - string_m,
        "next_body": fresh.raw_m - body.raw_m,
    }


def _answered(brace_m: float, said_m: float, response: float) -> float:
    """Return the brace height for one that the sums say, 0 where the string is too long to brace the bow [m]."""
    return max(0.0, brace_m + response * (said_m - brace_m)) if said_m > 0.0 else 0.0


def _untaught(asked: Tuned, at: Mapping[str, float], free_m: float) -> float:
    """Return the brace height for a turn by the sums alone [m]."""
    brace_m = asked.brace_m + at["reading"]
    return -at["response"] * asked.bow.state(at).slope(brace_m) * _body(asked, at, free_m).taken_per_turn


def _said(asked: Tuned, limbs: BowState, body: Body) -> list[float]:
    """Return what the sums say of the brace height at each reading, now the last [m]."""
    string_m = limbs.string_m(asked.brace_m)
    past = (body.cord_of_turns(body.turns - each.since) for each in asked.readings)
    return [*(limbs.brace_m(string_m + each - body.cord_m) for each in past), asked.brace_m]


def _measured(asked: Tuned, limbs: BowState, body: Body, at: Mapping[str, float]) -> float:
    """Return how the heights that were read rise over those the sums say, by least squares; 1 where nothing rose."""
    said = _said(asked, limbs, body)
    read = [each.brace_m + at.get(f"reading {k}", 0.0) for k, each in enumerate(asked.readings)]
    read.append(asked.brace_m + at["reading"])
    middle, height = sum(said) / len(said), sum(read) / len(read)
    square = sum((each - middle) ** 2 for each in said)
    if square <= 0.0:
        return 1.0
    return sum((a - middle) * (b - height) for a, b in zip(said, read, strict=True)) / square


def _weight(asked: Tuned, middle: Mapping[str, float], free_m: float, untaught: Spread) -> float:
    """Return the share of the answer that readings decide: sureness against that of the sums."""
    limbs, body = asked.bow.state(middle), _body(asked, middle, free_m)
    if not all(0.0 <= body.turns - each.since <= body.ends.jam.turns for each in asked.readings):
        raise DomainError(Problem(field="turns_first", code="pair", other="turns", reason="turns_apart"))
    said = _said(asked, limbs, body)
    mean = sum(said) / len(said)
    square = sum((each - mean) ** 2 for each in said)
    if square <= 0.0:
        return 0.0
    off = practice("tape_reading").spread.high / sqrt(square)
    measured = _measured(asked, limbs, body, middle)
    if measured < -off:
        raise DomainError(Problem(field="turns_first", code="pair", other="brace_first", reason="turns_backward"))
    sums = max(untaught.high - untaught.value, untaught.value - untaught.low) / untaught.value
    if abs(measured - middle["response"]) > _FAR * hypot(sums, off):
        return 1.0
    return sums**2 / (sums**2 + off**2)
