"""Fewest spares: the fewest lengths of string that serve many bows by turns alone."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from calc import units
from calc.errors import DomainError
from calc.geometry.ends import is_pipe
from calc.making.club import fewest_lengths, serves, turns_to
from calc.worksheets.club.lines import BowLine, Fault, read_bows
from calc.worksheets.club.made import fault, line_inputs
from calc.worksheets.club.sheet import BOWS, named, of_overbraced
from calc.worksheets.club.tables import left_out
from calc.worksheets.core import (
    Answer,
    Guide,
    Inputs,
    Sentence,
    SheetText,
    Table,
    Worksheet,
    cautions,
    fields,
    read,
    rows,
)
from calc.worksheets.core import next_steps as onward
from calc.worksheets.spares.drawings import spans

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.making.club import Serves
    from calc.units import System

TEXT = SheetText(__spec__)

_LIST = BOWS.group
_RESULTS = ("spares_needed", "bows", "lines_left_out", "spare_longest", "spare_shortest", "spare_room")
_EXAMPLE = """\
name; nock to nock (in); draw weight (lb); draw length (in); brace height (in)
Oak longbow; 66; 40; 26; 6 1/2
Rowan longbow; 65 3/4; 45; 27; 6 1/2
Willow; 62; 32; 25; 6 1/4
Maple, for guests; 61 3/4; 30; 25; 6
Alder; 60; 28; 24; 6
First child's bow; 48; 15; 20; 5
Second child's bow; 48 1/4; 18; 20; 5 1/4"""
_BLAMES = {"tail_m": "tail_length", "brace_m": "brace_height"}


class SparesInputs(Inputs):
    """What was read, in SI, by field key."""

    bows: str
    brace_band: float
    handle_length: float | None
    limb_shape: str
    brace_height: float
    draw_weight: float
    bundle_diameter: float
    bundles: Literal["2", "3"]
    tail_length: float


@dataclass(frozen=True, slots=True)
class _Bow:
    """A bow of the list: what it is called, what it takes, how strong [N], long and high [m] it is; whether of pipe."""

    name: str
    takes: Serves
    weight_n: float
    nock_to_nock_m: float
    brace_m: float
    pipe: bool


def _bow(line: BowLine, values: SparesInputs) -> _Bow | Fault:
    try:
        own = line_inputs(line, vars(values))
        bow = replace(read.bow_of(own), draw_m=None, draw_weight_n=None).given(*read.strings_of(own))
        takes = serves(bow, own.brace_height, values.brace_band, own.tail_length)
    except DomainError as error:
        return fault(line, error)
    pipe = is_pipe(own.tip_upper) or is_pipe(own.tip_lower)
    return _Bow(line.name or f"Line {line.number}", takes, own.draw_weight, own.nock_to_nock, own.brace_height, pipe)


def _room(takes: Sequence[Serves]) -> float:
    """Return how far a string may be off either way and still serve all these bows [m]."""
    return (min(each.high_m for each in takes) - max(each.low_m for each in takes)) / 2.0


def _spares(
    spares: Sequence[tuple[float, tuple[int, ...]]], bows: Sequence[_Bow], values: SparesInputs, system: System
) -> tuple[Table, ...]:
    """Return which strings to make, and which bow takes which with how many turns."""
    make, use = [], []
    for k, (string_m, held) in enumerate(spares, start=1):
        strongest = max((bows[at] for at in held), key=lambda each: each.weight_n)
        length = units.show(string_m, "length", system)
        weight = units.show(strongest.weight_n, "force", system)
        make.append((str(k), length, str(len(held)), f"{weight}, {strongest.name}"))
        for at in held:
            wanted = bows[at].takes.string
            by = turns_to(string_m, wanted.value, values.tail_length, values.bundle_diameter, int(values.bundles))
            count = units.show(abs(by), "turns", system)
            turns = (
                "as it is" if count == units.show(0.0, "turns", system) else f"{count} {'in' if by > 0.0 else 'out'}"
            )
            use.append((bows[at].name, str(k), turns, units.show(wanted.value, "length", system)))
    return (
        Table(
            key="make",
            title="Strings to make",
            heads=("String", "Nock to nock", "Bows", "Strong enough for"),
            cells=tuple(make),
            note="As on the braced bow, laid in the middle of its window.",
        ),
        Table(
            key="use",
            title="Which string for which bow",
            heads=("Bow", "String", "Turns", "Then it is"),
            cells=tuple(use),
            note="Turns put in make it shorter, turns let out longer. Read the brace height on the bow, and go on.",
        ),
    )


