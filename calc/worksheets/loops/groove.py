"""What the loops sheet asks and says of the groove's wood, of strands laid in to save it, and of string bridges."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.data import woods
from calc.errors import DomainError
from calc.geometry.ends import loop_of_throat, over_bridge
from calc.making.strands import Groove
from calc.units import POUND_FORCE
from calc.worksheets.core import Choice, Number, Option, Sentence, fields, tips

if TYPE_CHECKING:
    from calc.making.string import FitLoop
    from calc.numerics import Spread

GROUP = "The groove"
UNKNOWN = fields.UNKNOWN
FIELDS = (
    *tips.BRIDGES,
    Number(
        key="hardest_pull",
        label="Hardest pull of a shot",
        hint="What the strands sheet says a string must hold, at its high end. Leave empty to leave the wood out.",
        group=GROUP,
        example="leave it out",
        absent="leave it out",
        quantity="force",
        low=5 * POUND_FORCE,
        high=2000 * POUND_FORCE,
    ),
    Choice(
        key="wood",
        label="Wood of the tip",
        hint="Hickory and black locust: choose white oak, and be on the safe side. Not known is taken for the softest.",
        group=GROUP,
        example=UNKNOWN,
        options=(
            Option(value=UNKNOWN, label=fields.NOT_KNOWN),
            *(Option(value=each.id, label=each.words) for each in woods()),
        ),
    ),
    replace(
        fields.STRANDS,
        group=GROUP,
        hint="In the whole string. With it you are told how many to lay into the loop.",
        example=fields.NOT_KNOWN,
        absent=fields.NOT_KNOWN,
    ),
)


def groove(made: FitLoop, cord_m: float, pull_n: float | None, wood: str) -> Groove | None:
    """Return the loop in its groove; None where no pull was told.

    Parameters
    ----------
    made : FitLoop
        The loop on its tip.
    cord_m : float, > 0
        Its thickness. [m]
    pull_n : float or None
        The hardest pull of a shot. [N]
    wood : str
        The option that was chosen.

    Raises
    ------
    DomainError
        As `Groove`.
    """
    if pull_n is None:
        return None
    return Groove(
        width_m=made.section.width_m,
        opening_rad=made.loop.opening_rad,
        cord_m=cord_m,
        pull_n=pull_n,
        wood=None if wood == UNKNOWN else wood,
    )


def numbers(found: Groove | None, strands: float | None) -> dict[str, Spread | float]:
    """Return the numbers of the groove, by row key.

    Parameters
    ----------
    found : Groove or None
        The loop in its groove.
    strands : float or None
        In the string.
    """
    if found is None:
        return {}
    pads = {} if strands is None else {"strands": strands, "pad_strands": float(found.padding(int(strands)))}
    return {
        "groove_bears": found.bears(),
        "hardest_pull": found.pull_n,
        "wood_hardness": found.hardness,
        "loop_wants": found.wants_m(),
        "loop_padded": found.padded_m,
        **pads,
    }


def headlines(found: Groove | None, strands: float | None) -> tuple[Sentence, ...]:
    """Return whether the groove bears the loop, in words.

    Parameters
    ----------
    found : Groove or None
        The loop in its groove.
    strands : float or None
        In the string.
    """
    if found is None:
        return ()
    bears = found.bears()
    cure = _pad(strands) + ("; horn or harder wood over the tip is surer" if found.too_thick else "")
    text = "bears the loop as it is"
    if bears.low < found.pull_n:
        text = f"may be pressed in; {cure}"
    if bears.value < found.pull_n:
        text = f"will be pressed in; {cure}"
    return (
        Sentence(
            level="answer",
            lead="The groove",
            text=text,
            span="it bears {groove_bears.low} to {groove_bears.high}, a shot pulls {hardest_pull}",
        ),
    )


def _pad(strands: float | None) -> str:
    if strands is None:
        return "make the loop {loop_padded} thick"
    return "lay {pad_strands} strands into the loop, to {loop_padded}"


def cautions(found: Groove | None) -> tuple[Sentence, ...]:
    """Return what a loop does to a groove, in words.

    Parameters
    ----------
    found : Groove or None
        The loop in its groove.
    """
    if found is None:
        return ()
    return (
        Sentence(
            text="Padding strands lie in the loop and its splice only, and end one after the other. They hold nothing: "
            "they make it wider. Round the edges of the groove, and of a flat tip."
        ),
        Sentence(
            level="caution",
            text="A string that cuts in may split the tip. Look at both grooves when you unbrace. A cracked nock goes "
            "to a qualified bowyer.",
        ),
    )


def bridge_numbers(
    made: FitLoop, cord_m: float, from_nock_m: float | None, height_m: float | None
) -> dict[str, Spread | float]:
    """Return what a string bridge leaves for the loop, by row key; nothing where there is none.

    Parameters
    ----------
    made : FitLoop
        The loop on its tip.
    cord_m : float, > 0
        Its thickness. [m]
    from_nock_m, height_m : float or None
        Of the bridge. [m]

    Raises
    ------
    DomainError
        ``min`` for a bridge so near that no loop ends before it.
    """
    if from_nock_m is None:
        return {}
    way_m = over_bridge(from_nock_m, height_m or 0.0)
    try:
        longest = loop_of_throat(made.section, cord_m, way_m)
    except DomainError as error:
        raise DomainError(replace(error.problem, field="bridge_from_nock", reason="bridge_near")) from error
    return {"bridge_way": way_m, "loop_longest": longest.length_m}


def bridge_headlines(made: FitLoop, told: dict[str, Spread | float]) -> tuple[Sentence, ...]:
    """Return whether the loop ends before the bridge, in words.

    Parameters
    ----------
    made : FitLoop
        The loop on its tip.
    told : dict
        As `bridge_numbers`.
    """
    if not told:
        return ()
    way_m = told["bridge_way"]
    assert isinstance(way_m, float)
    text = "clear of the loop: its throat stands {throat} from the nock, the bridge {bridge_way}"
    if made.loop.throat_m >= way_m:
        text = "under the loop: make the loop {loop_longest} at the most, throat to throat"
    return (
        Sentence(
            level="answer",
            lead="The bridge",
            text=text,
            span="a loop of {loop_longest} has its throat on the bridge",
        ),
    )
