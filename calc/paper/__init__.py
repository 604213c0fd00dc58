"""What is printed: cards of strings, strips of marks, and all that a club's afternoon needs."""

from calc.paper.asks import asked_html
from calc.paper.cards import FORMS, Form, card_facts, card_html, card_pages, card_text
from calc.paper.club_pack import pack_html
from calc.paper.styles import print_styles
from calc.paper.terminal import CARD_SHEETS, add_options, square_code, write

__all__ = [
    "CARD_SHEETS",
    "FORMS",
    "Form",
    "add_options",
    "asked_html",
    "card_facts",
    "card_html",
    "card_pages",
    "card_text",
    "pack_html",
    "print_styles",
    "square_code",
    "write",
]
