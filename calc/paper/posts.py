"""Where the two posts of an endless string stand, on a strip in true size."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.draw import escaped
from calc.draw.cards import PAPERS, StripMark, strip_pages
from calc.paper.cards import svg_pages
from calc.paper.styles import card_style, page_html
from calc.plain_text import whole_measures
from calc.share import clean_name
from calc.worksheets import one
from calc.worksheets.core import Answer, ask, by_key, show_row, usual

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.units import System
    from calc.worksheets.core import Complaint


@dataclass(frozen=True, slots=True)
class Posts:
    """The two posts that an endless string is wound round.

    Attributes
    ----------
    words : str
        What they are for.
    across_m, centres_m : float, > 0
        Diameter of each; from middle to middle. [m]
    wraps_text, spacing_text : str
        Times round, and how far they stand apart over their outer sides, as printed.
    """

    words: str
    across_m: float
    centres_m: float
    wraps_text: str
    spacing_text: str


def posts_of(inputs: Mapping[str, str], system: System, name: str = "") -> Posts | tuple[Complaint, ...]:
    """Return the posts for an endless string.

    Parameters
    ----------
    inputs : mapping of str to str
        Typed into *An endless string*, by field key; what is left out is as usual.
    system : {"inch", "metric"}
        Units of bare numbers and of the words.
    name : str
        Whose string or which bow; only what a link carries of it stands there.

    Returns
    -------
    Posts or tuple of Complaint
    """
    sheet = one("endless")
    answer = ask(sheet, usual(sheet, inputs), system)
    if not isinstance(answer, Answer):
        return answer
    rows = by_key(answer.rows)
    named = clean_name(name)
    return Posts(
        words="Posts of an endless string" + (f", {named}" if named else ""),
        across_m=rows["post_diameter"].spread.value,
        centres_m=rows["post_centres"].spread.value,
        wraps_text=show_row(rows["wraps"], system),
        spacing_text=whole_measures(show_row(rows["post_spacing"], system)),
    )


def post_pages(posts: Posts, paper: str, system: System) -> tuple[str, ...]:
    """Return where the two posts of an endless string stand, on a strip in true size: one SVG element a page.

    Parameters
    ----------
    posts : Posts
    paper : {"A4", "Letter"}
    system : {"inch", "metric"}
        Of the tape along it.
    """
    half_m = posts.across_m / 2.0
    marks = (
        StripMark(0.0, ""),
        StripMark(half_m, "M", over=True),
        StripMark(half_m + posts.centres_m, "M", over=True),
        StripMark(posts.across_m + posts.centres_m, ""),
    )
    how = (
        f"{posts.words}, {posts.spacing_text} over their outer sides, from end to end of this strip. Set the middle of "
        f"each post on an M. Wind {posts.wraps_text} times round"
    )
    return svg_pages(strip_pages(marks, PAPERS[paper], system=system, title=how), paper, posts.words)


def posts_html(posts: Posts, paper: str, system: System) -> str:
    """Return that strip as one whole page of HTML, as `card_html` does.

    Parameters
    ----------
    posts, paper, system
        As for `post_pages`.
    """
    return page_html(escaped(posts.words), card_style(paper), "\n".join(post_pages(posts, paper, system)))
