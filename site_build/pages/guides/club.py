"""The club afternoon's tables: a kit list by headcount, and a timetable."""

from __future__ import annotations

from html import escape
from math import ceil
from typing import TYPE_CHECKING

from site_build.pages.blocks import BlockError

if TYPE_CHECKING:
    from collections.abc import Callable

    from site_build.pages.blocks import Block

USUAL_MAKERS = 8
"""How many makers the printed list is for."""


def needed(makers: int, each: float = 0.0, per: float = 0.0, once: float = 0.0) -> int:
    """Return how many of a thing to bring.

    Parameters
    ----------
    makers : int, > 0
        How many people make a string.
    each : float, >= 0
        For every maker.
    per : float, >= 0
        One for so many makers; 0 when it is not shared.
    once : float, >= 0
        Whatever their number.

    Examples
    --------
    >>> needed(8, each=1, once=1), needed(9, per=4)
    (9, 3)
    """
    shared = ceil(makers / per) if per else 0
    return ceil(makers * each) + shared + ceil(once)


def kit(block: Block, text: Callable[[str], str]) -> str:
    """Return the kit list: lines ``each: 2 | pins``, ``shared: 4 | wax blocks``, ``once: 1 | first-aid kit``."""
    rows = []
    for field, word in (("each", "each"), ("shared", "per"), ("once", "once")):
        for line in block.many(field):
            number, bar, what = (part.strip() for part in line.partition("|"))
            if not bar:
                raise BlockError(block.line, f"{field}: {line} is not: number | thing")
            count = needed(USUAL_MAKERS, **{word: float(number)})
            rows.append(f'| <span class="pt-count" data-{word}="{escape(number)}">{count}</span> | {text(what)} |')
    return (
        '<div class="pt-kit" markdown="1">\n\n<p class="pt-heads" hidden><label for="pt-makers">Makers</label> '
        f'<input type="text" inputmode="numeric" id="pt-makers" value="{USUAL_MAKERS}" autocomplete="off"></p>\n\n'
        f'For <span class="pt-for">{USUAL_MAKERS}</span> makers:\n\n{_table(("How many", "What"), rows)}\n\n</div>\n'
    )


def times(block: Block, text: Callable[[str], str]) -> str:
    """Return the timetable: lines ``part: 15 | Safety and show``, minutes first; it adds them up."""
    rows, clock = [], 0
    for line in block.many("part"):
        minutes, _, what = (part.strip() for part in line.partition("|"))
        rows.append(f"| {_clock(clock)} | {minutes} min | {text(what)} |")
        clock += int(minutes)
    rows.append(f"| {_clock(clock)} | | End |")
    return f"\n{_table(('From start', 'Takes', 'What'), rows)}\n"


def _table(heads: tuple[str, ...], rows: list[str]) -> str:
    return "\n".join([f"| {' | '.join(heads)} |", "|" + " --- |" * len(heads), *rows])


def _clock(minutes: int) -> str:
    return f"{minutes // 60}:{minutes % 60:02d}"
