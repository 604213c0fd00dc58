"""What a notebook keeps of a bow, a cord, a maker's hand, a string that was made, and on one day about any of them."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, fields, replace
from functools import cache
from math import radians
from typing import TYPE_CHECKING, Any, TypeAlias

from calc.records.questions import DateField, ReferenceField, TextField
from calc.units import INCH
from calc.worksheets.core import Choice, Number, Option, measures, tips
from calc.worksheets.core import fields as asked

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.worksheets.core import Field

WORDS_MOST = 20_000
"""A text of free words may have so many characters."""
CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")
"""What no text of a record has in it; a file with it is damaged."""
NO_DAY = "no day"
_WHO, _WHEN, _SERVED, _NOTES = "Names", "Days", "The serving", "Notes"
_OPEN = "not known"


def _kept(each: Field, **changed: Any) -> str:  # noqa: ANN401 - whatever a field has
    """Declare one text of a record, empty where nobody told it."""
    told: str = field(default="", metadata={"asks": replace(each, **{"absent": each.absent or _OPEN, **changed})})
    return told


def _words(key: str, label: str, hint: str, group: str = _NOTES, **more: bool) -> str:
    return _kept(TextField(key=key, label=label, hint=hint, group=group, example="", absent=_OPEN, **more))


def _day(key: str, label: str, hint: str) -> str:
    return _kept(DateField(key=key, label=label, hint=hint, group=_WHEN, example="", absent=NO_DAY))


def _reference(key: str, label: str, hint: str, *kinds: str) -> str:
    return _kept(ReferenceField(key=key, label=label, hint=hint, group=_WHO, example="", absent=_OPEN, kinds=kinds))


def _number(key: str, label: str, hint: str, group: str, **rest: Any) -> Number:  # noqa: ANN401 - as the field takes it
    return Number(key=key, label=label, hint=hint, group=group, example=_OPEN, absent=_OPEN, **rest)


_NAME_HINT = "What you call it. It need not be a person's name."
_NOTE = TextField(
    key="note", label="Notes", hint="Anything else worth knowing.", group=_NOTES, example="", absent=_OPEN, lines=True
)
_LOOK_EVERY = _number(
    "look_every",
    "Look at it every",
    "How often the club looks a string over, like 30 d. Leave empty for the club's usual time.",
    _WHEN,
    quantity="duration",
    low=86_400.0,
    high=400 * 86_400.0,
)
_NOCK_THROAT = _number(
    "nock_throat",
    "Throat of the nock",
    "Of the arrows: between the walls, where the string sits.",
    _SERVED,
    quantity="thickness",
    low=0.001,
    high=0.015,
)
_SERVED_DIAMETER = _number(
    "served_diameter",
    "Served diameter",
    "Across the serving, where the nock sits.",
    _SERVED,
    quantity="thickness",
    low=0.0005,
    high=0.03,
)
_NOCK_HEIGHT = _number(
    "nock_height",
    "Nocking point",
    "Above the square to the string. Below it: with a minus before the number.",
    _SERVED,
    quantity="length",
    low=-2 * INCH,
    high=2 * INCH,
)
_SHOTS = _number(
    "shots", "Shots so far", "All shots of this string until that day.", _NOTES,
    quantity="count", low=0.0, high=1e6, whole=True,
)  # fmt: skip
_LAY = {"quantity": "angle", "low": radians(1.0), "high": radians(60.0)}


def _length(key: str, label: str, hint: str) -> str:
    return _kept(_number(key, label, hint, asked.CORD, quantity="length", low=4 * INCH, high=150 * INCH))


@dataclass(frozen=True, slots=True, kw_only=True)
class BowRecord:
    """A bow and what was measured of it. Every text is as typed, and empty where nobody told it.

    Parameters
    ----------
    id : str
        Unique in a notebook.
    name, owner, note, force_table : str
        Free words; of the last, one draw and its force a line.
    nock_to_nock, handle_length, limb_shape, draw_weight, draw_length, draw_from, brace_height, arrow_mass : str
        As the worksheets ask for them.
    bow_kind, limb_mass, pipe_wall, passes, handle_proud, string_follow, thread_gap, tip_contact : str
        As the worksheets ask for them.
    weighed_force, weighed_draw, tip_upper, tip_lower, loop_fit_upper, loop_fit_lower : str
        As the worksheets ask for them.
    nock_throat, look_every : str
        As `fields_of` tells: the throat of the arrows' nock, and how often the club looks at it.
    """

    id: str
    name: str = _words("name", "Name", _NAME_HINT, _WHO)
    owner: str = _words("owner", "Whose", "Initials will do, above all for a child.", _WHO, person=True)
    nock_to_nock: str = _kept(asked.NOCK_TO_NOCK)
    handle_length: str = _kept(asked.HANDLE_LENGTH)
    limb_shape: str = _kept(asked.LIMB_SHAPE)
    draw_weight: str = _kept(asked.DRAW_WEIGHT)
    draw_length: str = _kept(asked.DRAW_LENGTH)
    draw_from: str = _kept(asked.DRAW_FROM)
    brace_height: str = _kept(asked.BRACE_HEIGHT)
    arrow_mass: str = _kept(asked.ARROW_MASS)
    bow_kind: str = _kept(asked.BOW_KIND)
    limb_mass: str = _kept(asked.LIMB_MASS)
    pipe_wall: str = _kept(tips.PIPE_WALL)
    passes: str = _kept(tips.PASSES)
    handle_proud: str = _kept(measures.HANDLE_PROUD)
    string_follow: str = _kept(measures.STRING_FOLLOW)
    thread_gap: str = _kept(measures.THREAD_GAP)
    tip_contact: str = _kept(measures.TIP_CONTACT)
    weighed_force: str = _kept(asked.WEIGHED_FORCE)
    weighed_draw: str = _kept(asked.WEIGHED_DRAW)
    force_table: str = _words(
        "force_table", "Draw forces weighed", "One draw and its force a line, like 20 in, 25 lb.", asked.BOW, lines=True
    )
    tip_upper: str = _kept(asked.TIP_UPPER)
    tip_lower: str = _kept(asked.TIP_LOWER)
    loop_fit_upper: str = _kept(asked.LOOP_FIT_UPPER)
    loop_fit_lower: str = _kept(asked.LOOP_FIT_LOWER)
    nock_throat: str = _kept(_NOCK_THROAT)
    look_every: str = _kept(_LOOK_EVERY)
    note: str = _kept(_NOTE)


@dataclass(frozen=True, slots=True, kw_only=True)
class CordRecord:
    """A spool or hank of what strings are made from, or of serving thread; texts as for `BowRecord`.

    Parameters
    ----------
    id : str
        Unique in a notebook.
    name, colour, label, note : str
        Free words.
    fibre, strand_kind, yarn, strand_thickness, rated_load, rating, broken_load : str
        As the worksheets ask for them.
    weighed_length, weighed_mass, in_water, roll_width, roll_turns, held_load : str
        Tests that tell what it is, as *Test a cord* asks for them.
    trial_before, trial_after, trial_loaded, trial_weight : str
        A trial piece that was settled, as the bench sheet asks for it.
    left : str
        A length: about how much is still on the spool.
    """

    id: str
    name: str = _words("name", "Name", _NAME_HINT, _WHO)
    colour: str = _words("colour", "Colour", "As you would ask for it.", asked.CORD)
    fibre: str = _kept(asked.FIBRE)
    strand_kind: str = _kept(asked.STRAND_KIND)
    yarn: str = _kept(asked.STRAND_SIZE)
    strand_thickness: str = _kept(asked.STRAND_THICKNESS)
    rated_load: str = _kept(asked.RATED_LOAD)
    rating: str = _kept(asked.RATING)
    broken_load: str = _kept(asked.BROKEN_LOAD)
    weighed_length: str = _kept(measures.LENGTH)
    weighed_mass: str = _kept(measures.MASS)
    in_water: str = _kept(measures.WATER)
    roll_width: str = _kept(measures.ROLL)
    roll_turns: str = _kept(measures.WRAPS)
    held_load: str = _kept(measures.HELD)
    trial_before: str = _kept(measures.TRIAL_BEFORE)
    trial_after: str = _kept(measures.TRIAL_AFTER)
    trial_loaded: str = _kept(measures.TRIAL_LOADED)
    trial_weight: str = _kept(measures.TRIAL_WEIGHT)
    label: str = _words("label", "What its label says", "Word for word.", asked.CORD, lines=True)
    left: str = _kept(
        _number("left", "What is left of it", "About how much is still on the spool.", asked.CORD,
                quantity="distance", low=0.0, high=1e5)
    )  # fmt: skip
    note: str = _kept(_NOTE)


@dataclass(frozen=True, slots=True, kw_only=True)
class HandRecord:
    """How one maker lays and twists, as it was measured; texts as for `BowRecord`.

    Parameters
    ----------
    id : str
        Unique in a notebook.
    name, note : str
        Free words.
    hand, bundles, wax, tail_length : str
        As the worksheets ask for them.
    loop_turn, splice_turn : str
        How long one turn of them is, as the bench sheet asks for it.
    body_lay, loop_lay, splice_lay : str
        Angles from the cord's axis.
    """

    id: str
    name: str = _words("name", "Name", "Whose hands. Initials will do.", _WHO, person=True)
    hand: str = _kept(asked.HAND)
    bundles: str = _kept(asked.BUNDLES)
    wax: str = _kept(asked.WAX)
    tail_length: str = _kept(asked.TAIL_LENGTH)
    loop_turn: str = _kept(measures.LOOP_TURN)
    splice_turn: str = _kept(measures.SPLICE_TURN)
    body_lay: str = _kept(_number("body_lay", "Lay of the body", "From the cord's axis.", asked.METHOD, **_LAY))
    loop_lay: str = _kept(_number("loop_lay", "Lay of the loops", "From the cord's axis.", asked.METHOD, **_LAY))
    splice_lay: str = _kept(_number("splice_lay", "Lay of the splices", "From the cord's axis.", asked.METHOD, **_LAY))
    note: str = _kept(_NOTE)


@dataclass(frozen=True, slots=True, kw_only=True)
class StringRecord:
    """A string that was made: from what plan, for which bow, and what it measured; texts as for `BowRecord`.

    Parameters
    ----------
    id : str
        Unique in a notebook.
    name, plan, retired_why, note : str
        Free words; `plan` is the end of a link to its sheet.
    bow, cord, maker : str
        Ids of the records it was made for, from and by.
    made_on, retire_by, retired_on : str
        Days, like 2026-05-03.
    hand, bundles, strands, turns, bundle_diameter, cord_diameter, tail_length, thread_diameter : str
        As the worksheets ask for them.
    cut_length, body_raw, made_length, nail_length, braced_length : str
        Lengths: of a strand as cut; of the flat body between its loop marks; loop to loop when finished; hung under a
        weight; on the braced bow.
    nail_weight, braced_height : str
        The weight, and the brace height, that went with the last two.
    served_diameter, nock_height, look_every : str
        Across the serving; above the square to the string; how often the club looks at it.
    left_out : str
        ``yes`` where nothing is to be learnt from it.
    """

    id: str
    name: str = _words("name", "Name", "What tells it from the bow's other strings, like a colour.", _WHO)
    bow: str = _reference("bow", "Bow", "The bow it was made for.", "bow")
    cord: str = _reference("cord", "Cord", "What it was made from.", "cord")
    maker: str = _reference("maker", "Made by", "Whose hand made it.", "hand")
    plan: str = _words("plan", "Plan", "The end of a link to the sheet it was made from.")
    made_on: str = _day("made_on", "Made on", "The day, like 2026-05-03.")
    hand: str = _kept(asked.HAND)
    bundles: str = _kept(asked.BUNDLES)
    strands: str = _kept(asked.STRANDS)
    cut_length: str = _length("cut_length", "Cut to", "Each strand, as it was cut.")
    body_raw: str = _length("body_raw", "Body, flat", "Between its loop marks, as it was marked off.")
    made_length: str = _length("made_length", "As made", "Loop to loop when it was finished, lying slack.")
    nail_length: str = _length("nail_length", "On the nail", "Loop to loop, hung under a weight.")
    nail_weight: str = _kept(
        _number("nail_weight", "Weight on the nail", "What hung on it then.", asked.CORD,
                quantity="force", low=0.5, high=2000.0)
    )  # fmt: skip
    braced_length: str = _length("braced_length", "Braced, nock to nock", "Along the string, on the braced bow.")
    braced_height: str = _kept(
        asked.BRACE_HEIGHT,
        key="braced_height",
        label="Brace height then",
        hint="As read when the braced string was measured.",
        absent=_OPEN,
        group=asked.CORD,
    )
    turns: str = _kept(asked.BODY_TURNS)
    bundle_diameter: str = _kept(asked.BUNDLE_DIAMETER)
    cord_diameter: str = _kept(asked.CORD_DIAMETER)
    tail_length: str = _kept(asked.TAIL_LENGTH)
    thread_diameter: str = _kept(asked.THREAD_DIAMETER)
    served_diameter: str = _kept(_SERVED_DIAMETER)
    nock_height: str = _kept(_NOCK_HEIGHT)
    look_every: str = _kept(_LOOK_EVERY)
    retire_by: str = _day("retire_by", "Retire by", "The day after which it is not shot any more.")
    retired_on: str = _day("retired_on", "Retired on", "The day it was taken off for good.")
    retired_why: str = _words("retired_why", "Why", "What was found, or that it was old.")
    left_out: str = _kept(
        Choice(
            key="left_out",
            label="Learn from it",
            hint="What was measured of this string makes the next answers for its bow surer.",
            group=_NOTES,
            example="no",
            options=(Option(value="no", label="yes"), Option(value="yes", label="no, leave it out")),
        )
    )
    note: str = _kept(_NOTE)


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryRecord:
    """A dated line about a record: what it read after so many shots, what was found on it; texts as for `BowRecord`.

    Parameters
    ----------
    id : str
        Unique in a notebook.
    about : str
        Id of the record it is about.
    on : str
        The day, like 2026-05-03.
    shots, turns_added : str
        Counts: of all shots until then; of turns put in after the reading, negative for those taken out.
    brace_height, nock_height, served_diameter : str
        As read on that day.
    looked, found, note : str
        Free words.
    """

    id: str
    about: str = _reference("about", "About", "What it is about.", "string", "bow", "cord", "hand")
    on: str = _day("on", "On", "The day, like 2026-05-03.")
    shots: str = _kept(_SHOTS)
    brace_height: str = _kept(asked.BRACE_HEIGHT, label="Brace height read", hint="As read on that day.", absent=_OPEN)
    turns_added: str = _kept(
        _number("turns_added", "Turns put in", "After that reading. Taken out: with a minus before the number.",
                asked.METHOD, quantity="turns", low=-500.0, high=500.0)
    )  # fmt: skip
    nock_height: str = _kept(_NOCK_HEIGHT)
    served_diameter: str = _kept(_SERVED_DIAMETER)
    looked: str = _words("looked", "Looked over", "What was looked at: strands, loops, serving, height.")
    found: str = _words("found", "Found", "What was wrong, or nothing.")
    note: str = _kept(_NOTE)


Entity: TypeAlias = "BowRecord | CordRecord | HandRecord | StringRecord | EntryRecord"
KINDS: Mapping[str, type[Entity]] = {
    "bow": BowRecord,
    "cord": CordRecord,
    "hand": HandRecord,
    "string": StringRecord,
    "entry": EntryRecord,
}
"""Kinds of records by name; a file lists them as its plurals, in this order."""
PLURALS = {"bow": "bows", "cord": "cords", "hand": "hands", "string": "strings", "entry": "entries"}


@cache
def fields_of(kind: str) -> Mapping[str, Field]:
    """Return what is asked of a kind of record, by field.

    Parameters
    ----------
    kind : str
        A key of `KINDS`.

    Examples
    --------
    >>> fields_of("bow")["nock_to_nock"].label
    'Nock to nock'
    """
    return {each.name: each.metadata["asks"] for each in fields(KINDS[kind]) if "asks" in each.metadata}
