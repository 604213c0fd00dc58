"""What a maker asks for: the bow, its ends, the cord and the method, all in SI."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from calc.errors import DomainError, Problem, require
from calc.geometry.ends import is_pipe

if TYPE_CHECKING:
    from calc.data import Fibre, Limbs
    from calc.geometry.ends import Section
    from calc.making.strands import Strand, Wax
    from calc.mechanics.bow import LimbShape

Fit = Literal["nocked", "sliding"]


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """One end of the bow: its limb-tip section (None: not known) and how the loop sits on it."""

    section: Section | None
    fit: Fit


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """One string to be planned.

    Parameters
    ----------
    nock_to_nock_m : float, > 0
        Along the belly, nock bottom to nock bottom. [m]
    handle_length_m : float or None
        Whole stiff length; None: not known. [m]
    shape : LimbShape or None
        How the limbs bend; None: not known.
    draw_weight_n, draw_m : float, > 0
        Force at full draw, and the draw from the point where brace height is measured. [N], [m]
    brace_m : float, > 0
        Brace height wanted. [m]
    upper, lower : End
        The two ends.
    strand : Strand
        What it is made of.
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

    Raises
    ------
    DomainError
        ``pair`` where two inputs contradict each other, ``model`` with reason ``uneven_strands``,
        ``few_strands`` or ``melts``.
    """

    nock_to_nock_m: float
    handle_length_m: float | None
    shape: LimbShape | None
    draw_weight_n: float
    draw_m: float
    brace_m: float
    upper: End
    lower: End
    strand: Strand
    strands: int | None
    bundles: int
    tail_m: float
    bench_k: float | None = None
    arrow_kg: float | None = None
    wax: Wax = "beeswax"

    def __post_init__(self) -> None:
        for name in ("nock_to_nock_m", "draw_weight_n", "draw_m", "brace_m", "tail_m"):
            require(name, getattr(self, name), low=0.0, open_=True)
        if self.handle_length_m is not None and self.handle_length_m >= self.nock_to_nock_m:
            raise DomainError(
                Problem(field="handle_length_m", code="pair", other="nock_to_nock_m", reason="handle_long")
            )
        if self.draw_m <= self.brace_m:
            raise DomainError(Problem(field="draw_m", code="pair", other="brace_m", reason="draw_short"))
        self._check_strands()
        self._check_heat()

    @property
    def fibre(self) -> Fibre:
        """Of the strand."""
        return self.strand.fibre

    @property
    def yarn_kg_m(self) -> float:
        """Linear density of one strand; where only its thickness was told, the typical one of that thickness [kg/m]."""
        typical = {name: each.value for name, each in self.strand.causes().items()}
        return self.strand.yarn_kg_m or self.strand.size(typical)["linear"]

    @property
    def limbs(self) -> Limbs:
        """What the limbs are of, as their tips tell."""
        return "pipe" if is_pipe(self.upper.section) or is_pipe(self.lower.section) else "wood"

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
