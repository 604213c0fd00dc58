"""Marks, pegs, posts and gauges as a drawing for who cuts boards: DXF or SVG, in millimetres and true size."""

from __future__ import annotations

import importlib
import importlib.util
from dataclasses import dataclass
from io import StringIO
from typing import TYPE_CHECKING, Literal, TypeAlias

from calc.data import practice
from calc.draw import escaped
from calc.paper.strips import bundle_marks, gauges_of, peg_marks
from calc.units import INCH

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.draw.cards import CardFacts
    from calc.paper.posts import Posts
    from calc.units import System

BoardForm: TypeAlias = Literal["strip", "pegs", "gauges"]
_TALL_M = 0.025
_EDGE_M = 0.012
"""Board left beyond holes and marks."""
_WORDS_MM, _GAP_MM = 3.0, 1.0
_MILLIMETRES = 4
"""The drawing's unit, as its format numbers them."""


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole to drill.

    Attributes
    ----------
    x_m, y_m : float
        Its middle, from the board's lower left corner. [m]
    across_m : float
        [m]
    """

    x_m: float
    y_m: float
    across_m: float


@dataclass(frozen=True, slots=True)
class Board:
    """A board to cut.

    Attributes
    ----------
    words : str
        What it is for.
    long_m, tall_m : float
        [m]
    marks : tuple of (float, str)
        Lines across it: how far from its left end, and what is there. [m]
    holes : tuple of Hole
    """

    words: str
    long_m: float
    tall_m: float
    marks: tuple[tuple[float, str], ...]
    holes: tuple[Hole, ...] = ()


def boards_of(facts: CardFacts, form: BoardForm) -> tuple[Board, ...]:
    """Return the boards for a string.

    Parameters
    ----------
    facts : CardFacts
    form : {"strip", "pegs", "gauges"}
        As the printed strips: the marks of a bundle, the pegs that step its strands, gauges for loops.
    """
    match form:
        case "strip":
            marks = tuple((each.at_m, each.words) for each in bundle_marks(facts))
            return (Board(f"Marks of one bundle, {facts.name}".rstrip(", "), marks[-1][0], _TALL_M, marks),)
        case "pegs":
            return (_pegs(facts),)
        case "gauges":
            return tuple(
                Board(
                    f"{each.words}: mark off {each.flat_text}, plied {each.plied_text} to the line",
                    each.flat_m,
                    _TALL_M,
                    ((each.plied_m, ""),),
                )
                for each in gauges_of(facts)
            )


def _pegs(facts: CardFacts) -> Board:
    """Return the board whose pegs stand beyond the marks, their sides on the lines, each beside the one before."""
    marks = peg_marks(facts)
    across_m, beside_m = (practice(name).spread.value for name in ("peg_thickness", "peg_beside"))
    count = len(marks) // 2
    tall_m = (count - 1) * beside_m + across_m + 2.0 * _EDGE_M
    left_m = across_m + _EDGE_M
    holes = []
    for index, each in enumerate(marks):
        side = -1.0 if index < count else 1.0
        y_m = tall_m - _EDGE_M - across_m / 2.0 - (index % count) * beside_m
        holes.append(Hole(left_m + each.at_m + side * across_m / 2.0, y_m, across_m))
    return Board(
        f"Pegs for one bundle, {facts.name}".rstrip(", "),
        left_m + marks[-1].at_m + left_m,
        tall_m,
        tuple((left_m + each.at_m, each.words) for each in marks),
        tuple(holes),
    )


def post_board(posts: Posts) -> Board:
    """Return the board for the two posts of an endless string.

    Parameters
    ----------
    posts : Posts
    """
    first_m = _EDGE_M + posts.across_m / 2.0
    tall_m = posts.across_m + 2.0 * _EDGE_M
    middles = (first_m, first_m + posts.centres_m)
    return Board(
        posts.words,
        middles[1] + first_m,
        tall_m,
        tuple((each, "middle of a post") for each in middles),
        tuple(Hole(each, tall_m / 2.0, posts.across_m) for each in middles),
    )


def _bar(system: System) -> tuple[float, str]:
    """Return how long the line is that proves a drawing's size [mm], and the words beside it."""
    bar_mm, words = (4.0 * INCH * 1e3, "4 in") if system == "inch" else (100.0, "100 mm")
    return bar_mm, f"{words}: measure this line, or all is wrong"


