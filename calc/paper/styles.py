"""The page of HTML that cards and lists are printed from, and its styles: so few that a page can name them all."""

from __future__ import annotations

from calc.draw import stylesheet
from calc.draw.cards import PAPERS

_CARDS = """@page{size:PAPER;margin:0}body{margin:0;font-family:sans-serif}
svg.page{display:block;break-after:page}svg.page:last-child{break-after:auto}
@media screen{svg.page{max-width:100%;height:auto}}
"""
_PACK = """
@page{size:PAPER;margin:0}
@page list{size:PAPER;margin:13mm}
body{margin:0;font:11pt/1.35 sans-serif;color:#000;background:#fff}
svg.page{display:block;break-before:page}
section{page:list;break-before:page}
section:first-child{break-before:auto}
h1{font-size:20pt;margin:0 0 4mm}
h2{font-size:14pt;margin:6mm 0 2mm}
p{margin:0 0 2mm}
table{border-collapse:collapse;width:100%}
th,td{border:0.3mm solid #000;padding:1mm 2mm;text-align:left;vertical-align:top}
th{font-weight:bold}
tr,.label{break-inside:avoid}
h2{break-after:avoid}
.sign td{height:9mm;min-width:12mm}
.sign td:first-child{min-width:30mm}
.labels{display:flex;flex-wrap:wrap}
.label{box-sizing:border-box;width:50%;min-height:34mm;padding:3mm 4mm;border:0.3mm dashed #000}
.label b{display:block;font-size:16pt}
.write{display:inline-block;min-width:32mm;border-bottom:0.3mm solid #000;margin:3mm 4mm 3mm 1mm}
.blank{white-space:nowrap}
@media screen{section{max-width:190mm;padding:6mm}svg.page{max-width:100%;height:auto}}
"""
_INK_ON_WHITE = (
    "svg.page{background:#fff;--ink:#000;--quiet:#333;--accent:#000;--ground:#fff;"
    "--bundle-a:#222;--bundle-b:#000;--bundle-c:#000}"
)
"""Cards are printed: black on white, whatever the reader's screen looks like."""


def card_style(paper: str) -> str:
    """Return the style of a page of cards.

    Parameters
    ----------
    paper : str
        A key of `PAPERS`.
    """
    return f"{_CARDS.replace('PAPER', paper)}{stylesheet()}{_INK_ON_WHITE}"


def pack_style(paper: str) -> str:
    """Return the style of all that a club's afternoon needs.

    Parameters
    ----------
    paper : str
        As for `card_style`.
    """
    return f"{_PACK.replace('PAPER', paper)}{stylesheet()}{_INK_ON_WHITE}"


def print_styles() -> tuple[str, ...]:
    """Return every style that a printed page can have; no other stands in one, and none in an attribute."""
    return tuple(style(paper) for style in (card_style, pack_style) for paper in PAPERS)


def page_html(title: str, style: str, body: str) -> str:
    """Return a whole page of HTML.

    Parameters
    ----------
    title : str
        HTML: texts from outside are escaped.
    style : str
        One of `print_styles`.
    body : str
        HTML, as the title.
    """
    return (
        f'<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n<title>{title}</title>\n'
        f"<style>{style}</style>\n</head>\n<body>\n{body}\n</body>\n</html>\n"
    )
