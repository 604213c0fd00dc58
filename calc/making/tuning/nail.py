"""A finished string on the nail: what it will be on the bow, before the bow has ever bent."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import hypot, log10, sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.making.tuning.hung import Hung, HungLine
from calc.making.tuning.tuning import Tuned, tune
from calc.mechanics.estimate import StringRead, widened
from calc.mechanics.fibre import Load, settle, strand_strength
from calc.numerics import Spread, beside, combine, conditioned

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from calc.making.tuning.tuning import Tuning
    from calc.mechanics.estimate import BowEstimate
    from calc.numerics import Moves

_ROUNDS = 2
_LEAST_BRACE_M = 0.0508
"""Below this a string hardly braces a bow. [m]"""
_HIGHEST = 0.95
"""Share of the highest brace height up to which the pull is worked out. [-]"""
_MOST_LEFT = 0.05
"""Growth still to come is never more than this. [-]"""
_NIGHT_S = 12.0 * 3600.0
"""How long a string has hung that was left overnight. [s]"""
_LEAST_NARROWER = 0.05
"""What narrows the range by less is not worth the reading. [-]"""
_LOOPS = 4
"""Of two strings."""
_APART = 5.0
"""An earlier string further off than this, in units of how unsure all is, was not of this cord, bow and nail."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Nailed:
    """What a string on the nail tells.

    Attributes
    ----------
    hung : Hung
    pull_n : Spread
        Pull of the braced bow. [N]
    causes : mapping of str to Spread
        What is uncertain beside the bow.
    figures : mapping of str to Spread
        Every answer by row key.
    tuning : Tuning
        The string tuned from the brace height it will give to the one wanted.
    """

    hung: Hung
    pull_n: Spread
    causes: Mapping[str, Spread]
    figures: Mapping[str, Spread]
    tuning: Tuning
    _line: HungLine = field(repr=False)

    @property
    def remake(self) -> bool:
        """Whether turns would leave the lay too loose to hold or too tight to be of use."""
        tightest = practice("lay_tightest").spread.value
        return self.figures["turns_to_loose"].value < 0.0 or self.figures["lay_new"].value > tightest

    def length_under(self, load_n: float) -> float:
        """Return the string from peg to peg under a pull [m]."""
        return self._line.at(load_n, {name: each.value for name, each in self.causes.items()})


def predict_brace(hung: Hung) -> Nailed:
    """Return the brace height a finished string will give, and the turns that bring it to the one wanted.

    Parameters
    ----------
    hung : Hung

    Raises
    ------
    DomainError
        ``max`` with reason ``string_long`` for a string that would not brace the bow by 2 in, ``min`` with reason
        ``string_short`` for one that would bend the limbs past what they are worked out for; ``pair`` with reason
        ``peg_thick`` for a peg on which no loop of the tips' size goes; as `tune` and `settle`.

    Notes
    -----
    Fits ``length = a + k * stretch(pull)``.

    Source: own derivation (``derived:nail``): the string's growth from the weight to the pull of the bow is that of
    its fibre (`elastic_stretch`) times a stiffness of its own, which two weights tell and one leaves as it is known
    of the fibre; least squares, each length off by `tape_reading`. From the pegs to the tips the loops are the same, on
    another thickness (``derived:loop``). What it still grows is `settle`; where its growth on the nail was read,
    that tells how much (`bedding_share`). The limbs then say the brace height (``derived:limbs``), `tune` the turns.
    Leaves out the weight of the string, and friction of loops on their pegs.
    """
    line = HungLine.of(hung)
    pull_n, moved = _settled_pull(hung, line)
    causes = moved | dict(line.causes)
    string_m = line.on_bow({name: each.value for name, each in causes.items()})
    _check(hung, string_m)
    figures = _figures_on_bow(hung, line, causes) | _grown(hung)
    height = figures["brace_height"]
    done = tune(_tuned(hung, height.value, string_m))
    figures |= _turned(height, done) | _narrower(hung, height)
    return Nailed(hung=hung, pull_n=pull_n, causes=causes, figures=figures, tuning=done, _line=line)


