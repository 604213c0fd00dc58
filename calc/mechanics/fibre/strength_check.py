"""Whether a string is strong enough, held against the hardest pull of a shot and against the rules of the trade."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING, Literal, TypeAlias

from calc.data import practice, rule
from calc.errors import require
from calc.numerics import Spread, combine
from calc.units import GRAIN, POUND_FORCE

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Fibre, Rule

Stands: TypeAlias = Literal["less", "alike", "more"]
"""What a rule asks, next to what is asked here."""


@dataclass(frozen=True, slots=True)
class Need:
    """What a string must be to hold a shot.

    Attributes
    ----------
    made_n : Spread
        Strength of the made string: hardest pull x working margin. [N]
    sum_n : Spread
        Strength of all strands added, before twist, splices and uneven strands take their share. [N]
    made_multiple, sum_multiple : Spread
        Both / draw weight. [-]
    """

    made_n: Spread
    sum_n: Spread
    made_multiple: Spread
    sum_multiple: Spread


def string_need(draw_weight_n: float, peak_n: Spread, efficiency: Spread, margin: Spread | None = None) -> Need:
    """Return how strong a string must be.

    Parameters
    ----------
    draw_weight_n : float, > 0
        [N]
    peak_n : Spread
        Hardest pull of a shot. [N]
    efficiency : Spread
        Made string / sum of strands, from `assembly_efficiency`. [-]
    margin : Spread, optional
        How many times the hardest pull it should hold; ``working_margin`` of the constants. [-]

    Raises
    ------
    DomainError
        ``min`` for forces and shares that are not above 0.

    Notes
    -----
    Source: own composition (``derived:strength``), spreads in quadrature. Leaves out age, knots, and a shot without
    an arrow.

    Examples
    --------
    >>> need = string_need(200.0, Spread(600.0, 800.0, 900.0), Spread.exactly(0.5), Spread.exactly(1.5))
    >>> need.sum_n
    Spread(low=1800.0, value=2400.0, high=2700.0)
    """
    require("draw_weight_n", draw_weight_n, low=0.0, open_=True)
    require("peak_n", peak_n.low, low=0.0, open_=True)
    require("efficiency", efficiency.low, low=0.0, open_=True)
    times = practice("working_margin").spread if margin is None else margin
    require("margin", times.low, low=0.0, open_=True)

    def asked(at: Mapping[str, float]) -> dict[str, float]:
        made = at["peak"] * at["margin"]
        return {"made": made, "sum": made / at["efficiency"]}

    out = combine(asked, {"peak": peak_n, "margin": times, "efficiency": efficiency})
    share = 1.0 / draw_weight_n
    return Need(out["made"], out["sum"], out["made"].scaled(share), out["sum"].scaled(share))


def strands_needed(need: Need, strand_n: Spread, bundles: int) -> int:
    """Return the fewest strands, a multiple of the bundles, whose typical sum is what is typically needed.

    Parameters
    ----------
    need : Need
        From `string_need`.
    strand_n : Spread
        What one strand holds, from `strand_strength`. [N]
    bundles : int, > 0

    Raises
    ------
    DomainError
        ``min`` for a strand that holds nothing and for no bundles.

    Examples
    --------
    >>> need = string_need(200.0, Spread.exactly(800.0), Spread.exactly(0.5), Spread.exactly(1.5))
    >>> strands_needed(need, Spread(90.0, 130.0, 140.0), 2)
    20
    """
    require("strand_n", strand_n.value, low=0.0, open_=True)
    require("bundles", bundles, low=1.0)
    return bundles * ceil(need.sum_n.value / strand_n.value / bundles)


@dataclass(frozen=True, slots=True)
class AgainstRule:
    """A rule of the trade next to our answer.

    Attributes
    ----------
    rule : Rule
        What the trade says, with its source.
    figure : str
        Words of the figure that is compared.
    asks, ours : Spread
        Both in the same unit.
    unit : {"N", "1"}
        Forces, or counts of strands.
    stands : Stands
        Whether the rule asks for less, for more, or its range meets ours.
    reason : str
        Key of the sentence that says why the two differ: ``made`` (the rule speaks of the made string, without a
        margin for wear), ``nominal`` (of strands before anything is lost), ``count`` (of strands of one size).
    """

    rule: Rule
    figure: str
    asks: Spread
    ours: Spread
    unit: Literal["N", "1"]
    stands: Stands
    reason: Literal["made", "nominal", "count"]


def against_rules(draw_weight_n: float, need: Need, strand_n: Spread | None = None) -> tuple[AgainstRule, ...]:
    """Return the trade's rules of strength next to what is needed here.

    Parameters
    ----------
    draw_weight_n : float, > 0
        [N]
    need : Need
        From `string_need`.
    strand_n : Spread, optional
        What one polyester strand holds, where it is one; adds the rule for strand counts. [N]

    Raises
    ------
    DomainError
        ``min`` for a draw weight not above 0.

    Examples
    --------
    >>> need = string_need(200.0, Spread(600.0, 800.0, 900.0), Spread(0.5, 0.6, 0.7))
    >>> [(row.rule.id, row.stands) for row in against_rules(200.0, need)]
    [('draw_weight_multiple', 'less'), ('draw_weight_multiple', 'less'), ('thread_per_pound', 'less')]
    """
    require("draw_weight_n", draw_weight_n, low=0.0, open_=True)
    multiple, thread = rule("draw_weight_multiple"), rule("thread_per_pound")
    holds, count = (thread.figure(words).spread for words in ("thread holds", "threads a pound"))
    pounds = draw_weight_n / POUND_FORCE
    threads = Spread(count.low * holds.low, count.value * holds.value, count.high * holds.high).scaled(pounds)
    rows = [
        _row(multiple, "times the draw weight", _times(multiple, 0, draw_weight_n), need.made_n, "made"),
        _row(multiple, "twisted or natural", _times(multiple, 1, draw_weight_n), need.sum_n, "nominal"),
        _row(thread, "threads a pound", threads, need.sum_n, "nominal"),
    ]
    if strand_n is not None:
        counts = rule("polyester_strands")
        words = counts.figures[0 if pounds < _YOUTH_LBF else 1].words
        ours = combine(lambda at: {"count": at["sum"] / at["one"]}, {"sum": need.sum_n, "one": strand_n})["count"]
        rows.append(_row(counts, words, counts.figure(words).spread, ours, "count"))
    return tuple(rows)


_YOUTH_LBF = 45.0
"""Where the trade's two strand counts part; named in the rule itself. [lbf]"""


