"""What the brace sheet asks: the bow, one string, strings that were on it, forces that were weighed."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, cast

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.mechanics.estimate import Pair, Weights
from calc.units import INCH
from calc.worksheets.core import Number, fields

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.worksheets.core import Value

WORK_OUT = "work it out"
_STRING, _WAS, _FORCE = "The string", "Strings that were on this bow", "Forces that were weighed"
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
_NOT_MEASURED = "not measured"
_PAIR_STRING = replace(
    _LENGTH,
    key="measured_string",
    label="A string you measured",
    hint="Nock to nock along the string, while it was on the braced bow. The sheet then learns what your bow does.",
    group=_WAS,
    example=_NOT_MEASURED,
    absent=_NOT_MEASURED,
)
_PAIR_BRACE = replace(
    _BRACE,
    key="measured_brace",
    label="Brace height it gave",
    hint="Measured at the same time.",
    group=_WAS,
    example=_NOT_MEASURED,
    absent=_NOT_MEASURED,
)
_PAIRS = (
    _PAIR_STRING,
    _PAIR_BRACE,
    replace(_PAIR_STRING, key="measured_string_2", label="Another string", hint="The more it differs, the better."),
    replace(_PAIR_BRACE, key="measured_brace_2", label="Brace height that one gave"),
)
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
GROUPS = (fields.BOW, _STRING, _WAS, _FORCE)
FIELDS = (
    fields.NOCK_TO_NOCK, fields.HANDLE_LENGTH, fields.LIMB_SHAPE, _BRACE, _LENGTH, _TAILS, *_PAIRS, *_WEIGHTS,
)  # fmt: skip
_LEAST_WAY_M = 4 * INCH


def pairs(values: Mapping[str, Value]) -> tuple[Pair, ...]:
    """Return the strings that were measured."""
    found: list[Pair] = []
    for mark in ("", "_2"):
        string_m, brace_m = (cast("float | None", values[f"measured_{name}{mark}"]) for name in ("string", "brace"))
        if (string_m is None) != (brace_m is None):
            lacking = f"measured_{'string' if string_m is None else 'brace'}{mark}"
            raise DomainError(Problem(field=lacking, code="missing", reason="half_pair"))
        if string_m is not None and brace_m is not None:
            if mark and not found:
                raise DomainError(Problem(field="measured_string", code="missing", reason="no_first"))
            found.append(Pair(string_m, brace_m))
    return tuple(found)


def weights(values: Mapping[str, Value]) -> Weights | None:
    """Return the forces that were weighed or told; a draw weight without its draw length tells nothing.

    Raises
    ------
    DomainError
        ``missing`` with reason ``half_weighed`` for a force without its draw, or a draw without its force.
    """
    force_n, at_m = (cast("float | None", values[f"weighed_{name}"]) for name in ("force", "draw"))
    if (force_n is None) != (at_m is None):
        lacking = f"weighed_{'force' if force_n is None else 'draw'}"
        raise DomainError(Problem(field=lacking, code="missing", reason="half_weighed"))
    told_n, draw_m = (cast("float | None", values[f"draw_{name}"]) for name in ("weight", "length"))
    if draw_m is None:
        return None if at_m is None else Weights(draw_m=at_m, at_m=at_m, force_n=force_n)
    if told_n is None and force_n is None:
        return None
    if values["draw_from"] == "dealer":
        draw_m -= practice("draw_dealers").spread.value
    return Weights(draw_m=draw_m, told_n=told_n, at_m=at_m, force_n=force_n)


def far_enough(found: Weights | None, brace_m: float) -> None:
    """Refuse draws so close to brace that a tape hardly tells them from it.

    Raises
    ------
    DomainError
        ``pair`` with reason ``draw_short``.
    """
    if found is None:
        return
    for field, draw_m in (("weighed_draw", found.at_m), ("draw_length", found.draw_m)):
        if draw_m is not None and draw_m < brace_m + _LEAST_WAY_M:
            raise DomainError(Problem(field=field, code="pair", other="brace_height", reason="draw_short"))
