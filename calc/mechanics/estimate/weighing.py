"""A bow as weighed forces have shown it: how strong it is, and what they tell of how its limbs bend."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import exp, hypot, log, sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.mechanics.estimate.readings import Drawn
from calc.mechanics.estimate.unit_pulls import pulls
from calc.numerics import Spread, combine, update

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from calc.mechanics.estimate.forms import Form
    from calc.mechanics.estimate.readings import Bows, ForceRead, FullDraw
    from calc.mechanics.estimate.unit_pulls import Place, Pulls, Seen

_FARTHEST = 5.0
"""How far a bow may be from what was known of it, in ends of what is unsure: further a straight line tells nothing."""
_SCALE = "scale"
_STANDARD = Spread(-1.0, 0.0, 1.0)


@dataclass(frozen=True, slots=True)
class Weighing:
    """A bow as weighed forces have shown it.

    Attributes
    ----------
    bows : Bows
        What it may have been before.
    asked : FullDraw
    readings : tuple of ForceRead
    middle : Drawn
        As it fits best.
    ends : mapping of str to tuple of Drawn
        Low and high of every independent cause that is left, by name.
    misfit : float
        How far readings and bow are from what fits best, in units of how unsure they are; 0 for one reading.
    """

    bows: Bows
    asked: FullDraw
    readings: tuple[ForceRead, ...]
    middle: Drawn
    ends: Mapping[str, tuple[Drawn, Drawn]]
    misfit: float

    def spreads(self, answer: Callable[[Drawn], Mapping[str, float]]) -> dict[str, Spread]:
        """Return any figures of the bow, with everything moved that is left to be sure of.

        Parameters
        ----------
        answer : callable
            Takes a bow as it was drawn, gives one number a figure.
        """
        return combine(lambda at: answer(self.at(at)), dict.fromkeys(self.ends, _STANDARD))

    def figures(self) -> dict[str, Spread]:
        """Return draw weight, pull braced and at full draw [N], stored energy [J] and the braced string [m]."""
        return self.spreads(
            lambda each: {
                "weight_n": each.weight_n,
                "brace_n": each.brace_n,
                "draw_n": each.draw_n,
                "energy_j": each.energy_j,
                "string_m": each.form.string_m(each.brace_m),
            }
        )

    def at(self, moved: Mapping[str, float]) -> Drawn:
        """Return the bow with one cause at its low (-1) or high (1) end, as it fits best with none.

        Parameters
        ----------
        moved : mapping of str to float
            By name of `ends`; other names are of no account.
        """
        for name, ends in self.ends.items():
            if moved.get(name):
                return ends[moved[name] > 0.0]
        return self.middle


def weigh(bows: Bows, asked: FullDraw, readings: Sequence[ForceRead]) -> Weighing:
    """Fit a bow to forces that were weighed on it.

    Parameters
    ----------
    bows : Bows
        What is known of it without them: `Guessed`, or a `Calibration` by strings.
    asked : FullDraw
        Brace height and full draw of what is asked about.
    readings : sequence of ForceRead
        One or more; a draw weight that was told is one of them.

    Raises
    ------
    DomainError
        ``missing`` without readings; ``pair`` with reason ``draw_short`` for a draw not above the brace height,
        ``draw_long`` for one that string or limbs cannot follow; ``model`` with reason ``forces_apart`` for readings
        that no bow of these measures goes with; as `Bows` have it.

    Notes
    -----
    Source: own derivation (``derived:weigh``): linear, with normal errors. How strong the limbs are nobody knows
    beforehand; what is not sure of the bow (tape, handle, bend of the limbs; with strings, all that `calibrate`
    moves) is as far off as its spread. The logarithm of a reading is that of its draw weight and of force / draw
    weight, which hangs on the bow alone. One reading settles the strength and leaves the bow as it was; from two on
    their ratio tells of working limb and bend, weighed against what was known, so that what they cannot tell stays
    as wide. Each reading is off by its share, and by `tape_reading` of the constants at its draw, the force taken to
    grow evenly from brace. Leaves out that two readings with one scale are off together.

    Examples
    --------
    A told draw weight that may be a tenth off, and a force weighed within 2 in 100:

    >>> from calc.mechanics.bow.bow import CENTRAL, Bow
    >>> from calc.mechanics.estimate.forms import Guessed
    >>> from calc.mechanics.estimate.known import Known
    >>> from calc.mechanics.estimate.readings import ForceRead, FullDraw
    >>> bows = Guessed(Known(Bow(1.70, 0.2, CENTRAL)))
    >>> told, read = ForceRead(0.7, 200.0, 0.1), ForceRead(0.5, 130.0, 0.02)
    >>> for readings in ([told], [told, read]):
    ...     found = weigh(bows, FullDraw(0.7, 0.16), readings).figures()["weight_n"]
    ...     round(found.low), round(found.value), round(found.high)
    (181, 200, 221)
    (202, 207, 212)
    """
    if not readings:
        raise DomainError(Problem(field="readings", code="missing"))
    prior = _prior(bows, asked, tuple((each.brace_m, each.draw_m) for each in readings))
    weights = tuple(_weight(each, prior.middle.brace_m) for each in readings)
    points, strayed = (prior.points, 0.0) if len(readings) == 1 else _together(prior, readings, weights)
    middle, *ends = (_drawn(point, readings, weights) for point in points)
    moves = dict(zip(prior.names, zip(ends[::2], ends[1::2], strict=True), strict=True))
    left = 1.0 / sqrt(sum(weights))
    moves[_SCALE] = (_drawn(points[0], readings, weights, -left), _drawn(points[0], readings, weights, left))
    misfit = sqrt(
        strayed + sum(w * each**2 for w, each in zip(weights, _wrong(points[0], readings, weights), strict=True))
    )
    return Weighing(bows, asked, tuple(readings), middle, moves, misfit)


@dataclass(frozen=True, slots=True)
class _Point:
    """A bow at one set of causes, its strength left open."""

    causes: Mapping[str, float]
    form: Form
    brace_m: float
    pulls: Pulls


@dataclass(frozen=True, slots=True)
class _Prior:
    """What a bow may be before a force is weighed: in the middle, then at both ends of every cause."""

    bows: Bows
    asked: FullDraw
    places: tuple[Place, ...]
    names: tuple[str, ...]
    points: tuple[_Point, ...]
    seen: Seen

    @property
    def middle(self) -> _Point:
        return self.points[0]

    def at(self, standard: Sequence[float]) -> _Point:
        """Return the bow at causes told in units of how unsure they are."""
        causes = {name: each.value for name, each in self.bows.causes.items()}
        for name, by in zip(self.names, standard, strict=True):
            spread = self.bows.causes[name]
            causes[name] += by * ((spread.high - spread.value) if by > 0.0 else (spread.value - spread.low))
        return _point(self.bows, self.asked, self.places, causes, self.seen)


@lru_cache(maxsize=16)
def _prior(bows: Bows, asked: FullDraw, places: tuple[Place, ...]) -> _Prior:
    causes = bows.causes
    centre = {name: each.value for name, each in causes.items()}
    names = tuple(name for name, each in causes.items() if each.low < each.high)
    points = [_point(bows, asked, places, centre, {})]
    seen = dict(points[0].pulls.seen)
    for name in names:
        for end in (causes[name].low, causes[name].high):
            points.append(_point(bows, asked, places, {**centre, name: end}, seen))
            seen = points[-1].pulls.seen | seen
    return _Prior(bows, asked, places, names, tuple(points), seen)


def _point(bows: Bows, asked: FullDraw, places: tuple[Place, ...], causes: Mapping[str, float], near: Seen) -> _Point:
    form = bows.form_at(causes)
    brace_m = asked.brace_of(form)
    return _Point(causes, form, brace_m, pulls(form, brace_m, asked.draw_m, places, near))


def _weight(reading: ForceRead, brace_m: float) -> float:
    """Return 1 / variance of the logarithm of a reading."""
    way_m = reading.draw_m - (brace_m if reading.brace_m is None else reading.brace_m)
    return 1.0 / hypot(reading.off, practice("tape_reading").spread.high / way_m) ** 2


def _off(point: _Point, readings: Sequence[ForceRead]) -> list[float]:
    """Return the logarithm of the draw weight by each reading; no bow that would have to push pulls as they say."""
    if min(point.pulls.forces) <= 0.0:
        raise DomainError(Problem(field="readings", code="model", reason="forces_apart"))
    return [log(each.force_n / force) for each, force in zip(readings, point.pulls.forces, strict=True)]


def _level(point: _Point, readings: Sequence[ForceRead], weights: Sequence[float]) -> float:
    """Return the logarithm of the draw weight by all readings."""
    return sum(w * each for w, each in zip(weights, _off(point, readings), strict=True)) / sum(weights)


def _wrong(point: _Point, readings: Sequence[ForceRead], weights: Sequence[float]) -> list[float]:
    """Return how far the logarithm of each reading is off."""
    level = _level(point, readings, weights)
    return [each - level for each in _off(point, readings)]


def _together(prior: _Prior, readings: Sequence[ForceRead], weights: Sequence[float]) -> tuple[list[_Point], float]:
    """Return what `_fitted` does, if there can be a bow that pulls as all readings say."""
    apart = DomainError(Problem(field="readings", code="model", reason="forces_apart"))
    try:
        points, strayed = _fitted(prior, readings, weights)
    except DomainError:
        raise apart from None
    if strayed > _FARTHEST**2:
        raise apart
    return points, strayed


def _fitted(prior: _Prior, readings: Sequence[ForceRead], weights: Sequence[float]) -> tuple[list[_Point], float]:
    """Return the bow that fits best, both ends of what is left to be sure of, and how far it strayed (squared)."""
    ends = [point.pulls.forces for point in prior.points[1:]]
    slopes = [
        [log(high[j] / low[j]) / 2.0 for low, high in zip(ends[::2], ends[1::2], strict=True)]
        for j in range(len(readings))
    ]
    found = update(lambda at: _off(prior.at(at), readings), slopes, weights)
    moved = [
        [a + side * by for a, by in zip(found.at, move, strict=True)] for move in found.moves for side in (-1.0, 1.0)
    ]
    return [prior.at(each) for each in (found.at, *moved)], sum(each**2 for each in found.at)


def _drawn(point: _Point, readings: Sequence[ForceRead], weights: Sequence[float], by: float = 0.0) -> Drawn:
    """Return a bow as strong as its readings have it on the whole."""
    weight_n, each = exp(_level(point, readings, weights) + by), point.pulls
    return Drawn(
        causes=point.causes,
        form=point.form,
        brace_m=point.brace_m,
        weight_n=weight_n,
        brace_n=weight_n * each.brace,
        draw_n=weight_n * each.draw,
        energy_j=weight_n * each.energy_m,
    )
