"""``python3 -m calc string --card card.html``: the card of a string written to a file."""

from __future__ import annotations

import importlib
import importlib.util
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from calc import share
from calc.cards import FORMS, card_facts, card_html, card_pages, card_text
from calc.draw.cards import PAPERS, CardFacts

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Mapping

    from calc.worksheets.core import Worksheet

BAD_INPUT = 2
KINDS = (".html", ".svg", ".txt")


def add_options(parser: ArgumentParser) -> None:
    """Let a parser take what a card needs.

    Parameters
    ----------
    parser : ArgumentParser
        Of the bench sheet.
    """
    parser.add_argument("--card", metavar="FILE", type=Path, help="write the string's card: card.html, .svg or .txt")
    parser.add_argument("--paper", choices=tuple(PAPERS), default="A4", help="what the card is printed on")
    parser.add_argument("--form", choices=FORMS, default="page", help="a card, a pocket card or a marking strip 1:1")
    parser.add_argument("--name", default="", help="whose string or which bow, for the card")
    parser.add_argument("--site", default="", metavar="ADDRESS", help="where the site is, for the link on the card")


def write(worksheet: Worksheet, typed: Mapping[str, str], options: Namespace) -> int:
    """Write a card to the file that was asked for.

    Parameters
    ----------
    worksheet : Worksheet
        The bench sheet.
    typed : mapping of str to str
        Inputs by field key.
    options : Namespace
        What `add_options` lets a person say, and ``units``.

    Returns
    -------
    int
        The exit code: 0, or 2 for a bad input, with the sentences on stderr.
    """
    if options.card.suffix not in KINDS:
        print(f"A card is written to a file that ends in {', '.join(KINDS)}; got {options.card}", file=sys.stderr)
        return BAD_INPUT
    link = ""
    if options.site:
        fragment = share.encode(worksheet, typed, options.units, options.name)
        link = f"{options.site.rstrip('/')}/worksheets/string/#{fragment}"
    facts = card_facts(typed, options.units, name=options.name, link=link, code=square_code(link))
    if not isinstance(facts, CardFacts):
        for each in facts:
            print(f"{each.field}: {each.text}", file=sys.stderr)
        return BAD_INPUT
    if options.card.suffix == ".svg":
        pages = card_pages((facts,), options.paper, options.form)
        if len(pages) > 1:
            print(f"This takes {len(pages)} pages: write it to a file that ends in .html", file=sys.stderr)
            return BAD_INPUT
        text = pages[0] + "\n"
    elif options.card.suffix == ".txt":
        text = card_text(facts)
    else:
        text = card_html((facts,), options.paper, options.form)
    options.card.write_text(text, encoding="utf-8")
    return 0


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
