"""Limb-tip sections as text: `round 1/2 in`, `flat 5/8 x 3/8 in`, `pipe 3/4`; the word may follow or be left out."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from calc import units
from calc.errors import DomainError, Problem
from calc.geometry.ends import FlatTip, RoundTip, pipe
from calc.worksheets.core.schema import Inputs

if TYPE_CHECKING:
    from calc.geometry.ends import Section
    from calc.making.string import Fit
    from calc.units import System
    from calc.worksheets.core.schema import Tip

SENTENCES = {
    "tip": "Say round, flat or pipe and the size, like round 1/2 in, flat 5/8 x 3/8 in or pipe 3/4",
    "tip_size": "Enter the size of the tip, like round 1/2 in",
    "tip_round": "A round tip has one measure, like round 1/2 in",
    "tip_flat": "A flat tip has two measures, like flat 5/8 x 3/8 in",
    "pipe": "This pipe size is not in the table. Use one like pipe 3/4 or pipe 1, or measure it: round 27 mm",
}
"""What a worksheet that asks a tip says of one it cannot read."""
_TIP = re.compile(r"(round|flat|pipe)\b[\s:]*(.*)|([\d½¼¾⅛⅜⅝⅞.].*?)\s*\b(round|flat|pipe)?", re.IGNORECASE | re.DOTALL)
_BY = re.compile(r"\s*(?:[x×*]|\bby\b)\s*", re.IGNORECASE)
_UNIT = re.compile(r"[a-z″\"”'’′][a-z.]*\s*$", re.IGNORECASE)
_PARTS = {"round": 1, "flat": 2}


class EndInputs(Inputs):
    """What sheets read of both ends of the bow, in SI."""

    tip_upper: Section | None
    tip_lower: Section | None
    loop_fit_upper: Fit
    loop_fit_lower: Fit


def read_tip(each: Tip, typed: str, system: System) -> Section:
    """Return the section that was typed.

    Parameters
    ----------
    each : Tip
        The field.
    typed : str
        Kind and measures, like `round 1/2 in`; the kind may follow or be left out.
    system : System
        What bare numbers mean.

    Raises
    ------
    DomainError
        ``choice`` for an unknown shape or pipe size, ``missing`` or ``number`` for its measures, and all
        that `calc.units.read` raises.
    """
    kind, size = _split(each, typed)
    if kind == "pipe":
        try:
            return RoundTip(pipe(size))
        except DomainError as error:
            raise DomainError(Problem(field=each.key, code="choice", reason="pipe")) from error
    lengths = [
        units.read(each.key, part, "length", low=each.low, high=each.high, system=system)
        for part in _measures(each, kind, size)
    ]
    return RoundTip(lengths[0]) if kind == "round" else FlatTip(max(lengths), min(lengths))


def convert_tip(each: Tip, typed: str, to: System) -> str:
    """Return a section's measures in the other units; a pipe keeps its nominal size.

    Parameters
    ----------
    each, typed
        As for `read_tip`.
    to : System
        The other units.
    """
    kind, size = _split(each, typed)
    if kind == "pipe":
        return typed
    shown = [
        units.convert_text(part, "length", low=each.low, high=each.high, to=to) for part in _measures(each, kind, size)
    ]
    return f"{kind} {' × '.join(shown)}"


def parts_of(each: Tip, typed: str) -> tuple[str, list[str]]:
    """Return the kind of a section and its measures as typed, each with the unit that was typed for it.

    Parameters
    ----------
    each, typed
        As for `read_tip`.

    Raises
    ------
    DomainError
        As `read_tip`, but not for what the measures themselves say.
    """
    kind, size = _split(each, typed)
    return kind, [size] if kind == "pipe" else _measures(each, kind, size)


def _split(each: Tip, typed: str) -> tuple[str, str]:
    found = _TIP.fullmatch(typed.strip())
    if not found:
        raise DomainError(Problem(field=each.key, code="choice", reason="tip"))
    size = (found[2] or found[3] or "").strip()
    if not size:
        raise DomainError(Problem(field=each.key, code="missing", reason="tip_size"))
    kind = found[1] or found[4] or ("flat" if _BY.search(size) else "round")
    return kind.casefold(), size


def _measures(each: Tip, kind: str, size: str) -> list[str]:
    parts = with_units(size)
    if len(parts) != _PARTS[kind]:
        raise DomainError(Problem(field=each.key, code="number", reason=f"tip_{kind}"))
    return parts


def with_units(size: str) -> list[str]:
    """Return the measures of `5/8 x 3/8 in` with the last unit given to those that have none.

    Parameters
    ----------
    size : str
        Measures parted by ``x``, ``×``, ``*`` or ``by``.

    Examples
    --------
    >>> with_units("5/8 x 3/8 in"), with_units("16 mm × 1/2 in"), with_units("12")
    (['5/8 in', '3/8 in'], ['16 mm', '1/2 in'], ['12'])
    """
    parts = [part.strip() for part in _BY.split(size)]
    unit = _UNIT.search(parts[-1])
    if unit is None:
        return parts
    return [part if _UNIT.search(part) else f"{part} {unit[0].strip()}" for part in parts]


def tip_words(section: Section, system: System) -> str:
    """Return a section's measures in the reader's units.

    Parameters
    ----------
    section : Section
        Round or flat.
    system : System
        The reader's units.

    Examples
    --------
    >>> tip_words(RoundTip(0.0127), "inch"), tip_words(FlatTip(0.016, 0.010), "metric")
    ('round 1/2 in', 'flat 16 mm × 10 mm')
    """
    if isinstance(section, RoundTip):
        return f"round {units.show(section.diameter_m, 'length', system)}"
    sides = (units.show(each, "length", system) for each in (section.width_m, section.depth_m))
    return f"flat {' × '.join(sides)}"
