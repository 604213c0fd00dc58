"""Generic fibres: what is known of each, with its spread and source."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, Literal, TypeAlias

from calc.data.facts import fact, table

if TYPE_CHECKING:
    from calc.data.facts import Fact, FactKind
    from calc.numerics import Spread

Class: TypeAlias = Literal["low", "medium", "high", "good", "fair", "poor"]

PROPERTIES = {
    "density": "Density",
    "tenacity": "Strength for its weight",
    "thread": "Strength of thread spun from it, for its weight",
    "modulus": "Stiffness for its weight, small stretch",
    "break_strain": "Stretch at break",
    "knee": "Pull at which the first stiffness ends",
    "softening": "Softens, scorches or creeps away from",
    "melting": "Melts",
    "creep_decade": "Creep in each tenfold time, at 30 % of its strength, 20 °C",
    "creep_power": "Creep grows as the pull to the power",
    "creep_warmth": "Creep grows by this factor each 10 °C",
    "wet_ratio": "Wet strength / dry strength",
    "knot_ratio": "Strength left by a knot",
    "friction": "Friction on itself, dry",
    "packing": "Share of a waxed, rolled bundle that is fibre",
}
"""The numbers of a fibre and their words. Creep is told for `CREEP_SHARE` of the strength at `CREEP_K`."""

CREEP_SHARE = 0.3
CREEP_K = 293.15


@dataclass(frozen=True, slots=True)
class Verdict:
    """A fibre put into a class, with its provenance.

    Attributes
    ----------
    word : Class
        The class.
    source, place : str
        Key of the source; where in it.
    read_on : str
        Date.
    kind : FactKind
        What sort of fact it is.
    """

    word: Class
    source: str
    place: str
    read_on: str
    kind: FactKind


@dataclass(frozen=True, slots=True)
class Fibre:
    """A generic fibre.

    Attributes
    ----------
    id, words : str
        Public name; what a reader sees.
    facts : tuple of (str, Fact)
        Every number of it, named as in `PROPERTIES`.
    verdicts : tuple of (str, Verdict)
        Its classes: ``creep`` and ``uv``.
    """

    id: str
    words: str
    facts: tuple[tuple[str, Fact], ...]
    verdicts: tuple[tuple[str, Verdict], ...]

    def spread(self, name: str) -> Spread | None:
        """Return a property in SI, None where the fibre has none."""
        found = dict(self.facts).get(name)
        return None if found is None else found.spread

    def _fact(self, name: str) -> Spread:
        return dict(self.facts)[name].spread

    @property
    def creep(self) -> Class:
        """How much it creeps: low, medium or high."""
        return dict(self.verdicts)["creep"].word

    @property
    def uv(self) -> Class:
        """How it stands sunlight: good, fair or poor."""
        return dict(self.verdicts)["uv"].word

    @property
    def density_kg_m3(self) -> Spread:
        """Density [kg/m^3]."""
        return self._fact("density")

    @property
    def tenacity_n_per_kg_m(self) -> Spread:
        """Breaking force of the fibre itself, per linear density [N/(kg/m)]."""
        return self._fact("tenacity")

    @property
    def thread_n_per_kg_m(self) -> Spread:
        """Breaking force of a strand as it is sold, per linear density [N/(kg/m)].

        Of fibres that end every few centimetres it is that of spun thread, which holds far less than they do.
        """
        return self.spread("thread") or self.tenacity_n_per_kg_m

    @property
    def modulus_n_per_kg_m(self) -> Spread:
        """Stiffness per linear density at small strain [N/(kg/m)]."""
        return self._fact("modulus")

    @property
    def break_strain(self) -> Spread:
        """Extension at break [-]."""
        return self._fact("break_strain")

    @property
    def knee_n_per_kg_m(self) -> Spread | None:
        """Stress at which the first stiffness ends; None where the curve has no knee [N/(kg/m)]."""
        return self.spread("knee")

    @property
    def softening_k(self) -> Spread:
        """Where it softens, scorches or creeps away [K]."""
        return self._fact("softening")

    @property
    def melting_k(self) -> Spread | None:
        """Where it melts; None where it scorches or decomposes first [K]."""
        return self.spread("melting")

    @property
    def creep_decade(self) -> Spread:
        """Strain for each tenfold time at `CREEP_SHARE` of the strength and `CREEP_K` [-]."""
        return self._fact("creep_decade")

    @property
    def creep_power(self) -> Spread:
        """Power of the load in creep [-]."""
        return self._fact("creep_power")

    @property
    def creep_warmth(self) -> Spread:
        """Factor of creep for each 10 K [-]."""
        return self._fact("creep_warmth")

    @property
    def wet_ratio(self) -> Spread:
        """Wet / dry strength [-]."""
        return self._fact("wet_ratio")

    @property
    def knot_ratio(self) -> Spread:
        """Strength that a knot leaves [-]."""
        return self._fact("knot_ratio")

    @property
    def friction(self) -> Spread:
        """Friction of the dry fibre on itself [-]."""
        return self._fact("friction")

    @property
    def packing(self) -> Spread:
        """Share of a waxed, rolled bundle that is fibre [-]."""
        return self._fact("packing")


def _fibre(key: str, row: dict[str, Any]) -> Fibre:
    numbers = tuple((name, fact(row[name], words, "measured")) for name, words in PROPERTIES.items() if name in row)
    classes = tuple((name, _verdict(row[name])) for name in ("creep", "uv"))
    return Fibre(key, row["words"], numbers, classes)


def _verdict(row: dict[str, Any]) -> Verdict:
    return Verdict(row["class"], row["source"], row["place"], row.get("read_on", ""), row["kind"])


@cache
def fibres() -> tuple[Fibre, ...]:
    """Return every fibre, in the order of their names."""
    return tuple(_fibre(key, row) for key, row in sorted(table("fibres").items()))


def fibre(key: str) -> Fibre:
    """Return one fibre by its id.

    Parameters
    ----------
    key : str
        Its id in ``fibres.toml``.

    Examples
    --------
    >>> round(fibre("polyester").density_kg_m3.value)
    1380
    """
    return next(each for each in fibres() if each.id == key)
