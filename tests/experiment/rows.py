"""Strings planned by the sheets, made and braced in the second way, and held against what was told."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any
from zlib import crc32

import numpy as np

from calc.data import practice
from calc.units import INCH, POUND_FORCE
from calc.worksheets import one
from calc.worksheets.core import read_inputs, usual
from tests.experiment import asking, nailing, truths
from tests.experiment.carried import CARRIERS, carried
from tests.experiment.limbs import LINKS
from tests.experiment.shots import Shots
from tests.experiment.strings import Bows, make

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from calc.worksheets.core import Value
    from tests.experiment.asking import Numbers
    from tests.experiment.nailing import OnNail
    from tests.experiment.strings import Made
    from tests.experiment.truths import Drawn, Truths

    Array = NDArray[np.float64]

BOWS = 500
TAIL_M = 8.0 * INCH
_NINE_IN_TEN = 90.0
_MOST_STRANDS = 200
_HEAVY = 2.5
"""Stiffness of the string is taken from the braced pull up to so many times it. [-]"""


@dataclass(frozen=True)
class Row:
    """How one state of knowledge did.

    Attributes
    ----------
    known : str
        What was known.
    off_m, low_m, high_m : array
        Brace height that came out less what was wanted or said; the ends of the stated range, told likewise. [m]
    """

    known: str
    off_m: Array
    low_m: Array
    high_m: Array

    @property
    def off(self) -> float:
        """How far off brace heights were, nine times in ten [m]."""
        return float(np.percentile(np.abs(self.off_m), _NINE_IN_TEN))

    @property
    def holds(self) -> float:
        """Share of the truths inside the stated range [-]."""
        return float(np.mean((self.off_m >= self.low_m) & (self.off_m <= self.high_m)))

    @property
    def below(self) -> float:
        """Share of the truths below the stated range [-]."""
        return float(np.mean(self.off_m < self.low_m))

    @property
    def above(self) -> float:
        """Share of the truths above the stated range [-]."""
        return float(np.mean(self.off_m > self.high_m))

    @property
    def width(self) -> float:
        """Middle width of the stated ranges [m]."""
        return float(np.median(self.high_m - self.low_m))


@dataclass(frozen=True)
class Before:
    """An earlier string: on the bow, the brace height it gave; over pegs and throat to throat when it was new [m]."""

    string_m: Array
    brace_m: Array
    hung_m: Array
    throats_m: Array


@dataclass(frozen=True)
class Experiment:
    """So many bows, their makers and what the bench sheet told them.

    Attributes
    ----------
    drawn : tuple of Drawn
    answers : tuple of mapping
        Of the bench sheet, by row key.
    refused : int
        Bows for which the sheet gave no answer, or more strands than anybody lays; others were drawn in their place.
    """

    drawn: tuple[Drawn, ...]
    answers: tuple[Numbers, ...]
    refused: int

    @classmethod
    def of(cls, count: int) -> Experiment:
        """Draw bows and ask the bench sheet."""
        drawn: list[Drawn] = []
        answers: list[Numbers] = []
        place = 0
        while len(drawn) < count:
            maker = truths.draw(place)
            found = asking.answered("string", maker.typed)
            if found is not None and found["strands"].value <= _MOST_STRANDS:
                drawn.append(maker)
                answers.append(found)
            place += 1
        return cls(tuple(drawn), tuple(answers), place - count)

    def plain(self) -> Experiment:
        """Return the same bows with nothing in them that the bench sheet says it leaves out."""
        return replace(self, drawn=tuple(truths.as_the_sheet_has_it(each) for each in self.drawn))

    @cached_property
    def true(self) -> Truths:
        """What is true."""
        return truths.together(list(self.drawn))

    @cached_property
    def bows(self) -> Bows:
        """The bows."""
        return Bows.of(self.true)

    def strays(self, what: str, name: str = "tape_reading") -> Array:
        """Return how far readings of a thing are off, one a bow: within a constant nine times in ten."""
        random = np.random.default_rng([18, crc32(what.encode())])
        return random.normal(0.0, practice(name).spread.high / truths.NINETY, len(self.drawn))

    def twice(self, what: str, name: str = "tape_reading") -> Array:
        """Return how far the mean of two readings of a thing is off, one a bow."""
        return (self.strays(f"{what}, first", name) + self.strays(f"{what}, second", name)) / 2.0

    @cached_property
    def made(self) -> Made:
        """The strings, made as the bench sheet says."""
        marks = [self.strays(each) for each in ("upper loop", "lower loop", "body")]
        turns = np.random.default_rng(18).uniform(-0.5, 0.5, len(self.drawn))
        return make(self.true, asking.told(list(self.answers), TAIL_M), np.array([*marks, turns]))

    @cached_property
    def braced(self) -> tuple[Array, Array]:
        """Brace heights before any tuning, and the pull in the strings."""
        return self.bows.braced(self.made)

    def by_sheet(self, key: str) -> tuple[Array, Array, Array]:
        """Return a figure of the bench sheet: low, value, high."""
        found = [each[key] for each in self.answers]
        return tuple(np.array([getattr(each, end) for each in found]) for end in ("low", "value", "high"))  # type: ignore[return-value]

    def values(self, k: int) -> dict[str, Value]:
        """Return what one maker typed, as it is read."""
        sheet = one("string")
        found, problems = read_inputs(sheet, usual(sheet, self.drawn[k].typed), "inch")
        assert not problems
        return dict(found)

    def before(self, load_n: Array, hours: float) -> Before:
        """Return an earlier string of the same cord and hand, as it was read on the nail and on the bow."""
        count = len(self.drawn)
        marks = [self.strays(f"{each} before") for each in ("upper loop", "lower loop", "body")]
        last = make(self.uneven(19), self.made.told, np.array([*marks, np.zeros(count)]))
        longer = np.random.default_rng(20).uniform(-6.0, 6.0, count)
        last = replace(last.turned(longer), hung=(load_n, hours * practice("settle_time").spread.value))
        height_m, pull_n = self.bows.braced(last)
        hung_m = nailing.hung_m(self, last, load_n, hours)
        return Before(
            string_m=last.on_bow_m(pull_n) + self.strays("string before"),
            brace_m=height_m + self.strays("brace before"),
            hung_m=hung_m + last.over_pegs(nailing.PEG_M) + self.twice(f"hung before, {hours:.0f} h"),
            throats_m=hung_m + self.twice(f"throats before, {hours:.0f} h"),
        )

    @property
    def looked_at(self) -> NDArray[np.bool_]:
        """For which bows the maker could say how the limbs bend."""
        return np.array([each.typed["limb_shape"] != "unknown" for each in self.drawn])

    @property
    def light(self) -> NDArray[np.bool_]:
        """Which bows pull no more, braced, than the most that is hung on a string."""
        return np.array([each["tension_brace"].value for each in self.answers]) <= nailing.MOST_N

    def tape(self) -> Row:
        """Return how the bench sheet alone did."""
        wanted = self.true.brace_m
        low, _, high = self.by_sheet("brace_height")
        return Row(_TAPE, self.braced[0] - wanted, low - wanted, high - wanted)

    def again(self) -> Row:
        """Return how second strings did, planned from what a first one as planned braced at; made by a hand as even."""
        height_m = self.braced[0] + self.strays("brace of the first")
        answers: list[Numbers] = []
        kept = []
        for k, (maker, first) in enumerate(zip(self.drawn, self.answers, strict=True)):
            typed = maker.typed | {
                "strands": f"{first['strands'].value:.0f}",
                "earlier_body": f"{first['body_raw'].value / INCH:.5f} in",
                "earlier_turns": f"{first['turns_body'].value:.3f}",
                "earlier_brace": f"{height_m[k] / INCH:.5f} in",
            }
            found = asking.answered("string", typed)
            if found is not None:
                answers.append(found)
                kept.append(k)
        some = replace(self, drawn=tuple(self.drawn[k] for k in kept), answers=tuple(answers))
        strays = np.array([some.strays(f"{each} again") for each in ("upper loop", "lower loop", "body")])
        turns = np.random.default_rng(21).uniform(-0.5, 0.5, len(kept))
        second = make(some.uneven(22), asking.told(answers, TAIL_M), np.array([*strays, turns]))
        wanted = some.true.brace_m
        low, _, high = some.by_sheet("brace_height")
        return Row(_AGAIN, some.bows.braced(second)[0] - wanted, low - wanted, high - wanted)

    def uneven(self, seed: int) -> Truths:
        """Return the truths of another string of the same hand, whose lays are never quite alike."""
        true, count = self.true, len(self.drawn)
        even = {
            name: getattr(true, name) * (1.0 + np.random.default_rng([seed, k]).normal(0.0, by / truths.NINETY, count))
            for k, (name, by) in enumerate(nailing.EVEN.items())
        }
        return replace(true, **even)

    def reached(self) -> NDArray[np.bool_]:
        """Return for which bows turns alone bring the string to the brace height wanted, within the useful lays."""
        loosest, tightest = (practice(name).spread.value for name in ("lay_loosest", "lay_tightest"))
        turns = self.made.body.turns
        ends = []
        for lay in (loosest, tightest):
            more = np.tan(lay) / np.tan(self.made.body.lay_rad) * turns - turns
            ends.append(self.bows.braced(self.made.turned(more))[0])
        found: NDArray[np.bool_] = (ends[0] <= self.true.brace_m) & (ends[1] >= self.true.brace_m)
        return found

    @cached_property
    def hardest_n(self) -> Array:
        """The hardest pull in each string, of a shot from the brace height wanted [N]."""
        true, made = self.true, self.made
        low_n = np.maximum(self.braced[1], 1.0)
        grown = made.on_bow_m(_HEAVY * low_n) / made.on_bow_m(low_n) - 1.0
        shots = Shots(
            limbs=self.bows.limbs,
            brace_m=true.brace_m,
            draw_m=true.draw_m,
            weight_n=true.weight_n,
            limb_kg=true.limb_kg,
            arrow_kg=true.arrow_kg,
            string_kg=made.strands * true.yarn_kg_m * true.nock_to_nock_m,
            pull_n=(_HEAVY - 1.0) * low_n / grown,
        )
        return shots.loose().peak_n

    def held(self) -> Array:
        """Return what each string holds / the hardest pull of its shot."""
        true, made = self.true, self.made
        along = np.cos(made.body.lay_rad)
        breaking = made.strands * true.yarn_kg_m * true.thread * true.keeps * along * true.sharing * true.ends
        surface = np.maximum((true.left * np.tan(made.body.lay_rad)) ** 2, 1e-9)
        mean = 2.0 * (np.sqrt(1.0 + surface) - 1.0) / surface
        ratio: Array = breaking * mean / self.hardest_n
        return ratio

    def pulled(self) -> tuple[float, float]:
        """Return the shares of shots that pull less, and more, than the range says that the bench sheet tells."""
        low, _, high = self.by_sheet("tension_peak")
        return float(np.mean(self.hardest_n < low)), float(np.mean(self.hardest_n > high))


STRONG = 0.98
_WARNED = 0.1
_TAPE, _NAIL = "a tape and questions", "+ the string on a nail, overnight after its turns"
_LOOKED = "+ the same, by makers who could tell how the limbs bend"
_READ, _SAME = "+ one string that was on this bow", "+ that string on the nail, of the same cord and hand"
_AGAIN = "+ one string made as planned, and what it braced at"
_AIMS = {
    _TAPE: None, _AGAIN: INCH / 4.0, _NAIL: 3.0 / 8.0 * INCH, _LOOKED: INCH / 4.0, _READ: INCH / 4.0, _SAME: INCH / 8.0,
}  # fmt: skip


def on_nail(known: str, done: OnNail, some: NDArray[np.bool_] | None = None) -> Row:
    """Return how strings on the nail did; `some` picks bows."""
    kept = np.ones_like(done.kept, dtype=bool) if some is None else some[done.kept]
    return Row(known, done.off_m[kept], done.low_m[kept], done.high_m[kept])


def figures(tried: Experiment) -> dict[str, Any]:
    """Return everything the page shows."""
    knew = {_NAIL: {}, _READ: {"bow": True}, _SAME: {"bow": True, "cord": True}}
    hung = {known: nailing.on_nail(tried, **told) for known, told in knew.items()}
    nailed = [on_nail(known, done) for known, done in hung.items()]
    nailed.insert(1, on_nail(_LOOKED, hung[_NAIL], tried.looked_at))
    rows = [tried.tape(), tried.again(), *nailed]
    carries = {known: carried(done.told) for known, done in hung.items()}
    weights = tried.true.weight_n / POUND_FORCE
    chance = np.array([each["room_chance"].value for each in tried.answers])
    return {
        "bows": len(tried.drawn),
        "lightest": round(float(weights.min())),
        "heaviest": round(float(weights.max())),
        "links": LINKS,
        "rows": [
            {
                "known": row.known,
                "off_m": round(row.off, 6),
                "holds": round(row.holds, 4),
                "below": round(row.below, 4),
                "above": round(row.above, 4),
                "width_m": round(row.width, 6),
                "aim_m": _AIMS[row.known],
            }
            for row in rows
        ],
        "carried": [
            {"what": name} | {known: round(each[name], 6) for known, each in carries.items()} for name in CARRIERS
        ],
        "light": int(tried.light.sum()),
        "light_off_m": [round(on_nail(known, done, tried.light).off, 6) for known, done in hung.items()],
        "mended": round(float(hung[_NAIL].mended.mean()), 4),
        "reached": round(float(tried.reached().mean()), 4),
        "warned": round(float((chance > _WARNED).mean()), 4),
        "expected": round(float(1.0 - chance.mean()), 4),
        "held": round(float((tried.held() >= 1.0).mean()), 4),
        "aim": STRONG,
        "pull_below": round(tried.pulled()[0], 4),
        "pull_above": round(tried.pulled()[1], 4),
    }
