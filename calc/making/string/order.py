"""What a maker asks for: the bow, its ends, the cord and the method, all in SI."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Literal

from calc.errors import DomainError, Problem, require
from calc.geometry.ends import is_pipe
from calc.making.strands import limb_of
from calc.mechanics.estimate import HandEstimate

if TYPE_CHECKING:
    from calc.data import Fibre, Limbs
    from calc.geometry.ends import Section
    from calc.making.strands import Wax
    from calc.mechanics.estimate import BowEstimate, CordEstimate
    from calc.numerics import Spread

Fit = Literal["nocked", "sliding"]
_SHRUNK_M = 0.004
"""A piece that reads shorter by less than this did not shrink: two tapes read so. [m]"""
_MOST_GROWN = 0.1
"""No sound cord grows by more than this before it breaks, or was misread. [-]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """One end of the bow.

    Parameters
    ----------
    section : Section or None
        Of the limb tip; None where it is not known.
    fit : Fit
        How the loop sits on it.
    rests : Section or None
        The limb where a sliding loop rests while the bow is not braced; None: not measured.
    """

    section: Section | None
    fit: Fit
    rests: Section | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """A piece of this cord, plied as the body will be and settled under a weight.

    Parameters
    ----------
    before_m, after_m : float, > 0
        The slack piece as made; after it hung as long as strings do, the weight off again. [m]
    load_n, loaded_m : float or None, > 0
        The weight; the piece under it at the end. [N], [m]

    Raises
    ------
    DomainError
        ``pair`` with reason ``trial_apart`` for a piece that shrank, or grew by more than a tenth.
    """

    before_m: float
    after_m: float
    load_n: float | None = None
    loaded_m: float | None = None

    def __post_init__(self) -> None:
        for name in ("before_m", "after_m", "load_n", "loaded_m"):
            if (value := getattr(self, name)) is not None:
                require(f"trial_{name}", value, low=0.0, open_=True)
        for name, short_m, long_m in (
            ("after_m", self.before_m, self.after_m),
            ("loaded_m", self.after_m, self.loaded_m),
        ):
            if long_m is not None and not -_SHRUNK_M <= long_m - short_m <= _MOST_GROWN * short_m:
                raise DomainError(
                    Problem(field=f"trial_{name}", code="pair", other="trial_before_m", reason="trial_apart")
                )


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeBefore:
    """An earlier string of this cord and hand for the same tips, with the same tails.

    Parameters
    ----------
    body_raw_m, turns, brace_m : float, > 0
        Flat between its loop marks; turns in its body; the brace height it gave on this bow once settled. [m], [turn]
    """

    body_raw_m: float
    turns: float
    brace_m: float

    def __post_init__(self) -> None:
        for name in ("body_raw_m", "turns", "brace_m"):
            require(f"earlier_{name}", getattr(self, name), low=0.0, open_=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """One string to be planned.

    Parameters
    ----------
    bow : BowEstimate
        With draw and draw weight.
    brace_m : float, > 0
        Brace height wanted. [m]
    upper, lower : End
        The two ends.
    cord : CordEstimate
        What it is made of.
    hand : HandEstimate
        Whose hand makes it.
    strands : int or None
        In the whole string; None: advise.
    bundles : int
        2 or 3.
    tail_m : float, > 0
        Longest strand end beyond each loop mark. [m]
    bench_k : float or None
        Warmest the string will be while it is made or kept. [K]
    arrow_kg : float or None, > 0
        Arrow to be shot; None: a usual one. [kg]
    wax : {"beeswax", "none", "slick"}
        What the tails are waxed with.
    limb_kg : float or None, > 0
        Moving mass of one limb; None: not weighed. [kg]
    schedule : {"40", "80"} or None
        Of the wall of a pipe that the limbs are of; None: not known.
    told_limbs : {"wood", "pipe"}
        What the limbs were said to be of; tips of pipe make them pipe as well.
    trial : Trial or None
        A trial piece of this cord that was settled.
    earlier : tuple of MadeBefore
        Strings like this one that were on the bow.

    Raises
    ------
    DomainError
        ``pair`` where two inputs contradict each other, ``model`` with reason ``uneven_strands``,
        ``few_strands`` or ``melts``.
    """

    bow: BowEstimate
    brace_m: float
    upper: End
    lower: End
    cord: CordEstimate
    strands: int | None
    bundles: int
    tail_m: float
    bench_k: float | None = None
    arrow_kg: float | None = None
    wax: Wax = "beeswax"
    hand: HandEstimate = field(default_factory=HandEstimate)
    limb_kg: float | None = None
    schedule: str | None = None
    told_limbs: Limbs = "wood"
    trial: Trial | None = None
    earlier: tuple[MadeBefore, ...] = ()

    def __post_init__(self) -> None:
        for name in ("brace_m", "tail_m"):
            require(name, getattr(self, name), low=0.0, open_=True)
        require("brace_m", self.brace_m, high=self.bow.middle.highest_m)
        if self.draw_m <= self.brace_m:
            raise DomainError(Problem(field="draw_m", code="pair", other="brace_m", reason="draw_short"))
        self._check_strands()
        self._check_heat()

    @property
    def unread(self) -> Order:
        """The same order with nothing that was read off bow, cord or earlier strings."""
        bow = replace(self.bow, strings=(), forces=())
        return replace(self, bow=bow, hand=HandEstimate(), trial=None, earlier=())

    @property
    def draw_weight_n(self) -> float:
        """Of the bow, as told [N]."""
        assert self.bow.draw_weight_n is not None
        return self.bow.draw_weight_n

    @property
    def draw_m(self) -> float:
        """Full draw of the bow [m]."""
        assert self.bow.draw_m is not None
        return self.bow.draw_m

    @property
    def fibre(self) -> Fibre:
        """Of the cord."""
        return self.cord.fibre

    @property
    def yarn_kg_m(self) -> float:
        """Linear density of one strand; where only its thickness was told, the typical one of that thickness [kg/m]."""
        typical = {name: each.value for name, each in self.cord.causes().items()}
        return self.cord.yarn_kg_m or self.cord.size(typical)["linear"]

    @property
    def limbs(self) -> Limbs:
        """What the limbs are of, as somebody said or their tips tell."""
        return "pipe" if is_pipe(self.upper.section) or is_pipe(self.lower.section) else self.told_limbs

    @property
    def limb(self) -> Spread | None:
        """What one limb weighs, by a scale or by its pipe; None: not known [kg]."""
        tip = self.upper.section if is_pipe(self.upper.section) else self.lower.section
        return limb_of(self.bow, self.limb_kg, tip, self.schedule)

    def _check_strands(self) -> None:
        if self.strands is None:
            return
        if self.strands < self.bundles:
            raise DomainError(Problem(field="strands", code="pair", other="bundles", reason="few_strands"))
        if self.strands % self.bundles:
            raise DomainError(Problem(field="strands", code="pair", other="bundles", reason="uneven_strands"))

    def _check_heat(self) -> None:
        limit = self.fibre.softening_k.low
        if self.bench_k is not None and self.bench_k >= limit:
            raise DomainError(Problem(field="bench_k", code="model", other="fibre", limit=limit, reason="melts"))