def _figures_on_bow(hung: Hung, line: HungLine, causes: Mapping[str, Spread]) -> dict[str, Spread]:
    """Return length and brace height on the bow, with all that is uncertain."""

    def answer(at: Mapping[str, float]) -> dict[str, float]:
        state, long_m = hung.bow.state(at), line.on_bow(at)
        return {
            "string_length": long_m,
            "brace_height": state.brace_m(long_m),
            "hung_then": line.at(at["pull"], at),
            "left_length": line.left(at) * line.free_m,
        }

    return _after_earlier(hung, line, causes).spreads(answer)


def _narrower(hung: Hung, height: Spread) -> dict[str, Spread]:
    """Return by what part the range of the brace height would shrink, for each reading that could still be made [-]."""
    found = {}
    for key, asked in _surer(hung).items():
        line = HungLine.of(asked)
        _, moved = _settled_pull(asked, line)
        surer = _figures_on_bow(asked, line, {**moved, **line.causes})["brace_height"]
        share = 1.0 - (surer.high - surer.low) / (height.high - height.low)
        if share >= _LEAST_NARROWER:
            found[f"narrower_{key}"] = Spread.exactly(share)
    return found


def _surer(hung: Hung) -> dict[str, Hung]:
    """Return the string with one more thing read of it, each as it is most likely to be read."""
    found, bow, line = {}, hung.bow, HungLine.of(hung)
    if hung.throats_m is None or hung.reach_m is None:
        ends_m = line.reach_m({name: each.value for name, each in line.causes.items()}) / 2.0
        throats_m, reach_m = hung.throats_m or line.free_m, hung.reach_m or (ends_m, ends_m)
        found["ends"] = replace(hung, throats_m=throats_m, reach_m=reach_m)
    if bow.string_follow_m is None or bow.thread_gap_m is None:
        at = bow.moves.centre
        seen = replace(bow, string_follow_m=at["follow"], thread_gap_m=at["follow"] - at["proud"])
        found["thread"] = replace(hung, bow=seen)
    if hung.hung_s < _NIGHT_S:
        found["night"] = replace(hung, hung_s=_NIGHT_S, first_m=None)
    if hung.times == 1:
        found["twice"] = replace(hung, times=2)
    return found


def _after_earlier(hung: Hung, line: HungLine, causes: Mapping[str, Spread]) -> Moves[Mapping[str, float]]:
    """Return all that is uncertain, with what an earlier string leaves of it: bow, loops and growth were the same."""
    bow = hung.bow
    if hung.earlier is None:
        return beside(bow.moves, causes)
    every = {**bow.causes, **causes, "earlier brace": practice("tape_reading").spread}
    found = conditioned(every, readings_of(hung, line, causes["pull"].value))
    if found.misfit > _APART:
        raise DomainError(Problem(field="earlier_m", code="pair", other="length_m", reason="earlier_apart"))
    return found


