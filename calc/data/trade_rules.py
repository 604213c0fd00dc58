"""Rules of the trade with the figures they name, to hold answers against."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from calc.data.facts import fact, table

if TYPE_CHECKING:
    from calc.data.facts import Fact


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule.

    Attributes
    ----------
    id, words, source : str
        Its name, what it says, key of its source.
    figures : tuple of Fact
        The numbers in it, with the looseness that its words have.
    """

    id: str
    words: str
    source: str
    figures: tuple[Fact, ...]

    def figure(self, words: str) -> Fact:
        """Return the figure of those words."""
        return next(each for each in self.figures if each.words == words)


def _rule(key: str, row: dict[str, Any]) -> Rule:
    figures = (fact({**each, "source": row["source"]}, each["words"], "practice") for each in row["figures"])
    return Rule(key, row["words"], row["source"], tuple(figures))


@cache
def rules() -> tuple[Rule, ...]:
    """Return every rule, in the order of their ids."""
    return tuple(_rule(key, row) for key, row in sorted(table("rules").items()))


def rule(key: str) -> Rule:
    """Return one rule by its id.

    Parameters
    ----------
    key : str
        Its id in ``rules.toml``.

    Examples
    --------
    >>> round(rule("settling").figure("weight").spread.value)
    222
    """
    return next(each for each in rules() if each.id == key)
