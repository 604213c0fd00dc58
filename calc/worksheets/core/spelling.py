"""Typed text written out so that it means the same to every reader: each number with its unit."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from calc import units
from calc.errors import DomainError
from calc.units.reading import understand
from calc.worksheets.core.read import read_field
from calc.worksheets.core.schema import Choice, Lines, Number, Tip
from calc.worksheets.core.tips import parts_of

if TYPE_CHECKING:
    from calc.units import System
    from calc.worksheets.core.schema import Field

LONGEST = 200
"""A field with more characters cannot be read, see `calc.worksheets.core.read`."""
_DEGREES = re.compile(r"°(?![CF])")
_PLAIN = str.maketrans({"−": "-", "°": "", "μ": "u", "·": "", "%": "pct", "×": "x"})
_LETTERS = "abcdefghijklmnopqrstuvwxyz"
_LOOSE = re.compile(r"(?<=\d) (?=[a-zA-Z])|(?<=[a-zA-Z]) (?=\d)| ?/ (?=\d)| (?=/)")


def spell(each: Field, typed: str, system: System, *, tight: bool = False) -> str:
    """Write typed text so that it reads the same in both systems.

    Parameters
    ----------
    each : Field
        Whose text it is.
    typed : str
        As typed; a bare number is in `system`.
    system : {"inch", "metric"}
        The writer's units.
    tight : bool
        True for plain characters without spaces where none are needed.

    Returns
    -------
    str
        Text that `calc.worksheets.core.read.read_field` reads to the same value in either system. What cannot be
        read comes back as it was, no longer than one character past what may be typed.

    Examples
    --------
    >>> from calc.worksheets.core.fields import NOCK_TO_NOCK, TIP_UPPER
    >>> spell(NOCK_TO_NOCK, "1,575", "metric"), spell(NOCK_TO_NOCK, "5' 2½", "inch", tight=True)
    ('1575 mm', '5ft2 1/2in')
    >>> spell(TIP_UPPER, "16 x 9.5", "metric"), spell(TIP_UPPER, "1/2 in", "metric", tight=True)
    ('flat 16 mm x 9.5 mm', 'round:1/2in')
    """
    if isinstance(each, Lines):
        return each.explicit(typed, system)
    kept = typed.strip()[: LONGEST + 1]
    if len(kept) > LONGEST:
        return kept
    try:
        if isinstance(each, Choice):
            return str(read_field(each, kept, system))
        written = [*_spellings(each, kept, system, tight=tight), kept]
    except DomainError as error:
        return _bare(each, kept, system) if error.problem.code == "ambiguous" else kept
    return next(text for text in written if text == kept or _same(each, kept, text, system))


def _spellings(each: Field, typed: str, system: System, *, tight: bool) -> list[str]:
    """Return ways to write a text, the most wanted first."""
    if isinstance(each, Number):
        words = understand(
            each.key, typed, each.quantity, low=each.low, high=each.high, system=system, whole=each.whole
        )
        return [_tight(words.words), words.words] if tight else [words.words]
    assert isinstance(each, Tip)
    kind, sizes = parts_of(each, typed)
    if kind != "pipe":
        sizes = [
            understand(each.key, size, "length", low=each.low, high=each.high, system=system).words for size in sizes
        ]
    loose = f"{kind} {' x '.join(sizes)}"
    if not tight:
        return [loose]
    short = [_tight(size) for size in sizes]
    once = [*(size.rstrip(_LETTERS) for size in short[:-1]), short[-1]]
    return [f"{kind}:{'x'.join(once)}", f"{kind}:{'x'.join(short)}", loose]


def _tight(words: str) -> str:
    return _LOOSE.sub(lambda found: found[0].strip(), _DEGREES.sub("deg", words).translate(_PLAIN))


def _same(each: Field, typed: str, text: str, system: System) -> bool:
    """Tell whether a text reads in both systems as what was typed reads in its own, or is wrong in the same way."""
    wanted = _meaning(each, typed, system)
    return all(_meaning(each, text, reader) == wanted for reader in ("inch", "metric"))


def _meaning(each: Field, text: str, system: System) -> object:
    try:
        return read_field(each, text, system)
    except DomainError as error:
        return error.problem.code


def _bare(each: Field, typed: str, system: System) -> str:
    """Give a number with two readings its unit, so that it has the same two for everybody."""
    label = units.unit_label(each.quantity, system) if isinstance(each, Number) else ""
    text = f"{typed} {label}".strip()
    return text if label and _same(each, typed, text, system) else typed