def board_svg(boards: Sequence[Board], system: System) -> str:
    """Return boards as one SVG drawing, one below the other, with a line that proves its size.

    Parameters
    ----------
    boards : sequence of Board
    system : {"inch", "metric"}
        As for `dxf_text`.

    Returns
    -------
    str
        As wide and as tall as the boards are; one unit is a millimetre. Groups as the layers of `dxf_text`.
    """
    parts: dict[str, list[str]] = {"cut": [], "holes": [], "marks": [], "words": []}

    def words(text: str, x_mm: float, y_mm: float) -> None:
        parts["words"].append(f'<text x="{x_mm:.3f}" y="{y_mm:.3f}">{escaped(text)}</text>')

    bar_mm, bar_words = _bar(system)
    words(bar_words, 0.0, _WORDS_MM)
    y_mm = 2.0 * _WORDS_MM
    parts["marks"].append(f'<path d="M0 {y_mm:.3f}h{bar_mm:.3f}"/>')
    for board in boards:
        y_mm += 3.0 * _WORDS_MM
        words(board.words, 0.0, y_mm - _GAP_MM)
        long_mm, tall_mm = board.long_m * 1e3, board.tall_m * 1e3
        parts["cut"].append(f'<rect x="0" y="{y_mm:.3f}" width="{long_mm:.3f}" height="{tall_mm:.3f}"/>')
        for at_m, text in board.marks:
            parts["marks"].append(f'<path d="M{at_m * 1e3:.3f} {y_mm:.3f}v{tall_mm:.3f}"/>')
            if text:
                words(text, at_m * 1e3 + _GAP_MM, y_mm + tall_mm - _GAP_MM)
        for hole in board.holes:
            x, y, r = hole.x_m * 1e3, y_mm + tall_mm - hole.y_m * 1e3, hole.across_m * 500.0
            parts["holes"].append(f'<circle cx="{x:.3f}" cy="{y:.3f}" r="{r:.3f}"/>')
        y_mm += tall_mm
    wide_mm = max(bar_mm, *(each.long_m * 1e3 for each in boards)) + _EDGE_M * 1e3
    inks = {"cut": "#c00", "holes": "#c00", "marks": "#00c", "words": "#666"}
    groups = "\n".join(
        f'<g id="{name}" {"fill" if name == "words" else "stroke"}="{inks[name]}">{"".join(drawn)}</g>'
        for name, drawn in parts.items()
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide_mm:.3f}mm" height="{y_mm + _GAP_MM:.3f}mm" '
        f'viewBox="-1 0 {wide_mm:.3f} {y_mm + _GAP_MM:.3f}" fill="none" stroke-width="0.2" font-family="sans-serif" '
        f'font-size="{_WORDS_MM:g}">\n{groups}\n</svg>\n'
    )


def can_draw() -> bool:
    """Return whether the package ``ezdxf`` is there, which writes such drawings."""
    return importlib.util.find_spec("ezdxf") is not None


def dxf_text(boards: Sequence[Board], system: System) -> str:
    """Return boards as a DXF drawing, one below the other, with a line that proves its size.

    Parameters
    ----------
    boards : sequence of Board
    system : {"inch", "metric"}
        Whether that line is 4 in or 100 mm long. The drawing is in millimetres.

    Returns
    -------
    str
        Layers ``CUT`` (outlines), ``HOLES``, ``MARKS`` (lines to engrave) and ``WORDS``.
    """
    document = importlib.import_module("ezdxf").new("R2010", units=_MILLIMETRES)
    for name, colour in (("CUT", 1), ("HOLES", 1), ("MARKS", 5), ("WORDS", 8)):
        document.layers.add(name, color=colour)
    space = document.modelspace()

    def line(x_mm: float, y_mm: float, to: tuple[float, float], layer: str) -> None:
        space.add_line((x_mm, y_mm), to, dxfattribs={"layer": layer})

    def words(text: str, x_mm: float, y_mm: float) -> None:
        plain = text.replace("\u00a0", " ")
        space.add_text(plain, height=_WORDS_MM, dxfattribs={"layer": "WORDS"}).set_placement((x_mm, y_mm))

    bar_mm, bar_words = _bar(system)
    line(0.0, 0.0, (bar_mm, 0.0), "WORDS")
    words(bar_words, 0.0, _GAP_MM)
    y_mm = -2.0 * _WORDS_MM
    for board in boards:
        words(board.words, 0.0, y_mm)
        top_mm, long_mm = y_mm - _WORDS_MM, board.long_m * 1e3
        y_mm = top_mm - board.tall_m * 1e3
        corners = ((0.0, y_mm), (long_mm, y_mm), (long_mm, top_mm), (0.0, top_mm))
        space.add_lwpolyline(corners, close=True, dxfattribs={"layer": "CUT"})
        for at_m, text in board.marks:
            line(at_m * 1e3, y_mm, (at_m * 1e3, top_mm), "MARKS")
            if text:
                words(text, at_m * 1e3 + _GAP_MM, y_mm + _GAP_MM)
        for hole in board.holes:
            middle = (hole.x_m * 1e3, y_mm + hole.y_m * 1e3)
            space.add_circle(middle, hole.across_m * 500.0, dxfattribs={"layer": "HOLES"})
        y_mm -= 3.0 * _WORDS_MM
    stream = StringIO()
    document.write(stream)
    return stream.getvalue()
