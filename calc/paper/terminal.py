"""``python3 -m calc string --card card.html``: what is printed or cut of a string, or of a club, written to a file."""

from __future__ import annotations

import importlib
import importlib.util
import sys
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING

from calc import share
from calc.draw.cards import PAPERS, CardFacts
from calc.paper.boards import board_svg, boards_of, can_draw, dxf_text, post_board
from calc.paper.cards import FORMS, card_facts, card_html, card_pages, card_text
from calc.paper.club_pack import pack_html
from calc.paper.posts import Posts, posts_html, posts_of
from calc.worksheets import one
from calc.worksheets.core import usual

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from calc.paper.boards import BoardForm
    from calc.worksheets.core import Complaint, Worksheet

BAD_INPUT = 2
KINDS = (".html", ".svg", ".txt")
BOARDS = ".dxf"
_CUT_FORMS: tuple[BoardForm, ...] = ("strip", "pegs", "gauges")
"""What is drawn for who cuts boards."""
CARD_SHEETS = ("string", "club", "endless")
"""Worksheets of which something is printed beside the answer."""
PACK, POSTS = "pack", "posts"


def add_options(parser: ArgumentParser, worksheet: Worksheet) -> None:
    """Let a parser take what cards need.

    Parameters
    ----------
    parser : ArgumentParser
        Of the worksheet.
    worksheet : Worksheet
        One of `CARD_SHEETS`.
    """
    each = "a card, a pocket card, or 1:1 a marking strip, the pegs of a jig or loop gauges"
    forms, write_what, form_what = {
        "string": (
            FORMS,
            "write the card: card.html, .svg or .txt; strip, pegs and gauges as .dxf too",
            each,
        ),
        "club": (
            (PACK, *FORMS),
            "write the lists, labels, timetable and cards: pack.html",
            f"all of an afternoon, or {each}",
        ),
        "endless": (
            (POSTS,),
            "write a strip for the two posts: posts.html, .svg or .dxf",
            "where the posts stand, 1:1",
        ),
    }[worksheet.id]
    parser.add_argument("--card", metavar="FILE", type=Path, help=write_what)
    parser.add_argument("--paper", choices=tuple(PAPERS), default="A4", help="what it is printed on")
    parser.add_argument("--form", choices=forms, default=forms[0], help=form_what)
    parser.add_argument("--name", default="", help="whose string or which bow, for the card")
    parser.add_argument("--site", default="", metavar="ADDRESS", help="where the site is, for the links on cards")


def write(worksheet: Worksheet, typed: Mapping[str, str], options: Namespace) -> int:
    """Write cards to the file that was asked for.

    Parameters
    ----------
    worksheet : Worksheet
        One of `CARD_SHEETS`.
    typed : mapping of str to str
        Inputs by field key.
    options : Namespace
        What `add_options` lets a person say, and ``units``.

    Returns
    -------
    int
        The exit code: 0, or 2 for a bad input, with the sentences on stderr.
    """
    kinds = _kinds(options.form)
    if options.card.suffix not in kinds:
        print(f"This is written to a file that ends in {', '.join(kinds)}; got {options.card}", file=sys.stderr)
        return BAD_INPUT
    if options.card.suffix == BOARDS and not can_draw():
        print("Such drawings need the package ezdxf: python3 -m pip install ezdxf", file=sys.stderr)
        return BAD_INPUT
    made = _text(worksheet, typed, options)
    if not isinstance(made, str):
        print("\n".join(made), file=sys.stderr)
        return BAD_INPUT
    options.card.write_text(made, encoding="utf-8")
    return 0


def _kinds(form: str) -> tuple[str, ...]:
    """Return how the name of a file with such a form may end."""
    if form == PACK:
        return (".html",)
    if form == POSTS:
        return (".html", ".svg", BOARDS)
    return (*KINDS, BOARDS) if form in _CUT_FORMS else KINDS


def _text(worksheet: Worksheet, typed: Mapping[str, str], options: Namespace) -> str | list[str]:
    """Return what goes into the file, or what is wrong."""
    if options.form == POSTS:
        return _posts(typed, options)
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
    return _cards(cards, options)


def _cards(cards: Sequence[CardFacts], options: Namespace) -> str | list[str]:
    ending = options.card.suffix
    if options.form in _CUT_FORMS and ending in {BOARDS, ".svg"}:
        boards = [board for each in cards for board in boards_of(each, options.form)]
        return (dxf_text if ending == BOARDS else board_svg)(boards, options.units)
    match ending:
        case ".txt":
            return "\n".join(map(card_text, cards))
        case ".html":
            return card_html(cards, options.paper, options.form)
    pages = card_pages(cards, options.paper, options.form)
    if len(pages) > 1:
        return [f"This takes {len(pages)} pages: write it to a file that ends in .html"]
    return pages[0] + "\n"


def _posts(typed: Mapping[str, str], options: Namespace) -> str | list[str]:
    posts = posts_of(typed, options.units, options.name)
    if not isinstance(posts, Posts):
        return _sentences(posts)
    if options.card.suffix == BOARDS:
        return dxf_text([post_board(posts)], options.units)
    if options.card.suffix == ".html":
        return posts_html(posts, options.paper, options.units)
    return board_svg([post_board(posts)], options.units)


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