def plan(values: SparesInputs) -> Answer:
    """Return the fewest spares, and which bow takes which.

    Parameters
    ----------
    values : SparesInputs
        As read.

    Raises
    ------
    DomainError
        As `read_bows`; a line at fault is left out and named.
    """
    listed = read_bows(values.bows)
    found = [line if isinstance(line, Fault) else _bow(line, values) for line in listed.lines]
    bows = [each for each in found if isinstance(each, _Bow)]
    faults = [each for each in found if isinstance(each, Fault)]
    spares = fewest_lengths([(each.takes.low_m, each.takes.high_m) for each in bows])
    lengths = [each[0] for each in spares] or [0.0]
    numbers = {
        "spares_needed": float(len(spares)),
        "bows": float(len(bows)),
        "lines_left_out": float(len(faults)),
        "spare_longest": max(lengths),
        "spare_shortest": min(lengths),
        "spare_room": min((_room([bows[at].takes for at in held]) for _, held in spares), default=0.0),
        "brace_band": values.brace_band,
    }
    unsure = [each.name for each in bows if not each.takes.sure]
    said = [
        f"Line {each.number}{f' ({each.name})' if each.name else ''} is left out. {each.why}" for each in faults[:8]
    ]
    if unsure:
        said.append(
            f"Too little is known of {named(unsure)} to promise that turns are enough. Measure handle, set, or a "
            "string that was on it: columns of the list may tell them."
        )
    said += of_overbraced((each.name, each.nock_to_nock_m, each.brace_m) for each in bows)
    serve = "length serves" if len(spares) == 1 else "lengths serve"
    whom = "this bow" if len(bows) == 1 else "all {bows} bows"
    answer = (
        Sentence(
            level="answer",
            lead="Make",
            text=f"{{spares_needed}} {serve} {whom} by turns alone",
            span="no fewer do, as well as the bows are known",
        ),
        Sentence(level="answer", lead="From", text="{spare_longest} down to {spare_shortest}, nock to nock"),
        Sentence(level="answer", lead="Make each", text="to within {spare_room}, and turns still serve"),
    )
    return Answer(
        rows=rows(_RESULTS, numbers, WORKSHEET.row_texts),
        headlines=answer if bows else (Sentence(level="answer", lead="No spare", text=_NONE),),
        cautions=(
            *(Sentence(level="caution", text=each) for each in said),
            TEXT.caution("strong"),
            *((cautions.PIPE,) if any(each.pipe for each in bows) else ()),
            cautions.FIRST_BRACING,
            cautions.DOUBT,
        ),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: (spans([(each.name, each.takes) for each in bows], spares, system),) if bows else (),
        tables=lambda system: (*_spares(spares, bows, values, system), *((left_out(faults),) if faults else ())),
    )


_NONE = "not one line of the list can be read"

WORKSHEET = Worksheet(
    id="spares",
    place=92,
    title="Fewest spares",
    purpose="From a list of bows to the fewest lengths of string that serve them all by turns alone.",
    groups=(_LIST, fields.BOW, fields.CORD, fields.METHOD),
    fields=(
        replace(BOWS, example=_EXAMPLE), TEXT.number("brace_band"), fields.HANDLE_LENGTH, fields.LIMB_SHAPE,
        fields.BRACE_HEIGHT, fields.DRAW_WEIGHT, fields.BUNDLE_DIAMETER, fields.BUNDLES, fields.TAIL_LENGTH,
    ),
    results=_RESULTS,
    plan=plan,
    inputs=SparesInputs,
    text=TEXT,
    blames=_BLAMES,
    next=(onward.PLAN, onward.TURN),
    guides=(
        Guide(page="care", step="spare", words="Make the spare now"),
        Guide(page="club-afternoon", step="cut", words="Cut the strands the night before"),
    ),
)  # fmt: skip
