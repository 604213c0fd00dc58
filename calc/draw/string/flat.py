"""One bundle of strands laid flat beside a tape, before any twist: where to mark it, where its tails will lie."""

from __future__ import annotations

from itertools import accumulate
from typing import TYPE_CHECKING

from calc.draw import PHONE, Drawing, Label, Scale, wrapped
from calc.draw.string.row import EDGE, SMALL, Flat, FlatZone, draw_row
from calc.draw.string.strands import Strands
from calc.draw.string.tails import Tail

if TYPE_CHECKING:
    from calc.draw import Shape
    from calc.units import System

_BETWEEN_ROWS = 16.0
_LINE = 16.0
_INSET = 9.0


def string_layout(
    zones: tuple[FlatZone, ...],
    step_m: float,
    strands: int,
    splice_m: float,
    *,
    system: System = "inch",
    step_text: str = "",
    note: str = "",
    rows: int = 2,
    width: float = PHONE,
    caption: bool = True,
) -> Drawing:
    """Return a drawing of one bundle laid flat, to scale along its length.

    Parameters
    ----------
    zones : tuple of FlatZone
        Tail, loop, body, loop, tail.
    step_m : float, >= 0
        Between neighbouring strand ends. [m]
    strands : int, >= 1
        In the bundle.
    splice_m : float, >= 0
        How far the longest strand of each tail lies back along the body. [m]
    system : {"inch", "metric"}
        Of the tape alongside.
    step_text : str
        The step as printed; empty to leave it unsaid.
    note : str
        A sentence to put first beneath.
    rows : int, >= 1
        Rows the string is folded into, all to one scale.
    width : float
        Of the drawing, in drawing units.
    caption : bool
        Whether it is said beneath how to read it.

    Notes
    -----
    Thickness is not to scale. Strand ``k`` of ``n`` runs from ``k x step`` to ``total - (n - 1 - k) x step``.
    """
    edges_m = (0.0, *accumulate(each.length_m for each in zones))
    bundle = Strands(count=strands, step_m=step_m, total_m=edges_m[-1])
    flat = Flat(
        zones=zones,
        edges_m=edges_m,
        strands=bundle,
        tails=_tails(zones, edges_m, bundle, splice_m),
        system=system,
        width=width,
    )
    shapes, bottom = _rows(flat, rows)
    if caption:
        shapes += _caption(bottom, note, step_text, width)
    said = ", ".join(f"{each.name.lower()} {each.length_text}" for each in zones)
    marks = ", ".join(each.mark_text for each in zones)
    return Drawing(
        key="layout",
        title="One bundle laid flat, with its marks",
        desc=f"From left to right: {said}. Marks at 0, {marks}. Length is to scale, thickness is not.",
        shapes=tuple(shapes),
        width=width,
    )


def _tails(
    zones: tuple[FlatZone, ...], edges_m: tuple[float, ...], bundle: Strands, splice_m: float
) -> tuple[Tail, ...]:
    kinds = [each.kind for each in zones]
    if "body" not in kinds or splice_m <= 0.0:
        return ()
    body, shortest_m = kinds.index("body"), max(0.0, splice_m - bundle.taper_m)
    ends = ((body, body - 1, 1.0), (body + 1, body + 2, -1.0))
    looped = (body > 0 and kinds[body - 1] == "loop", kinds[body + 1 : body + 2] == ["loop"])
    return tuple(
        Tail(inner_m=edges_m[inner], outer_m=edges_m[outer], way=way, longest_m=splice_m, shortest_m=shortest_m)
        for (inner, outer, way), loop in zip(ends, looped, strict=True)
        if loop
    )


def _rows(flat: Flat, rows: int) -> tuple[list[Shape], float]:
    each_m = flat.edges_m[-1] / rows
    per_m = (flat.width - 2.0 * _INSET) / each_m
    shapes: list[Shape] = []
    top = 0.0
    for row in range(rows):
        end_m = flat.edges_m[-1] if row == rows - 1 else (row + 1) * each_m
        scale = Scale(row * each_m, end_m, _INSET, per_m)
        drawn, top = draw_row(flat, scale, row, top)
        shapes += drawn
        top += _BETWEEN_ROWS
    return shapes, top - _BETWEEN_ROWS


def _caption(bottom: float, note: str, step_text: str, width: float) -> list[Shape]:
    """Say how to read it."""
    words = "Length is to scale, thickness is not. Every mark is measured from the left end."
    if note:
        words = f"{note} {words}"
    if step_text:
        words += f" Strand ends are stepped {step_text} apart."
    return [
        Label((EDGE, bottom + (index + 1) * _LINE), line, SMALL, "start", "quiet")
        for index, line in enumerate(wrapped(words, width - 2.0 * EDGE, SMALL))
    ]
