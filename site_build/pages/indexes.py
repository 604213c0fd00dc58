"""Lists of guides and worksheets, each line with a small figure of its own, drawn at the build."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from calc.draw import svg
from calc.draw.figures import figure
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, usual
from site_build.setup.paths import ROOT

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.draw import Drawing

GUIDES = ROOT / "docs/guides"
_LINE = re.compile(r'<li>(?:\s*<p>)?<a href="(?P<name>[\w-]+)(?:/|/index\.html|\.html)">')
_CHOSEN = re.compile(r"^(?:picture|figure): *([\w-]+)$", re.MULTILINE)
_WORDS = re.compile(
    r"<(title|desc|text)\b.*?</\1>\n?|<g class=\"readout-points\".*?</g>|<\w+ class=\"readout-points\"[^>]*/>",
    re.DOTALL,
)
_NAMED = re.compile(r' role="img" aria-labelledby="[^"]*"')


def with_index_figures(html: str, page: str) -> str:
    """Return a page with a small figure before every line that leads to a guide or a worksheet.

    Parameters
    ----------
    html : str
        A page's content.
    page : str
        Its source below ``docs/``; only the two indexes change.
    """
    small = _SMALL.get(page)
    if small is None:
        return html

    def line(found: re.Match[str]) -> str:
        drawn = small(found["name"])
        return f'<li class="pictured-line">{drawn}{found[0][4:]}' if drawn else found[0]

    return _LINE.sub(line, html)


@cache
def _of_worksheet(name: str) -> str:
    """Return the first drawing of a worksheet's usual answer; nothing where it draws none."""
    sheet = catalogue()[name]
    answer = ask(sheet, usual(sheet), "inch")
    if not isinstance(answer, Answer):
        msg = f"worksheet {name} does not answer its usual example"
        raise TypeError(msg)
    drawings = answer.figures("inch")
    return _small(drawings[0], f"index-{name}") if drawings else ""


@cache
def _of_guide(name: str) -> str:
    """Return the figure that a guide's head names as its picture, else that of its first step."""
    found = _CHOSEN.search((GUIDES / f"{name}.md").read_text(encoding="utf-8"))
    if found is None:
        msg = f"guide {name} has no figure"
        raise ValueError(msg)
    return _small(figure(found[1], hand="Z"), f"index-{name}")


_SMALL: dict[str, Callable[[str], str]] = {"worksheets/index.md": _of_worksheet, "guides/index.md": _of_guide}


def _small(drawing: Drawing, prefix: str) -> str:
    """Return a drawing without its words, which the line beside it says."""
    drawn = _NAMED.sub(' aria-hidden="true"', _WORDS.sub("", svg(drawing, prefix=prefix)), count=1)
    return f'<span class="small-figure">{drawn}</span>'
