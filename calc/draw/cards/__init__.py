"""A string on paper: what stands on its card, and the sheets that are printed."""

from calc.draw.cards.card import full_card, pocket_card
from calc.draw.cards.facts import BLANKS, CardFact, CardFacts
from calc.draw.cards.paper import PAPERS, Paper, Placed, cut_lines, page_svg, pocket_places
from calc.draw.cards.strip import LoopGauge, StripMark, gauge_pages, strip_pages

__all__ = [
    "BLANKS",
    "PAPERS",
    "CardFact",
    "CardFacts",
    "LoopGauge",
    "Paper",
    "Placed",
    "StripMark",
    "cut_lines",
    "full_card",
    "gauge_pages",
    "page_svg",
    "pocket_card",
    "pocket_places",
    "strip_pages",
]
