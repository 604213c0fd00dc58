"""A worksheet with something typed into it: its answer, the numbers of that, or its refusal."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.worksheets import one
from calc.worksheets.core import Answer, Complaint, ask, by_key, usual

if TYPE_CHECKING:
    from calc.numerics import Spread
    from calc.units import System


@dataclass(frozen=True, slots=True)
class TypedSheet:
    """One worksheet, whose fields hold the usual example but for what a test types."""

    id: str
    system: System = "inch"

    def answer(self, **typed: str) -> Answer:
        """Return the answer, which must not be a refusal."""
        found = self._asked(typed)
        assert isinstance(found, Answer), found
        return found

    def spreads(self, **typed: str) -> dict[str, Spread]:
        """Return each number with its low and high."""
        return {key: row.spread for key, row in by_key(self.answer(**typed).rows).items()}

    def values(self, **typed: str) -> dict[str, float]:
        """Return each number at its most likely."""
        return {key: spread.value for key, spread in self.spreads(**typed).items()}

    def ends(self, **typed: str) -> dict[str, tuple[float, float, float]]:
        """Return the low, the most likely and the high of each number."""
        return {key: (each.low, each.value, each.high) for key, each in self.spreads(**typed).items()}

    def complaint(self, **typed: str) -> tuple[str, str]:
        """Return field and text of the first complaint; there must be one."""
        found = self._asked(typed)
        assert not isinstance(found, Answer)
        return found[0].field, found[0].text

    def refusal(self, **typed: str) -> str:
        """Return the text of the first complaint; there must be one."""
        return self.complaint(**typed)[1]

    def _asked(self, typed: dict[str, str]) -> Answer | tuple[Complaint, ...]:
        sheet = one(self.id)
        return ask(sheet, usual(sheet, typed), self.system)
