"""What the bench sheet may be told beside its questions: measures of the bow, a trial piece, earlier strings."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem
from calc.making.string import MadeBefore, Trial
from calc.mechanics.estimate import HandEstimate
from calc.units import INCH
from calc.worksheets.core import Number, fields, measures, read, tips

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.geometry.ends import Section
    from calc.making.string import Order
    from calc.mechanics.estimate import ForceRead, StringRead

BOW, CORD, HAND = "More of the bow", "Tests of the cord", "Strings you made before"
GROUPS = (BOW, CORD, HAND)
NOT_MEASURED = measures.NOT_MEASURED

MEASURED_STRING = Number(
    key="measured_string",
    label="A string you measured",
    hint="Nock to nock along the string, while it was on the braced bow. Any string of this bow will do.",
    group=fields.BOW,
    example=NOT_MEASURED,
    absent=NOT_MEASURED,
    quantity="length",
    low=15 * INCH,
    high=100 * INCH,
)
MEASURED_BRACE = replace(
    fields.BRACE_HEIGHT,
    key="measured_brace",
    label="Brace height it gave",
    hint="Measured at the same time.",
    example=NOT_MEASURED,
    absent=NOT_MEASURED,
)
MEASURED_STRINGS = (
    MEASURED_STRING,
    MEASURED_BRACE,
    replace(MEASURED_STRING, key="measured_string_2", label="Another string", hint="The more it differs, the better."),
    replace(MEASURED_BRACE, key="measured_brace_2", label="Brace height that one gave"),
)
UNBRACED, TIP_CONTACT = measures.UNBRACED, measures.TIP_CONTACT

_BOW = tuple(
    replace(each, group=BOW)
    for each in (
        *UNBRACED,
        TIP_CONTACT,
        tips.PASSES,
        fields.BOW_KIND,
        fields.LIMB_MASS,
        tips.PIPE_WALL,
        *MEASURED_STRINGS,
        fields.WEIGHED_FORCE,
        fields.WEIGHED_DRAW,
    )
)
_TRIAL = (
    replace(fields.BROKEN_LOAD, group=CORD),
    *(replace(each, group=CORD) for each in measures.TRIAL),
)
_EARLIER = (
    measures.length(
        "earlier_body",
        "Body of an earlier string",
        "Flat, between its loop marks, as it was cut. Of this cord, with these tips and tails, for this bow.",
        HAND,
    ),
    replace(
        fields.BODY_TURNS,
        key="earlier_turns",
        label="Turns in its body",
        hint="When its brace height was read.",
        group=HAND,
        example="not counted",
    ),
    replace(
        MEASURED_BRACE,
        key="earlier_brace",
        label="Brace height it gave",
        hint="Once it had settled.",
        group=HAND,
    ),
)
_HAND = (
    *(replace(each, group=HAND) for each in measures.LAYS),
    *_EARLIER,
    *(
        replace(each, key=f"{each.key}_2", label=label)
        for each, label in zip(
            _EARLIER,
            ("Body of another earlier string", "Turns in that body", "Brace height the other gave"),
            strict=True,
        )
    ),
)
FIELDS = (*_BOW, *_TRIAL, *_HAND)
BLAMES = {
    **read.BOW_BLAMES,
    "pairs": "measured_string",
    "at_m": "weighed_draw",
    "readings": "weighed_force",
    "trial_before_m": "trial_before",
    "trial_after_m": "trial_after",
    "trial_loaded_m": "trial_loaded",
    "trial_load_n": "trial_weight",
    "loop_pitch_m": "loop_turn",
    "splice_pitch_m": "splice_turn",
    "earlier_body_raw_m": "earlier_body",
    "earlier_brace_m": "earlier_brace",
}


class MoreInputs(read.BowInputs):
    """What was read of all this, in SI, by field key."""

    passes: Section | None
    bow_kind: tips.BowKind
    limb_mass: float | None
    pipe_wall: tips.Schedule
    trial_before: float | None
    trial_after: float | None
    trial_loaded: float | None
    trial_weight: float | None
    loop_turn: float | None
    splice_turn: float | None
    earlier_body: float | None
    earlier_turns: float | None
    earlier_brace: float | None
    earlier_body_2: float | None
    earlier_turns_2: float | None
    earlier_brace_2: float | None


def with_more(order: Order, values: MoreInputs) -> Order:
    """Return an order with what else was measured.

    Parameters
    ----------
    order : Order
        From the usual questions.
    values : MoreInputs
        As read.

    Raises
    ------
    DomainError
        ``missing`` with reasons ``half_pair``, ``no_first``, ``half_weighed``, ``half_trial``, ``half_loaded`` or
        ``half_earlier`` for halves of a reading; as `BowEstimate.given`, `Trial` and `MadeBefore` otherwise.
    """
    read_off: tuple[StringRead | ForceRead, ...] = (*read.strings_of(values), *read.forces_of(values))
    upper, lower = (replace(each, rests=values.passes) for each in (order.upper, order.lower))
    return replace(
        order,
        upper=upper,
        lower=lower,
        bow=order.bow.given(*read_off) if read_off else order.bow,
        hand=HandEstimate(loop_pitch_m=values.loop_turn, splice_pitch_m=values.splice_turn),
        trial=_trial(values),
        earlier=tuple(_earlier(values)),
        limb_kg=values.limb_mass,
        schedule=tips.schedule_of(values.pipe_wall),
        told_limbs=tips.limbs_of(values.bow_kind),
    )


def _whole(reason: str, **told: float | None) -> list[float] | None:
    """Return numbers that go together, told by field key; None where none was told."""
    found = [each for each in told.values() if each is not None]
    if found and len(found) < len(told):
        lacking = next(key for key, each in told.items() if each is None)
        raise DomainError(Problem(field=lacking, code="missing", reason=reason))
    return found or None


def _trial(values: MoreInputs) -> Trial | None:
    lengths = _whole("half_trial", trial_before=values.trial_before, trial_after=values.trial_after)
    loaded = _whole("half_loaded", trial_weight=values.trial_weight, trial_loaded=values.trial_loaded)
    if lengths is None:
        if loaded is not None:
            raise DomainError(Problem(field="trial_before", code="missing", reason="half_trial"))
        return None
    load_n, loaded_m = loaded or (None, None)
    return Trial(before_m=lengths[0], after_m=lengths[1], load_n=load_n, loaded_m=loaded_m)


def _earlier(values: MoreInputs) -> Iterator[MadeBefore]:
    first = {
        "earlier_body": values.earlier_body,
        "earlier_turns": values.earlier_turns,
        "earlier_brace": values.earlier_brace,
    }
    second = {
        "earlier_body_2": values.earlier_body_2,
        "earlier_turns_2": values.earlier_turns_2,
        "earlier_brace_2": values.earlier_brace_2,
    }
    for told in (first, second):
        if (found := _whole("half_earlier", **told)) is not None:
            yield MadeBefore(body_raw_m=found[0], turns=found[1], brace_m=found[2])
