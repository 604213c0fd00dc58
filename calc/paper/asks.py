"""What a page asks for to print: cards of strings, or all that a club's afternoon needs."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.draw.cards import PAPERS, CardFacts
from calc.paper.cards import FORMS, card_facts, card_html
from calc.paper.club_pack import pack_html
from calc.paper.posts import Posts, posts_html, posts_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.paper.cards import Form
    from calc.units import System
    from calc.worksheets.core import Complaint

PACK, POSTS = "pack", "posts"
"""The forms of a club's whole afternoon, and of the strip for an endless string's posts."""


def asked_html(message: Mapping[str, Any]) -> str | tuple[Complaint, ...]:
    """Return what a page wants to print, as HTML.

    Parameters
    ----------
    message : mapping
        ``system``, ``paper``, ``form``, and ``strings``: for each its ``inputs``, ``name``, ``link`` and ``code``,
        whose rows are texts of 1 for dark and 0 for light. For the form ``pack`` also ``inputs`` of the club list. The
        form ``posts`` takes the ``inputs`` of one endless string there.

    Returns
    -------
    str or tuple of Complaint
        Complaints about the first string that cannot be planned.
    """
    system: System = "metric" if message["system"] == "metric" else "inch"
    paper = message["paper"] if message["paper"] in PAPERS else "A4"
    if message["form"] == POSTS:
        (wound,) = message["strings"]
        posts = posts_of(_texts(wound), system, str(wound.get("name", "")))
        return posts_html(posts, paper, system) if isinstance(posts, Posts) else posts
    cards = []
    for each in message["strings"]:
        code = tuple(tuple(module == "1" for module in row) for row in each.get("code", ()))
        told = {key: str(each.get(key, "")) for key in ("name", "link")}
        made = card_facts(_texts(each), system, code=code, **told)
        if not isinstance(made, CardFacts):
            return made
        cards.append(made)
    if message["form"] == PACK:
        return pack_html(_texts(message), system, cards, paper)
    form: Form = next((each for each in FORMS if each == message["form"]), "page")
    return card_html(cards, paper, form)


def _texts(told: Mapping[str, Any]) -> dict[str, str]:
    return {key: str(text) for key, text in told["inputs"].items()}