def readings_of(hung: Hung, line: HungLine, pull_n: float) -> Callable[[Mapping[str, float]], list[float]]:
    """Return how far every reading of bow and earlier string is off at one set of causes, in units of how unsure it is.

    Parameters
    ----------
    hung : Hung
    line : HungLine
        Of it.
    pull_n : float, > 0
        Of the bow that this string braces. [N]

    Notes
    -----
    Source: own composition (``derived:nail``). Lengths on the nail are held against each other, each off by a tape
    reading of its own; the brace height that the earlier string gave was read once, whatever it is held against. A bow
    that follows the string pulls harder where it is braced higher. What two strings of one hand still grow differs by
    ``hand_even`` of the constants. Throats leave out what four loops differ by, each marked off by a tape reading,
    of which a throat moves by half; lengths over pegs have it in them.
    """
    bow, earlier = hung.bow, hung.earlier
    if earlier is None:
        return bow.off
    tape_m, uneven = hung.tape.high, practice("hand_even").spread.high
    on_bow_m = practice("tape_reading").spread.high
    others = replace(bow, strings=tuple(each for each in bow.strings if each.brace_m != earlier.brace_m))
    measured = [each.string_m for each in bow.strings if each.brace_m == earlier.brace_m]
    loops_m = on_bow_m * sqrt(_LOOPS) / 2.0
    harder = bow.drawn(brace_m=earlier.brace_m).centre.brace_n / pull_n

    def off(at: Mapping[str, float]) -> list[float]:
        gave_m = bow.state(at).string_m(max(0.0, earlier.brace_m + at["earlier brace"]))
        there = {**at, "pull": at["pull"] * harder}
        long_m, grows_m = line.on_bow(there), uneven * line.left(at) * line.free_m
        told = [(each, on_bow_m) for each in measured]
        told.append((long_m + earlier.length_m - hung.read.length_m - at["read 0"], hypot(tape_m, grows_m)))
        if earlier.throats_m is not None and hung.throats_m is not None:
            other_m = long_m + earlier.throats_m - hung.throats_m - at["throats"]
            told.append((other_m, hypot(tape_m, loops_m, grows_m)))
        return [*others.off(at), *((gave_m - each) / unsure_m for each, unsure_m in told)]

    return off


def _check(hung: Hung, string_m: float) -> None:
    middle = hung.bow.middle
    over_m = hung.read.length_m - string_m
    longest_m = middle.string_m(min(_LEAST_BRACE_M, middle.highest_m / 2.0))
    shortest_m = middle.string_m(middle.highest_m)
    if string_m > longest_m:
        raise DomainError(Problem(field="length_m", code="max", limit=longest_m + over_m, reason="string_long"))
    if string_m < shortest_m:
        raise DomainError(Problem(field="length_m", code="min", limit=shortest_m + over_m, reason="string_short"))


def _settled_pull(hung: Hung, line: HungLine) -> tuple[Spread, dict[str, Spread]]:
    """Return the pull of the braced bow, and what it and the growth to come leave uncertain."""
    middle, brace_m = hung.bow.middle, hung.wanted_m
    highest_m = _HIGHEST * min(state.highest_m for _, *both in hung.bow.states.ends for state in both)
    pull_n, left = Spread.exactly(1.0), Spread.exactly(0.0)
    for _ in range(_ROUNDS):
        pull_n = hung.bow.drawn(brace_m=brace_m).spread(lambda drawn: drawn.brace_n)
        left = _left(hung, pull_n.value, line.free_m)
        at = {name: each.value for name, each in line.causes.items()} | {"pull": pull_n.value, "left": left.value}
        brace_m = min(max(middle.brace_m(line.on_bow(at)), _LEAST_BRACE_M), highest_m)
    return pull_n, {"pull": pull_n, "left": left}


def _left(hung: Hung, pull_n: float, free_m: float) -> Spread:
    """Return how much the string still grows on the bow until it has settled there [-]."""
    hour_s = practice("settle_time").spread.value
    found = []
    for fibre in hung.fibres:
        holds_n = strand_strength(fibre, hung.line_kg_m).value
        work = Load(min(pull_n, holds_n), hour_s)
        found.append(settle(fibre, hung.line_kg_m, Load(hung.read.weight_n, hung.hung_s), work))
    left = Spread(
        max(0.0, min(each.left.low for each in found)),
        min(_MOST_LEFT, found[0].left.value),
        min(_MOST_LEFT, max(each.left.high for each in found)),
    )
    if hung.first_m is None:
        return left
    return _left_of_growth(hung, pull_n, free_m, left)


