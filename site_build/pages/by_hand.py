"""Tables to read off where no script runs: a worksheet's answer over two of its measures, worked out at the build."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from html import escape
from typing import TYPE_CHECKING

from calc.units import show
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, Number, ask, by_key, range_words, read_field, show_row, usual

if TYPE_CHECKING:
    from calc.units import System
    from calc.worksheets.core import Row, Worksheet

SYSTEMS: tuple[System, System] = ("inch", "metric")


@dataclass(frozen=True, slots=True)
class ByHand:
    """One table.

    Attributes
    ----------
    down, across : str
        The fields whose measures lead its lines and columns.
    measures : tuple of tuple of str
        Those measures, down and across.
    result : str
        The row of the answer that its cells tell.
    between : str
        What to take between two measures.
    """

    down: str
    across: str
    measures: tuple[tuple[str, ...], tuple[str, ...]]
    result: str
    between: str


TABLES = {
    "brace": ByHand(
        "brace_height",
        "nock_to_nock",
        (("5 in", "5 1/2 in", "6 in", "6 1/2 in", "7 in", "7 1/2 in"), ("48 in", "54 in", "60 in", "66 in", "72 in")),
        "string_length",
        "Between two measures take what lies between. In brackets stands between what the truth may lie.",
    ),
    "strands": ByHand(
        "draw_weight",
        "yarn",
        (("20 lb", "30 lb", "40 lb", "50 lb", "60 lb"), ("110 tex", "167 tex", "220 tex", "330 tex")),
        "strands",
        "Between two measures take the higher number of strands.",
    ),
    "twist": ByHand(
        "bundle_diameter",
        "cord_length",
        (("0.03 in", "0.04 in", "0.05 in", "0.06 in", "0.07 in"), ("34 in", "40 in", "46 in", "52 in")),
        "turns",
        "Between two measures take what lies between.",
    ),
}
"""By worksheet; all else is as in its usual example."""


@cache
def table(key: str) -> str:
    """Return the table of a worksheet as HTML that shows where scripts are off; nothing where it has none.

    Parameters
    ----------
    key : str
        Of the worksheet.
    """
    if key not in TABLES:
        return ""
    told, sheet = TABLES[key], catalogue()[key]
    down, across = told.measures
    rows = {(first, second): _row(sheet, told, first, second) for first in down for second in across}
    words = next(each.words for each in rows.values() if each)
    heads = "".join(f'<th scope="col">{_measure(sheet, told.across, each)}</th>' for each in across)
    lines = "".join(
        f'<tr><th scope="row">{_measure(sheet, told.down, first)}</th>'
        + "".join(f"<td>{_cell(rows[first, second])}</td>" for second in across)
        + "</tr>"
        for first in down
    )
    label = f"{words}, by {_label(sheet, told.down)} and {_label(sheet, told.across)}"
    return (
        '<noscript><section class="sheet by-hand"><h2>To read off by hand</h2>'
        f"<p>{escape(label)}. All else is as in the example above. {told.between}</p>"
        f'<div class="wide" tabindex="0" role="region" aria-label="{escape(label)}"><table class="list">'
        f"<thead><tr><th></th>{heads}</tr></thead><tbody>{lines}</tbody></table></div></section></noscript>"
    )


def _row(sheet: Worksheet, told: ByHand, first: str, second: str) -> Row | None:
    """Return the row of the answer with two measures changed; None where they do not go together."""
    answer = ask(sheet, usual(sheet, {told.down: first, told.across: second}), "inch")
    return by_key(answer.rows)[told.result] if isinstance(answer, Answer) else None


def _cell(row: Row | None) -> str:
    """Return a number in both units with its range, or a stroke."""
    if row is None:
        return "–"
    both = dict.fromkeys(_with_range(row, system) for system in SYSTEMS)
    return "<br>".join(both)


def _with_range(row: Row, system: System) -> str:
    span = range_words(row, system)
    return f"{_joined(show_row(row, system))}{f' <small>({_joined(span)})</small>' if span else ''}"


def _measure(sheet: Worksheet, key: str, text: str) -> str:
    field = next(each for each in sheet.fields if each.key == key)
    value = read_field(field, text, "inch")
    assert isinstance(field, Number)
    assert isinstance(value, float | int)
    return "<br>".join(dict.fromkeys(map(_joined, [text, show(value, field.quantity, "metric")])))


def _joined(text: str) -> str:
    """Return words as HTML that stay on one line; where the table is wider than a phone it is moved sideways."""
    return escape(text).replace(" ", "&#160;")


def _label(sheet: Worksheet, key: str) -> str:
    label = next(each.label for each in sheet.fields if each.key == key)
    return label[0].lower() + label[1:]
