"""What the brace sheet asks: the bow, one string, strings that were on it, forces that were weighed."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem
from calc.geometry.ends import over_bridge
from calc.units import INCH
from calc.worksheets.core import Number, fields, read, tips
from calc.worksheets.string.more import MEASURED_STRINGS, UNBRACED

if TYPE_CHECKING:
    from calc.mechanics.estimate import BowEstimate, ForceRead
    from calc.numerics import Spread

WORK_OUT = "work it out"
_STRING, _WAS, _FORCE = "The string", "Strings that were on this bow", "Forces that were weighed"
_BRIDGES = "Stiff tips with string bridges"
_BRACE = replace(
    fields.BRACE_HEIGHT,
    label="Brace height",
    hint="From the string square to the deepest point of the grip. Leave it empty if you know the string's length.",
    group=_STRING,
    absent=WORK_OUT,
)
_LENGTH = Number(
    key="string_length",
    label="String length",
    hint="On the braced bow, from nock to nock along the string. Leave it empty to be told.",
    group=_STRING,
    example=WORK_OUT,
    absent=WORK_OUT,
    quantity="length",
    low=15 * INCH,
    high=100 * INCH,
)
_TAILS = replace(
    fields.TAIL_LENGTH,
    hint="What is laid into each splice cannot be turned: it narrows what turns can do. 8 in (200 mm) is generous.",
    group=_STRING,
)
_PAIRS = tuple(replace(each, group=_WAS) for each in MEASURED_STRINGS)
_STRAIGHT = tuple(replace(each, group=fields.BOW) for each in UNBRACED)
_WEIGHTS = (
    replace(fields.WEIGHED_FORCE, group=_FORCE),
    replace(fields.WEIGHED_DRAW, group=_FORCE),
    replace(
        fields.DRAW_WEIGHT,
        hint="The pull at the draw length below. Leave it empty if not known: the sheet then works it out.",
        group=_FORCE,
        example=fields.NOT_KNOWN,
        absent=fields.NOT_KNOWN,
    ),
    replace(fields.DRAW_LENGTH, group=_FORCE, example=fields.NOT_KNOWN, absent=fields.NOT_KNOWN),
    replace(fields.DRAW_FROM, group=_FORCE),
)
GROUPS = (fields.BOW, _STRING, _WAS, _FORCE, _BRIDGES)
FIELDS = (
    fields.NOCK_TO_NOCK, fields.HANDLE_LENGTH, fields.LIMB_SHAPE, *_STRAIGHT, _BRACE, _LENGTH, _TAILS, *_PAIRS,
    *_WEIGHTS, *(replace(each, group=_BRIDGES) for each in tips.BRIDGES),
)  # fmt: skip
_LEAST_WAY_M = 4 * INCH


class BraceInputs(read.BowInputs):
    """What was read, in SI, by field key."""

    brace_height: float | None
    string_length: float | None
    tail_length: float
    bridge_from_nock: float | None
    bridge_height: float | None


def bridges(values: BraceInputs, string_m: Spread) -> dict[str, Spread | float]:
    """Return the string on a bow whose bow and string were told from bridge to bridge; nothing without bridges.

    Parameters
    ----------
    values : BraceInputs
        As read.
    string_m : Spread
        From bridge to bridge, braced. [m]
    """
    if values.bridge_from_nock is None:
        return {}
    way_m = over_bridge(values.bridge_from_nock, values.bridge_height or 0.0)
    return {"bridge_way": way_m, "string_whole": string_m.shifted(2.0 * way_m)}


def bow(values: BraceInputs) -> BowEstimate:
    """Return the bow by its measures; a draw weight without its draw length tells nothing.

    Parameters
    ----------
    values : BraceInputs
        As read.

    Raises
    ------
    DomainError
        As `BowEstimate`.
    """
    found = read.bow_of(values)
    if found.draw_m is None:
        return replace(found, draw_m=values.weighed_draw, draw_weight_n=None)
    return found


def far_enough(found: BowEstimate, forces: tuple[ForceRead, ...], brace_m: float) -> None:
    """Refuse draws so close to brace that a tape hardly tells them from it.

    Parameters
    ----------
    found : BowEstimate
        With its full draw.
    forces : tuple of ForceRead
        Each with its draw.
    brace_m : float
        Brace height. [m]

    Raises
    ------
    DomainError
        ``pair`` with reason ``draw_short``.
    """
    told = (("draw_length", found.draw_m),) if found.draw_weight_n is not None or forces else ()
    for field, draw_m in (*(("weighed_draw", each.draw_m) for each in forces), *told):
        if draw_m is not None and draw_m < brace_m + _LEAST_WAY_M:
            raise DomainError(Problem(field=field, code="pair", other="brace_height", reason="draw_short"))