def _times(multiple: Rule, at: int, draw_weight_n: float) -> Spread:
    return multiple.figures[at].spread.scaled(draw_weight_n)


def _row(of: Rule, figure: str, asks: Spread, ours: Spread, reason: Literal["made", "nominal", "count"]) -> AgainstRule:
    stands: Stands = "less" if asks.high < ours.low else "more" if asks.low > ours.high else "alike"
    return AgainstRule(of, figure, asks, ours, "1" if reason == "count" else "N", stands, reason)


@dataclass(frozen=True, slots=True)
class Reason:
    """Why an answer must not stand alone.

    Attributes
    ----------
    key : {"low_stretch", "arrow_light", "arrow_dry"}
        Which sentence: a fibre that hardly stretches on a bow not said to be made for it; an arrow lighter than the
        trade's least; one lighter than even machines are rated with, close to a shot without an arrow.
    value, limit : float
        What was found and what it was held against: stiffness [N/(kg/m)], or grains per pound [-].
    """

    key: Literal["low_stretch", "arrow_light", "arrow_dry"]
    value: float
    limit: float


def grains_per_pound(arrow_kg: float, draw_weight_n: float) -> float:
    """Return the arrow's mass for the bow's draw weight, as the trade tells it [grains per pound-force].

    Parameters
    ----------
    arrow_kg, draw_weight_n : float, > 0
        [kg], [N]

    Raises
    ------
    DomainError
        ``min`` or ``number``.

    Examples
    --------
    >>> round(grains_per_pound(0.025, 152.297), 2)
    11.27
    """
    require("arrow_kg", arrow_kg, low=0.0, open_=True)
    require("draw_weight_n", draw_weight_n, low=0.0, open_=True)
    pounds = draw_weight_n / POUND_FORCE
    require("draw_weight_n", pounds, low=0.0, open_=True)
    return (arrow_kg / GRAIN) / pounds


def reasons_for_care(
    fibre: Fibre | None,
    *,
    made_for_it: bool = False,
    arrow_kg: float | None = None,
    draw_weight_n: float = 0.0,
) -> tuple[Reason, ...]:
    """Return why a string or an arrow needs a caution on this bow.

    Parameters
    ----------
    fibre : Fibre or None
        Of the string; None where it is not known.
    made_for_it : bool
        Whether somebody who knows has said that the bow is built for low-stretch strings.
    arrow_kg, draw_weight_n : float, optional
        Both, to judge the arrow. [kg], [N]

    Raises
    ------
    DomainError
        As `grains_per_pound`.

    Examples
    --------
    >>> from calc.data import fibre
    >>> [each.key for each in reasons_for_care(fibre("hmpe"), arrow_kg=0.010, draw_weight_n=200.0)]
    ['low_stretch', 'arrow_dry']
    """
    found = []
    stiff = practice("low_stretch").spread.value
    if fibre is not None and not made_for_it and fibre.modulus_n_per_kg_m.value > stiff:
        found.append(Reason("low_stretch", fibre.modulus_n_per_kg_m.value, stiff))
    if arrow_kg is not None:
        grains = grains_per_pound(arrow_kg, draw_weight_n)
        least, rated = practice("arrow_least").spread.low, practice("arrow_rating").spread.value
        if grains < rated:
            found.append(Reason("arrow_dry", grains, rated))
        elif grains < least:
            found.append(Reason("arrow_light", grains, least))
    return tuple(found)
