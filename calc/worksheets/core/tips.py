"""Limb tips as text, `round 1/2 in`, `flat 5/8 x 3/8 in`, `pipe 3/4`, word last or none; and what limbs weigh."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, Literal, TypeAlias

from calc import units
from calc.errors import DomainError, Problem
from calc.geometry.ends import FlatTip, RoundTip, is_pipe, pipe
from calc.making.strands import limb_of as limb_by
from calc.mechanics.estimate import BowEstimate
from calc.numerics import Spread
from calc.worksheets.core import cautions, fields
from calc.worksheets.core.schema import Choice, Inputs, Number, Option, Sentence

if TYPE_CHECKING:
    from calc.data import Limbs
    from calc.geometry.ends import Section
    from calc.making.string import Fit
    from calc.mechanics.estimate import CordEstimate
    from calc.units import System
    from calc.worksheets.core.schema import Tip

SENTENCES = {
    "tip": "Say round, flat or pipe and the size, like round 1/2 in, flat 5/8 x 3/8 in or pipe 3/4",
    "tip_size": "Enter the size of the tip, like round 1/2 in",
    "tip_round": "A round tip has one measure, like round 1/2 in",
    "tip_flat": "A flat tip has two measures, like flat 5/8 x 3/8 in",
    "pipe": "This pipe size is not in the table. Use one like pipe 3/4 or pipe 1, or measure it: round 27 mm",
}
"""What a worksheet that asks a tip says of one it cannot read."""
LIMB_SENTENCES = {"handle_long": "Stiff handle must be shorter than the bow, nock to nock"}
LIMB_BLAMES = {"handle_length_m": "handle_length", "nock_to_nock_m": "nock_to_nock"}
"""What a worksheet says that asks for `LIMB_WEIGHT`, and which fields are at fault."""
_TIP = re.compile(r"(round|flat|pipe)\b[\s:]*(.*)|([\d½¼¾⅛⅜⅝⅞.].*?)\s*\b(round|flat|pipe)?", re.IGNORECASE | re.DOTALL)
_BY = re.compile(r"\s*(?:[x×*]|\bby\b)\s*", re.IGNORECASE)
_UNIT = re.compile(r"[a-z″\"”'’′][a-z.]*\s*$", re.IGNORECASE)
_PARTS = {"round": 1, "flat": 2}


class EndInputs(Inputs):
    """What sheets read of both ends of the bow, in SI."""

    tip_upper: Section | None
    tip_lower: Section | None
    loop_fit_upper: Fit
    loop_fit_lower: Fit


def read_tip(each: Tip, typed: str, system: System) -> Section:
    """Return the section that was typed.

    Parameters
    ----------
    each : Tip
        The field.
    typed : str
        Kind and measures, like `round 1/2 in`; the kind may follow or be left out.
    system : System
        What bare numbers mean.

    Raises
    ------
    DomainError
        ``choice`` for an unknown shape or pipe size, ``missing`` or ``number`` for its measures, and all
        that `calc.units.read` raises.
    """
    kind, size = _split(each, typed)
    if kind == "pipe":
        try:
            return RoundTip(pipe(size))
        except DomainError as error:
            raise DomainError(Problem(field=each.key, code="choice", reason="pipe")) from error
    lengths = [
        units.read(each.key, part, "length", low=each.low, high=each.high, system=system)
        for part in _measures(each, kind, size)
    ]
    return RoundTip(lengths[0]) if kind == "round" else FlatTip(max(lengths), min(lengths))


def convert_tip(each: Tip, typed: str, to: System) -> str:
    """Return a section's measures in the other units; a pipe keeps its nominal size.

    Parameters
    ----------
    each, typed
        As for `read_tip`.
    to : System
        The other units.
    """
    kind, size = _split(each, typed)
    if kind == "pipe":
        return typed
    shown = [
        units.convert_text(part, "length", low=each.low, high=each.high, to=to) for part in _measures(each, kind, size)
    ]
    return f"{kind} {' × '.join(shown)}"


def parts_of(each: Tip, typed: str) -> tuple[str, list[str]]:
    """Return the kind of a section and its measures as typed, each with the unit that was typed for it.

    Parameters
    ----------
    each, typed
        As for `read_tip`.

    Raises
    ------
    DomainError
        As `read_tip`, but not for what the measures themselves say.
    """
    kind, size = _split(each, typed)
    return kind, [size] if kind == "pipe" else _measures(each, kind, size)


def _split(each: Tip, typed: str) -> tuple[str, str]:
    found = _TIP.fullmatch(typed.strip())
    if not found:
        raise DomainError(Problem(field=each.key, code="choice", reason="tip"))
    size = (found[2] or found[3] or "").strip()
    if not size:
        raise DomainError(Problem(field=each.key, code="missing", reason="tip_size"))
    kind = found[1] or found[4] or ("flat" if _BY.search(size) else "round")
    return kind.casefold(), size


def _measures(each: Tip, kind: str, size: str) -> list[str]:
    parts = with_units(size)
    if len(parts) != _PARTS[kind]:
        raise DomainError(Problem(field=each.key, code="number", reason=f"tip_{kind}"))
    return parts


def with_units(size: str) -> list[str]:
    """Return the measures of `5/8 x 3/8 in` with the last unit given to those that have none.

    Parameters
    ----------
    size : str
        Measures parted by ``x``, ``×``, ``*`` or ``by``.

    Examples
    --------
    >>> with_units("5/8 x 3/8 in"), with_units("16 mm × 1/2 in"), with_units("12")
    (['5/8 in', '3/8 in'], ['16 mm', '1/2 in'], ['12'])
    """
    parts = [part.strip() for part in _BY.split(size)]
    unit = _UNIT.search(parts[-1])
    if unit is None:
        return parts
    return [part if _UNIT.search(part) else f"{part} {unit[0].strip()}" for part in parts]


def tip_words(section: Section, system: System) -> str:
    """Return a section's measures in the reader's units.

    Parameters
    ----------
    section : Section
        Round or flat.
    system : System
        The reader's units.

    Examples
    --------
    >>> tip_words(RoundTip(0.0127), "inch"), tip_words(FlatTip(0.016, 0.010), "metric")
    ('round 1/2 in', 'flat 16 mm × 10 mm')
    """
    if isinstance(section, RoundTip):
        return f"round {units.show(section.diameter_m, 'length', system)}"
    sides = (units.show(each, "length", system) for each in (section.width_m, section.depth_m))
    return f"flat {' × '.join(sides)}"


Schedule: TypeAlias = Literal["unknown", "40", "80"]
BowKind: TypeAlias = Literal["wood", "youth", "pipe", "low_stretch"]
PASSES = replace(
    fields.TIP_UPPER,
    key="passes",
    label="Limb where the loop rests",
    hint="On the unbraced bow, about 3 in (75 mm) below the nock. Leave it as the tip, and the usual growth of a limb "
    "is counted on to there; pipe has none.",
    example="as the tip",
    absent="as the tip",
)
PIPE_TIP = replace(
    fields.TIP_UPPER,
    label="Limb tip",
    hint="Of a bow of plastic pipe its size, like pipe 3/4: its limbs weigh as pipe does. Else of no account here.",
    example=fields.NOT_KNOWN,
)
PIPE_WALL = Choice(
    key="pipe_wall",
    label="Wall of the pipe",
    hint="The schedule is printed on the pipe. Only for a bow of pipe.",
    group=fields.BOW,
    example=fields.UNKNOWN,
    options=(
        Option(value=fields.UNKNOWN, label=fields.NOT_KNOWN),
        Option(value="40", label="schedule 40"),
        Option(value="80", label="schedule 80"),
    ),
)
BRIDGES = (
    Number(
        key="bridge_from_nock",
        label="Nock to string bridge",
        hint="Only for stiff tips with bridges: along the tip, from the nock to the bridge.",
        group=fields.ENDS,
        example="no bridge",
        absent="no bridge",
        quantity="length",
        low=0.01,
        high=0.4,
    ),
    Number(
        key="bridge_height",
        label="Height of the bridge",
        hint="Above the tip, where the string lies on it. Leave empty for none.",
        group=fields.ENDS,
        example="none",
        absent="none",
        quantity="thickness",
        low=0.0,
        high=0.05,
    ),
)
"""String bridges of stiff tips, which the braced string lies on."""
MORE = "More of bow and cord"
LIMB_WEIGHT = tuple(
    replace(each, group=MORE)
    for each in (
        fields.LIMB_MASS,
        PIPE_TIP,
        PIPE_WALL,
        replace(fields.HANDLE_LENGTH, example=fields.NOT_KNOWN),
    )
)
"""What tells how heavy the limbs are: a scale, or the pipe that they are of."""


class LimbWeightInputs(Inputs):
    """What was read of how heavy the limbs are, in SI, by field key."""

    limb_mass: float | None
    tip_upper: Section | None
    pipe_wall: Schedule
    handle_length: float | None


def limb_of(values: LimbWeightInputs, nock_to_nock_m: float | None) -> Spread | None:
    """Return what one limb weighs, by a scale or by its pipe; None where neither is told [kg].

    Parameters
    ----------
    values : LimbWeightInputs
        As read.
    nock_to_nock_m : float or None, > 0
        Of the bow; without it no pipe has a weight. [m]

    Raises
    ------
    DomainError
        As `BowEstimate`.
    """
    if nock_to_nock_m is None:
        return None if values.limb_mass is None else Spread.exactly(values.limb_mass)
    bow = BowEstimate(nock_to_nock_m=nock_to_nock_m, handle_length_m=values.handle_length)
    return limb_by(bow, values.limb_mass, values.tip_upper, schedule_of(values.pipe_wall))


def limbs_of(told: BowKind, tip: Section | None = None) -> Limbs:
    """Return what the limbs are of, as the kind of bow or its tip tells.

    Parameters
    ----------
    told : {"wood", "youth", "pipe", "low_stretch"}
        The option that was chosen.
    tip : Section or None
        One as thick as a pipe of the table is pipe; None: not known.
    """
    return "pipe" if told == "pipe" or is_pipe(tip) else "wood"


def not_for_bow(strand: CordEstimate, told: BowKind) -> tuple[Sentence, ...]:
    """Return the caution about a cord that a bow was not made for; nothing where it may be.

    Parameters
    ----------
    strand : CordEstimate
        As told.
    told : {"wood", "youth", "pipe", "low_stretch"}
        The option that was chosen.
    """
    if strand.fits or told == "low_stretch" or not cautions.low_stretch(strand.fibre):
        return ()
    return (Sentence(level="caution", text=_NOT_ON_THIS),)


_NOT_ON_THIS = (
    "Not on this bow: it was not made for a string that hardly stretches, and can break at the nock or in the limb. "
    "Take polyester, or linen or hemp for a bow of the old kind."
)


def of_bow_kind(told: BowKind, limbs: Limbs = "wood") -> tuple[Sentence, ...]:
    """Return the caution that a kind of bow calls for, whatever its string; none for wood.

    Parameters
    ----------
    told : {"wood", "youth", "pipe", "low_stretch"}
        The option that was chosen.
    limbs : {"wood", "pipe"}
        What the tips tell of them.
    """
    of_pipe = (cautions.PIPE,) if "pipe" in {told, limbs} else ()
    return (*of_pipe, cautions.YOUNG) if told == "youth" else of_pipe


def schedule_of(told: Schedule) -> str | None:
    """Return the schedule of a pipe's wall; None: not known.

    Parameters
    ----------
    told : {"40", "80", "unknown"}
        The option that was chosen.
    """
    return None if told == fields.UNKNOWN else told
