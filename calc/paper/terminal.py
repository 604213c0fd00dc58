"""``python3 -m calc string --card card.html``: the card of a string, or a club's whole afternoon, written to a file."""

from __future__ import annotations

import importlib
import importlib.util
import sys
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING

from calc import share
from calc.draw.cards import PAPERS, CardFacts
from calc.paper.cards import FORMS, card_facts, card_html, card_pages, card_text
from calc.paper.club_pack import pack_html
from calc.worksheets import one
from calc.worksheets.core import usual

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Iterable, Iterator, Mapping

    from calc.worksheets.core import Complaint, Worksheet

BAD_INPUT = 2
KINDS = (".html", ".svg", ".txt")


PACK = "pack"


def add_options(parser: ArgumentParser, worksheet: Worksheet) -> None:
    """Let a parser take what cards need.

    Parameters
    ----------
    parser : ArgumentParser
        Of the worksheet.
    worksheet : Worksheet
        The bench sheet or the club list.
    """
    many = worksheet.parts is not None
    what = (
        "write the lists, labels, timetable and cards: pack.html" if many else "write the card: card.html, .svg or .txt"
    )
    forms = (PACK, *FORMS) if many else FORMS
    each = "a card, a pocket card, or 1:1 a marking strip, the pegs of a jig or loop gauges"
    parser.add_argument("--card", metavar="FILE", type=Path, help=what)
    parser.add_argument("--paper", choices=tuple(PAPERS), default="A4", help="what it is printed on")
    parser.add_argument(
        "--form", choices=forms, default=forms[0], help=f"all of an afternoon, or {each}" if many else each
    )
    parser.add_argument("--name", default="", help="whose string or which bow, for the card")
    parser.add_argument("--site", default="", metavar="ADDRESS", help="where the site is, for the links on cards")


def write(worksheet: Worksheet, typed: Mapping[str, str], options: Namespace) -> int:
    """Write cards to the file that was asked for.

    Parameters
    ----------
    worksheet : Worksheet
        The bench sheet or the club list.
    typed : mapping of str to str
        Inputs by field key.
    options : Namespace
        What `add_options` lets a person say, and ``units``.

    Returns
    -------
    int
        The exit code: 0, or 2 for a bad input, with the sentences on stderr.
    """
    kinds = (".html",) if options.form == PACK else KINDS
    if options.card.suffix not in kinds:
        print(f"This is written to a file that ends in {', '.join(kinds)}; got {options.card}", file=sys.stderr)
        return BAD_INPUT
    made = _text(worksheet, typed, options)
    if not isinstance(made, str):
        print("\n".join(made), file=sys.stderr)
        return BAD_INPUT
    options.card.write_text(made, encoding="utf-8")
    return 0


def _text(worksheet: Worksheet, typed: Mapping[str, str], options: Namespace) -> str | list[str]:
    """Return what goes into the file, or what is wrong."""
    cards = []
    for inputs, name in _strings(worksheet, typed, options):
        facts = _facts(inputs, name, options)
        if not isinstance(facts, CardFacts):
            return _sentences(facts)
        cards.append(facts)
    if options.form == PACK:
        pack = pack_html(typed, options.units, cards, options.paper)
        return pack if isinstance(pack, str) else _sentences(pack)
    if not cards:
        return ["There is no string to make a card of: ask without --card what is wrong."]
    if options.card.suffix != ".svg":
        text = options.card.suffix == ".txt"
        return "\n".join(map(card_text, cards)) if text else card_html(cards, options.paper, options.form)
    pages = card_pages(cards, options.paper, options.form)
    if len(pages) > 1:
        return [f"This takes {len(pages)} pages: write it to a file that ends in .html"]
    return pages[0] + "\n"


def _strings(
    worksheet: Worksheet, typed: Mapping[str, str], options: Namespace
) -> Iterator[tuple[Mapping[str, str], str]]:
    """Return what the bench sheet is asked for each string, and its name."""
    if worksheet.parts is None:
        yield typed, options.name
        return
    for at in count():
        opened = worksheet.parts.open(usual(worksheet, typed), options.units, at)
        if opened is None:
            return
        _, inputs, name = opened
        yield inputs, name


def _facts(inputs: Mapping[str, str], name: str, options: Namespace) -> CardFacts | tuple[Complaint, ...]:
    link = ""
    if options.site:
        fragment = share.encode(one("string"), inputs, options.units, name)
        link = f"{options.site.rstrip('/')}/worksheets/string/#{fragment}"
    return card_facts(inputs, options.units, name=name, link=link, code=square_code(link))


def _sentences(complaints: Iterable[Complaint]) -> list[str]:
    return [f"{each.field}: {each.text}" for each in complaints]


def square_code(text: str) -> tuple[tuple[bool, ...], ...]:
    """Return a text as a square code (ISO/IEC 18004): rows of dark and light modules.

    Parameters
    ----------
    text : str
        What it says; empty for no code.

    Returns
    -------
    tuple of tuple of bool
        Without its light rim; nothing where the package ``segno`` is not installed: a card then bears the link alone.
    """
    if not text or importlib.util.find_spec("segno") is None:
        return ()
    made = importlib.import_module("segno").make(text, error="l", boost_error=False, micro=False)
    return tuple(tuple(bool(module) for module in row) for row in made.matrix)
