"""The bow on its stringer, to scale, as its loop slides home."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc import units
from calc.draw import FIRM, HAIR, LINE, PHONE, Dim, Drawing, Label, Line, Pen, Polyline
from calc.mechanics.bow import limb_outline
from calc.numerics import Spread
from calc.worksheets.core import shown

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.draw import Shape
    from calc.mechanics.estimate import BowEstimate
    from calc.units import System

_SIDE, _FOOT = 8.0, 9.0


def lifted(bow: BowEstimate, numbers: Mapping[str, Spread | float], system: System) -> Drawing:
    """Return the bow lifted by its grip over a foot on the cord.

    Parameters
    ----------
    bow : BowEstimate
        As told.
    numbers : mapping of str to Spread or float
        The answer's, by row key.
    system : {"inch", "metric"}
        The reader's units.
    """
    bent, lift_m = numbers["bent_to"], numbers["grip_lift"]
    assert isinstance(bent, Spread)
    assert isinstance(lift_m, float)
    half = limb_outline(bow.bow, bent.value)
    scale = (PHONE / 2.0 - _SIDE) / max(x for x, _ in half)
    middle, top = PHONE / 2.0, 30.0
    right = [(middle + x * scale, top + y * scale) for x, y in half]
    belly = (*((2.0 * middle - x, y) for x, y in reversed(right)), *right)
    floor = top + lift_m * scale
    shapes: list[Shape] = [
        Polyline(belly, Pen("ink", 4.0)),
        Polyline((belly[0], (middle - _FOOT, floor), (middle + _FOOT, floor), belly[-1]), Pen("accent", 2.0)),
        Line((_SIDE, floor + 3.0), (PHONE - _SIDE, floor + 3.0), LINE),
        Polyline(((middle - _FOOT, floor - 12.0), (middle + _FOOT, floor - 12.0), (middle + _FOOT, floor - 1.0),
                  (middle - _FOOT, floor - 1.0)), FIRM, "tint", closed=True),
        Dim((middle + 26.0, top), (middle + 26.0, floor), offset=0.0),
        Line((middle, top), (middle + 30.0, top), HAIR),
    ]  # fmt: skip
    lift = units.show(lift_m, "length", system)
    lifted_n, cord_m = numbers["lift_force"], numbers["stringer_length"]
    assert isinstance(lifted_n, Spread)
    assert isinstance(cord_m, Spread)
    force, cord = shown(lifted_n, "force", system), shown(cord_m, "length", system)
    shapes += [
        Label((middle + 32.0, (top + floor) / 2.0 + 5.0), lift, 13.0, bold=True),
        Label((middle, top - 12.0), f"lift {force}", 14.0, "middle", bold=True),
        Label((_SIDE, floor - 6.0), f"cord {cord}", 13.0, bold=True),
        Label((middle, floor + 20.0), "your foot on the cord", 13.0, "middle", "quiet"),
    ]
    return Drawing(
        key="lifted",
        title="The bow on its stringer, as the loop slides home",
        desc=f"A foot stands on a cord of {cord}. The grip is {lift} above it, lifted with {force}. To scale.",
        shapes=tuple(shapes),
    )