def _left_of_growth(hung: Hung, pull_n: float, free_m: float, left: Spread) -> Spread:
    """Return what is still to come of a string whose growth on the nail was read, from its first still minute [-]."""
    start_s, hour_s = practice("creep_start").spread.value, practice("settle_time").spread.value
    fibre, line = hung.fibres[0], hung.line_kg_m
    early, now = (
        settle(fibre, line, Load(hung.read.weight_n, time_s), Load(pull_n, hour_s)) for time_s in (start_s, hung.hung_s)
    )
    counts = [
        hung.read.weight_n / pull_n * log10(1.0 + time_s / start_s) / log10(1.0 + hour_s / start_s)
        for time_s in (start_s, hung.hung_s)
    ]
    read = hung.tape.high * hypot(1.0, 1.0) / free_m
    grown = max(0.0, hung.read.length_m - (hung.first_m or 0.0)) / free_m
    causes = {
        "share": practice("bedding_share").spread,
        "bedding": practice("bedding").spread,
        "grown": Spread(max(0.0, grown - read), grown, grown + read),
    }

    def still(at: Mapping[str, float]) -> dict[str, float]:
        first, last = ((1.0 - at["share"]) ** each for each in counts)
        seen = at["bedding"] * (first - last) + now.creep_taken.value - early.creep_taken.value
        return {"left": at["grown"] * (at["bedding"] * last + now.creep_left.value) / max(seen, 1e-9)}

    told = combine(still, causes)["left"]
    value = min(told.value, left.high)
    return Spread(min(max(0.0, told.low), value), value, max(value, min(told.high, left.high)))


def _grown(hung: Hung) -> dict[str, Spread]:
    """Return what it grew on the nail, and what of that in its loops."""
    tape_m = hung.tape.high
    found = {}
    if hung.first_m is not None:
        grown_m, off_m = hung.read.length_m - hung.first_m, tape_m * hypot(1.0, 1.0)
        found["grown_length"] = Spread(grown_m - off_m, grown_m, grown_m + off_m)
        if hung.throats_m is not None and hung.throats_first_m is not None:
            loops_m = grown_m - (hung.throats_m - hung.throats_first_m)
            found["loops_grown"] = Spread(loops_m - 2.0 * tape_m, loops_m, loops_m + 2.0 * tape_m)
    return found


def _tuned(hung: Hung, brace_m: float, string_m: float) -> Tuned:
    return Tuned(
        bow=hung.bow,
        brace_m=brace_m,
        wanted_m=hung.wanted_m,
        string_m=string_m,
        tail_m=hung.tail_m,
        bundles=hung.bundles,
        bundle_m=hung.bundle_m,
        cord_m=hung.cord_m,
        turns=hung.turns,
        per_m=None,
    )


def _turned(height: Spread, done: Tuning) -> dict[str, Spread]:
    """Return the turns, with what is not sure of the brace height the string will give, and what they leave."""
    change, per_turn = done.figures["turns_change"], done.figures["brace_per_turn"].value
    ends = (change.value + (height.value - end) / per_turn for end in (height.low, height.high))
    turns = widened(change, ends)
    reached = done.figures["brace_then"].value
    moved = abs(reached - height.value)
    usual = practice("turn_response").spread
    below, above = ((usual.value - usual.low) / usual.value, (usual.high - usual.value) / usual.value)
    then = Spread(
        max(0.0, reached - hypot(height.value - height.low, moved * max(below, above))),
        reached,
        reached + hypot(height.high - height.value, moved * max(below, above)),
    )
    kept = ("brace_per_turn", "turns_now", "turns_new", "turns_to_loose", "turns_to_jam", "lay_new", "brace_low",
            "brace_high")  # fmt: skip
    return {key: done.figures[key] for key in kept} | {"turns_change": turns, "brace_then": then}


def with_strings(bow: BowEstimate, strings: Sequence[StringRead]) -> BowEstimate:
    """Return a bow with strings that were on it, its draw weight told as the first of them braced it.

    Parameters
    ----------
    bow : BowEstimate
    strings : sequence of StringRead

    Raises
    ------
    DomainError
        As `BowEstimate.given`.

    Notes
    -----
    Source: `BowEstimate.given` (``derived:estimate``).
    """
    return replace(bow, braced_m=strings[0].brace_m).given(*strings) if strings else bow
