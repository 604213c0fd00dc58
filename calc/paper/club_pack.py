"""A club's afternoon as one print: what to buy and cut, labels, the timetable, a list to sign, and all cards."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw import escaped
from calc.paper.cards import card_pages
from calc.paper.styles import pack_style, page_html
from calc.plain_text import whole_measures
from calc.worksheets import one
from calc.worksheets.club import set_labels
from calc.worksheets.core import Answer, ask, by_key, fill, usual

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

    from calc.draw.cards import CardFacts
    from calc.units import System
    from calc.worksheets.club import SetLabel
    from calc.worksheets.core import Complaint, Table

_SIGNED = (
    "String",
    "Set given to",
    "First loop",
    "Both loops",
    "Settled, from and to",
    "Braced at",
    "Turns",
    "Served",
    "Adult",
)
"""What an adult looks at and signs for, string by string, in the order of the work."""
_COUNTED = ("Scissors out", "Scissors in", "Knife in", "Strings settling, an adult by them", "Leader, date")


def pack_html(
    inputs: Mapping[str, str], system: System, cards: Sequence[CardFacts], paper: str
) -> str | tuple[Complaint, ...]:
    """Return all that a club's afternoon needs on paper as one page of HTML to print.

    Parameters
    ----------
    inputs : mapping of str to str
        Typed into the club list, by field key; what is left out is as usual.
    system : {"inch", "metric"}
        Units of bare numbers and of what is printed.
    cards : sequence of CardFacts
        Of its strings, four a page.
    paper : {"A4", "Letter"}

    Returns
    -------
    str or tuple of Complaint
        Complaints about a list that cannot be answered.
    """
    club = one("club")
    typed = usual(club, inputs)
    answer = ask(club, typed, system)
    if not isinstance(answer, Answer):
        return answer
    rows = by_key(answer.rows)

    def shown(text: str) -> str:
        return escaped(whole_measures(fill(text, rows, system)))

    tables = {each.key: each for each in answer.tables(system)}
    labels = set_labels(club, typed, system)
    heads = [
        f"<p><b>{escaped(each.lead)}:</b> {shown(each.text)}" + (f" ({shown(each.span)})" if each.span else "") + "</p>"
        for each in answer.headlines
    ]
    cautions = [f"<p>{shown(each.text)}</p>" for each in answer.cautions if each.level == "caution"]
    sheets = [
        (
            "<h1>Club afternoon</h1>",
            *heads,
            *_tables(tables, ("buy", "cut", "left-out"), shown),
            "<h2>Take care</h2>",
            *cautions,
        ),
        (
            "<h1>Timetable</h1>",
            *_tables(tables, ("timetable",), shown, titled=False),
            *_blanks(("Begins at", "Leader", "Helpers")),
        ),
        ("<h1>Looked at and signed</h1>", _to_sign(labels), *_blanks(_COUNTED)),
        ("<h1>Labels for the sets</h1>", "<p>Cut apart, and tape one to each set of strands.</p>", _labels(labels)),
    ]
    pages = [f"<section>{''.join(parts)}</section>" for parts in (sheets if labels else sheets[:1])]
    pages += card_pages(cards, paper, "pocket") if cards else []
    return page_html("Club afternoon", pack_style(paper), "\n".join(pages))


def _tables(
    tables: Mapping[str, Table], keys: Iterable[str], shown: Callable[[str], str], *, titled: bool = True
) -> list[str]:
    return [
        (f"<h2>{escaped(each.title)}</h2>" if titled else "")
        + _table(each.heads, ((shown(cell) for cell in line) for line in each.cells))
        + (f"<p>{shown(each.note)}</p>" if each.note else "")
        for each in (tables[key] for key in keys if key in tables)
    ]


def _table(heads: Iterable[str], lines: Iterable[Iterable[str]], kind: str = "") -> str:
    """Write a table; its cells are HTML already."""
    head = "".join(f"<th>{escaped(each)}</th>" for each in heads)
    body = "".join(f"<tr>{''.join(f'<td>{cell}</td>' for cell in line)}</tr>" for line in lines)
    return f'<table class="{kind}"><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>'


def _to_sign(labels: Iterable[SetLabel]) -> str:
    return _table(_SIGNED, ((escaped(each.name), *[""] * (len(_SIGNED) - 1)) for each in labels), "sign")


def _labels(labels: Iterable[SetLabel]) -> str:
    made = "".join(
        f'<div class="label"><b>{escaped(each.name)}</b>'
        f"{'<br>'.join(escaped(whole_measures(line)) for line in (each.strands, each.bundles, each.bow))}</div>"
        for each in labels
    )
    return f'<div class="labels">{made}</div>'


def _blanks(names: Iterable[str]) -> list[str]:
    return [
        "<p>",
        *(f'<span class="blank">{escaped(name)} <span class="write"></span></span> ' for name in names),
        "</p>",
    ]
