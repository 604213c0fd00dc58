"""A range as a bar: where low, typical and high lie, and what they are held against, in percent of its width."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.worksheets.core.schema import Row, Sentence

_ENDS = re.compile(r"\{(\w+)\.(?:low|high)\}")
_AROUND = 0.25
"""The bar reaches so far to both sides of the typical value, further where a range does: what is surer is shorter."""
_EDGE = 0.03
"""So much of the width stays free at both ends."""


def bar(sentence: Sentence, rows: Mapping[str, Row]) -> dict[str, str]:
    """Return the bar of a headline's range, as texts for the page.

    Parameters
    ----------
    sentence : Sentence
        A headline.
    rows : mapping of str to Row
        By key.

    Returns
    -------
    dict of str to str
        ``shown`` is "yes" or "no"; ``low``, ``value``, ``high`` are percentages like "12.5%"; ``against`` is one too,
        and ``held`` says whether there is anything that the range is held against.

    Examples
    --------
    >>> from calc.worksheets.core.schema import Sentence
    >>> bar(Sentence(text="no range"), {})["shown"]
    'no'
    """
    named = _ENDS.search(sentence.span)
    spread = rows[named[1]].spread if named else None
    if spread is None or spread.high <= spread.low:
        return {"shown": "no", "held": "no"} | dict.fromkeys(("low", "value", "high", "against"), "0%")
    against = _against(sentence.against, rows)
    around = _AROUND * abs(spread.value)
    points = [spread.low, spread.high, spread.value - around, spread.value + around]
    points += [] if against is None else [against]
    left, right = min(points), max(points)

    def place(value: float) -> str:
        share = _EDGE + (1.0 - 2.0 * _EDGE) * (value - left) / (right - left)
        return f"{100.0 * share:.1f}%"

    return {
        "shown": "yes",
        "held": "no" if against is None else "yes",
        "low": place(spread.low),
        "value": place(spread.value),
        "high": place(spread.high),
        "against": place(spread.value if against is None else against),
    }


def _against(text: str, rows: Mapping[str, Row]) -> float | None:
    if not text:
        return None
    return rows[text].spread.value if text in rows else float(text)
