"""What the makers of the experiment do on the nail: hang, read, turn; and what they knew before."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from calc.data import fibre, practice
from calc.errors import DomainError
from calc.making.string import End
from calc.making.tuning import Hung, HungBefore, HungRead, Nailed, predict_brace, with_strings
from calc.mechanics.estimate import BowEstimate, StringRead
from calc.units import INCH, POUND_FORCE

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from calc.worksheets.core import Value
    from tests.experiment.rows import Experiment
    from tests.experiment.strings import Made

    Array = NDArray[np.float64]

PEG_M = 0.25 * INCH
MOST_N = 50.0 * POUND_FORCE
"""The most that these makers hang, as guides and sheets say. [N]"""
_NIGHT_H = 12.0
"""How long a string has hung by the morning. [h]"""
_LEAST_M = 2.0 * INCH
"""A last string that braced the bow by less was never read."""
_REFUSED = {"string_long", "string_short", "earlier_apart", "pair_string_stiff", "pair_string_short", "pair_far"}
"""The sheet says of such strings that they do not brace this bow, or of the last that it was not of this bow."""
EVEN = {"bedding": practice("hand_even").spread.high, "loop_lay": 0.03, "splice_lay": 0.03, "twist_in_ends": 0.1}
"""How far one hand's next string is from its last, as a share, nine times in ten."""


@dataclass(frozen=True)
class OnNail:
    """Strings as they came off the nail, hung twice and turned between.

    Attributes
    ----------
    off_m, low_m, high_m : array
        Brace height that came out less the one told, and the ends of the told range likewise, of all that the sheet
        answered. [m]
    mended : array
        Whether turns could bring the string to the brace height wanted.
    kept : array of int
        Which bows the sheet answered.
    told : tuple of Nailed
        What it told of them.
    """

    off_m: Array
    low_m: Array
    high_m: Array
    mended: NDArray[np.bool_]
    kept: NDArray[np.int_]
    told: tuple[Nailed, ...]


def hung_m(tried: Experiment, made: Made, load_n: Array, hours: float = 1.0) -> Array:
    """Return the strings from throat to throat after hours under a weight [m]."""
    true = made.true
    minutes = np.log10(1.0 + true.settle_s * hours / true.creep_start_s)
    counts = load_n / tried.braced[1] * minutes / np.log10(1.0 + true.settle_s / true.creep_start_s)
    bedded = true.bedding * (1.0 - (1.0 - true.bedding_share) ** counts)
    return made.long(load_n, np.zeros_like(load_n), bedded, true.settle_s * hours)


def on_nail(tried: Experiment, *, bow: bool = False, cord: bool = False) -> OnNail:
    """Hang every string, turn it as told, hang it for another hour and brace it.

    Parameters
    ----------
    tried : Experiment
    bow, cord : bool
        Whether a string was read on this bow before; whether one of the same cord and hand hung on this nail.
    """
    load_n = np.minimum(np.array([each["tension_brace"].value for each in tried.answers]), MOST_N)
    first = _Asking(tried, load_n, 1.0, bow=bow, cord=cord)
    told = first.told(tried.made)
    mended = np.array([each is not None and not each.remake for each in told])
    change = np.array([0.0 if each is None or each.remake else each.figures["turns_change"].value for each in told])
    turned = replace(tried.made.turned(change), hung=(load_n, _NIGHT_H * practice("settle_time").spread.value))
    again = replace(first, hours=_NIGHT_H).told(turned, change)
    kept = np.array([k for k, each in enumerate(again) if each is not None])
    answers = tuple(each for each in again if each is not None)
    heights = [each.figures["brace_height"] for each in answers]
    said_m = np.array([each.value for each in heights])
    height_m = tried.bows.braced(turned)[0][kept]
    low_m, high_m = (np.array([getattr(each, end) for each in heights]) - said_m for end in ("low", "high"))
    return OnNail(height_m - said_m, low_m, high_m, mended, kept, answers)


@dataclass(frozen=True)
class _Asking:
    """What the makers hang and what they know when they ask."""

    tried: Experiment
    load_n: Array
    hours: float
    bow: bool
    cord: bool

    def told(self, made: Made, turned: Array | None = None) -> list[Nailed | None]:
        """Return what is told of each string, None where the sheet says that it must be made again.

        `turned` are the turns put in since it was made.
        """
        tried, when = self.tried, f"after {self.hours:.0f} h"
        long_m = hung_m(tried, made, self.load_n, self.hours)
        read_m = long_m + made.over_pegs(PEG_M) + tried.twice(f"hung {when}")
        throats_m = long_m + tried.twice(f"throats {when}")
        reach_m = [made.reach_of(end) + tried.twice(f"{end} {when}", "tip_reading") for end in ("upper", "lower")]
        before = tried.before(self.load_n, self.hours) if self.bow or self.cord else None
        found: list[Nailed | None] = []
        for k in range(len(tried.drawn)):
            asked = _plain(tried, k, 0.0 if turned is None else float(turned[k]))
            asked = replace(
                asked,
                reads=(HungRead(float(self.load_n[k]), float(read_m[k])),),
                throats_m=float(throats_m[k]),
                reach_m=(float(reach_m[0][k]), float(reach_m[1][k])),
                hung_s=self.hours * practice("settle_time").spread.value,
                times=2,
            )
            try:
                if before is not None and before.brace_m[k] > _LEAST_M:
                    height_m = float(before.brace_m[k])
                    last = StringRead(float(before.string_m[k]), height_m)
                    asked = replace(asked, bow=with_strings(asked.bow, (last,)))
                    if self.cord:
                        asked = replace(
                            asked, earlier=HungBefore(float(before.hung_m[k]), height_m, float(before.throats_m[k]))
                        )
                found.append(predict_brace(asked))
            except DomainError as error:
                if error.problem.reason not in _REFUSED:
                    raise
                found.append(None)
        return found


def _plain(tried: Experiment, k: int, turned: float) -> Hung:
    """Return one string as its maker tells of it, with nothing read yet."""
    maker, values, answer = tried.drawn[k], tried.values(k), tried.answers[k]

    def number(key: str) -> float:
        value: Value = values[key]
        assert isinstance(value, float)
        return value

    shape = values["limb_shape"]
    bow = BowEstimate(
        nock_to_nock_m=number("nock_to_nock"),
        handle_length_m=maker.told["handle_length_m"],
        shape=None if shape == "unknown" else shape,  # type: ignore[arg-type]
        string_follow_m=maker.told["set_m"],
        thread_gap_m=maker.told["gap_m"],
        draw_m=number("draw_length"),
        draw_weight_n=number("draw_weight"),
        braced_m=number("brace_height"),
    )
    return Hung(
        bow=bow,
        wanted_m=number("brace_height"),
        fibres=(fibre(maker.fibre.id),),
        line_kg_m=maker.true["yarn_kg_m"] * answer["strands"].value,
        upper=End(section=values["tip_upper"], fit="sliding"),  # type: ignore[arg-type]
        lower=End(section=values["tip_lower"], fit="nocked"),  # type: ignore[arg-type]
        reach_m=None,
        peg_m=PEG_M,
        reads=(HungRead(1.0, 1.0),),
        hung_s=1.0,
        bundles=int(maker.true["bundles"]),
        tail_m=8.0 * INCH,
        bundle_m=None,
        cord_m=answer["cord_diameter"].value,
        turns=answer["turns_body"].value + turned,
    )
