"""The drawings of an endless string: the posts to scale, the three stages, its length against turns."""

from __future__ import annotations

from math import pi
from typing import TYPE_CHECKING

from calc import units
from calc.draw import LINE, PHONE, Arc, Circle, Dim, Drawing, Label, Path, Pen, To
from calc.draw.charts import Axis, Limit, Marker, Series, line_chart
from calc.draw.string import endless_posts

if TYPE_CHECKING:
    from calc.draw import Shape
    from calc.making.string import Wound
    from calc.units import System

_EDGE = 14.0
_SMALL, _SIZE = 12.6, 13.0
_STEPS = 16
_STRAND = Pen("a", 1.5)
_SERVED = Pen("accent", 4.0, cap="butt")
_BOUND = Pen("ink", 4.0, cap="butt")


def drawings(made: Wound, system: System) -> tuple[Drawing, ...]:
    """Return the drawings, labelled in the reader's units.

    Parameters
    ----------
    made : Wound
        As worked out.
    system : {"inch", "metric"}
        The reader's units.
    """
    figures = made.figures
    upper, lower = (units.show(figures[f"loop_served_{end}"].value, "length", system) for end in ("upper", "lower"))
    stages = endless_posts(
        made.winding.wraps,
        spacing_text=units.show(figures["post_spacing"].value, "length", system),
        serve_text=f"{upper} for the upper loop, {lower} for the lower",
        bound_text=units.show(made.causes["bound"].value, "length", system),
        wraps_text=f"{made.winding.wraps} times" if made.winding.wraps > 1 else "once",
    )
    return _posts(made, system), stages, _chart(made, system)


def _posts(made: Wound, system: System) -> Drawing:
    """Draw the wound posts to scale, with what will be served at each end."""
    outer_m = made.figures["post_spacing"].value
    scale = (PHONE - 2.0 * _EDGE) / outer_m
    r = made.winding.post_m * scale / 2.0
    left, right = _EDGE + r, PHONE - _EDGE - r
    wound = (
        To((right, -r)), Arc((right, r), r, clockwise=True), To((left, r)), Arc((left, -r), r, clockwise=True)
    )  # fmt: skip
    text = units.show(outer_m, "length", system)
    post = units.show(made.winding.post_m, "thickness", system)
    binding = units.show(made.causes["bound"].value, "length", system)
    shapes: list[Shape] = [
        Path((left, -r), wound, _STRAND),
        *(Circle((x, 0.0), max(r - 1.0, 1.0), LINE, "tint") for x in (left, right)),
    ]
    bound = made.causes["bound"].value * scale
    for x, way, end in ((left, 1.0, "upper"), (right, -1.0, "lower")):
        half = made.figures[f"loop_served_{end}"].value * scale / 2.0
        near = x + way * max(0.0, half - pi * r / 2.0)
        far = near + way * bound
        length = units.show(made.figures[f"loop_served_{end}"].value, "length", system)
        tall = min(r, half)
        shapes += [
            Path((near, -tall), (To((x, -tall)), Arc((x, tall), tall, clockwise=way < 0.0), To((near, tall))), _SERVED),
            *(Path((near, side * r), (To((far, side * r)),), _BOUND) for side in (-1.0, 1.0)),
            Label((_EDGE if way > 0.0 else PHONE - _EDGE, r + 20.0), f"{end} loop {length}", _SMALL,
                  "start" if way > 0.0 else "end", "quiet"),
        ]  # fmt: skip
    shapes.append(Label((PHONE / 2.0, r + 37.0), f"bind {binding}", _SMALL, "middle", "quiet"))
    shapes.append(Dim((_EDGE, 0.0), (PHONE - _EDGE, 0.0), f"{text}, outer side to outer side", -(r + 16.0), size=_SIZE))
    return Drawing(
        key="scale",
        title="The posts to scale",
        desc=f"Posts {post} across stand {text} apart, outer side to outer side. Round them lie the served loops, "
        f"beside them {binding} of binding.",
        shapes=tuple(shapes),
    )


def _chart(made: Wound, system: System) -> Drawing:
    """Draw how twist shortens the string."""
    figures = made.figures
    most, longest, shortest = (figures[key].value for key in ("turns_most", "string_longest", "string_shortest"))
    per_turn = (longest - shortest) / most**2
    unit = 0.0254 if system == "inch" else 1e-3
    top = 1.15 * most
    counts = [top * step / _STEPS for step in range(_STEPS + 1)]
    lengths = [(longest - per_turn * count**2) / unit for count in counts]
    turns, string = figures["turns_body"].value, made.winding.string_m
    texts = tuple(
        (f"{units.show(count, 'turns', system)} turns", units.show(length * unit, "length", system))
        for count, length in zip(counts, lengths, strict=True)
    )
    shown = units.show(string, "length", system)
    return line_chart(
        (Series("", tuple(zip(counts, lengths, strict=True)), texts=texts),),
        Axis("turns", 0.0, top),
        Axis(f"string on the bow, {units.unit_label('length', system)}", min(lengths), max(lengths)),
        key="twist",
        title="Turns against length",
        desc=f"Twist takes little at first and more with every turn: {shown} at {units.show(turns, 'turns', system)} "
        f"turns; {units.show(shortest, 'length', system)} at {units.show(most, 'turns', system)}, the most of use.",
        limits=(Limit("kinks when slack", most),),
        markers=(Marker(f"{units.show(turns, 'turns', system)} turns: {shown}", (turns, string / unit)),),
    )
