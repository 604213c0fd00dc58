"""A cord of which not everything is known: fibre, size, kind, the load on its label, and what tests of it showed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import pi, sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.mechanics.fibre import broke_early, broken_strength, labelled, rated_strength, strength_of_fits
from calc.numerics import Spread, combine_ratios

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Fibre
    from calc.mechanics.fibre import Rating


@dataclass(frozen=True, slots=True, kw_only=True)
class CordEstimate:
    """One strand as it is bought, and what is known of it.

    Parameters
    ----------
    fibre : Fibre
        As told; of a strand that nobody can name, the weakest that fits.
    laid : bool
        True for laid or braided cord, False for yarn or thread.
    yarn_kg_m : float or None, > 0
        Linear density; None: not known. [kg/m]
    thickness_m : float or None, > 0
        Measured across; None: not known. Of yarn it is used only where the weight is not known. [m]
    rated_n : float or None, > 0
        The load on its label. [N]
    rating : str
        What that load is said to be.
    fits : tuple of Fibre
        All that it may be, where nobody knows; empty where the fibre was told.
    weighed : Spread or None
        Its linear density with what the weighing leaves uncertain, around `yarn_kg_m`. [kg/m]
    held_n : float or None, >= 0
        What one carried without breaking. [N]
    broken_n : float or None, > 0
        The pull at which one broke. [N]

    Raises
    ------
    DomainError
        ``model`` with reason ``no_size`` where neither size is known; ``pair`` with reason ``too_thin`` where the
        thickness has no room for the weight; ``min`` and ``number`` for figures out of bounds.
    """

    fibre: Fibre
    laid: bool
    yarn_kg_m: float | None
    thickness_m: float | None = None
    rated_n: float | None = None
    rating: Rating = "unknown"
    fits: tuple[Fibre, ...] = ()
    weighed: Spread | None = None
    held_n: float | None = None
    broken_n: float | None = None

    def __post_init__(self) -> None:
        for name in ("yarn_kg_m", "thickness_m", "rated_n", "broken_n"):
            value = getattr(self, name)
            if value is not None:
                require(name, value, low=0.0, open_=True)
        if self.yarn_kg_m is None and self.thickness_m is None:
            raise DomainError(Problem(field="yarn_kg_m", code="model", other="thickness_m", reason="no_size"))
        if self.yarn_kg_m is not None and self.thickness_m is not None:
            solid = sqrt(4.0 * self.yarn_kg_m / (pi * self.fibre.density_kg_m3.value))
            if self.thickness_m < solid:
                raise DomainError(
                    Problem(field="thickness_m", code="pair", other="yarn_kg_m", limit=solid, reason="too_thin")
                )

    @property
    def words(self) -> str:
        """What a buyer asks for."""
        return "fibre not known" if self.fits else self.fibre.words

    @property
    def fill(self) -> Spread:
        """Share of its round that is fibre; exactly the typical one where no size hangs on it [-]."""
        share = practice("cord_fill").spread if self.laid else self.fibre.packing
        measured = self.laid and self.yarn_kg_m is not None and self.thickness_m is not None
        return Spread.exactly(share.value) if measured else share

    def causes(self) -> dict[str, Spread]:
        """Return what is uncertain about its size."""
        return {"fill": self.fill} | ({} if self.weighed is None else {"linear": self.weighed})

    def size(self, at: Mapping[str, float]) -> dict[str, float]:
        """Return weight ``linear`` [kg/m] and ``thickness`` [m] at one set of causes.

        Notes
        -----
        Source: area = linear density / (density x share that is fibre) (``derived:packing``).
        """
        solid = self.fibre.density_kg_m3.value * at["fill"] * pi / 4.0
        linear, thickness = at.get("linear", self.yarn_kg_m), self.thickness_m
        if linear is None:
            assert thickness is not None
            linear = solid * thickness**2
        if thickness is None or not self.laid:
            thickness = sqrt(linear / solid)
        return {"linear": linear, "thickness": thickness}

    def found(self) -> dict[str, Spread]:
        """Return weight ``linear`` [kg/m], ``thickness`` [m] and ``strength`` [N], each with its spread.

        Notes
        -----
        Source: strength is that of thread or yarn of its fibre for its weight, of which cord keeps a share
        (``cord_keeps`` in the constants), and what its label leaves of it (`labelled`); where several fibres fit,
        as `strength_of_fits`; what broke one comes on top (`broken_strength`).
        """
        known = self._strength()
        strength = known if self.broken_n is None else broken_strength(known, self.broken_n)
        return combine_ratios(self.size, self.causes()) | {"strength": strength}

    @property
    def broke_early(self) -> bool:
        """Whether the one that was pulled broke at less than any like it holds."""
        return self.broken_n is not None and broke_early(self._strength(), self.broken_n)

    def _strength(self) -> Spread:
        if self.fits:
            across = self.thickness_m if self.yarn_kg_m is None else None
            each = [replace(self, fibre=one, fits=(), thickness_m=across).by_fibre() for one in self.fits]
            return strength_of_fits(each, held_n=self.held_n, rated_n=self.rated_n, rating=self.rating)
        if self.rated_n is None:
            return self.by_fibre()
        return labelled(self.by_fibre(), self.rated_n, self.rating, known=True)

    def by_fibre(self) -> Spread:
        """Return what its fibre and size say, whatever is on its label [N]."""
        causes = self.causes() | {"tenacity": self.fibre.thread_n_per_kg_m}
        if self.laid:
            causes["keeps"] = practice("cord_keeps").spread
        return combine_ratios(
            lambda at: {"strength": at["tenacity"] * self.size(at)["linear"] * at.get("keeps", 1.0)}, causes
        )["strength"]

    @property
    def promises_too_much(self) -> bool:
        """Whether its label promises more than its fibre can hold."""
        return self.rated_n is not None and rated_strength(self.rated_n, self.rating).value > self.by_fibre().high
