"""A strand as several worksheets ask for it, and what each of them says of it."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Literal

from calc.data import fibre, practice, rule
from calc.making.strands import sold, thick_as_cord, unnamed
from calc.mechanics.estimate import CordEstimate
from calc.mechanics.fibre import reasons_for_care
from calc.worksheets.core import cautions, fields
from calc.worksheets.core.row_table import table
from calc.worksheets.core.schema import Inputs, Sentence

if TYPE_CHECKING:
    from calc.data import Fibre
    from calc.making.strands import Chosen, StringStrength, TailCheck
    from calc.mechanics.fibre import Rating
    from calc.numerics import Spread
    from calc.worksheets.core.schema import RowText

SENTENCES = {
    "no_size": "Say how heavy or how thick one strand is: weigh a length of it, or measure it across",
    "too_thin": "A strand of that weight is at least {limit} thick. Check its weight and its thickness",
    "nothing_fits": "No fibre is so heavy or so light for its thickness. Check its weight and its thickness",
    "too_many": "It would take thousands of these strands. Check the size of one, or choose a stronger cord",
    "few_strands": "There must be at least one strand in each bundle",
    "broke_strong": "No strand like this holds more than {limit}. Check the scale's unit, the strand and its fibre",
    "uneven_strands": "Strands must share evenly between the bundles",
}
BLAMES = {"yarn_kg_m": "yarn", "thickness_m": "strand_thickness", "rated_n": "rated_load", "broken_n": "broken_load"}
SIZE_AND_LABEL = (fields.STRAND_KIND, fields.STRAND_THICKNESS, fields.RATED_LOAD, fields.RATING)
"""What is asked of a strand besides its fibre and its weight."""


class StrandInputs(Inputs):
    """What sheets read of a strand, in SI; one that does not ask for cord has yarn of a known weight."""

    fibre: str
    yarn: float | None
    strand_kind: Literal["yarn", "cord"] = "yarn"
    strand_thickness: float | None = None
    rated_load: float | None = None
    rating: Rating = "unknown"
    broken_load: float | None = None


def strand_of(values: StrandInputs) -> CordEstimate:
    """Return a strand as it was told.

    Parameters
    ----------
    values : StrandInputs
        As read.

    Raises
    ------
    DomainError
        As `CordEstimate` and `unnamed`.
    """
    made = unnamed if values.fibre == fields.UNKNOWN else partial(CordEstimate, fibre=fibre(values.fibre))
    return made(
        laid=values.strand_kind == "cord",
        yarn_kg_m=values.yarn,
        thickness_m=values.strand_thickness,
        rated_n=values.rated_load,
        rating=values.rating,
        broken_n=values.broken_load,
    )


def fibres_of(told: str) -> tuple[Fibre, ...]:
    """Return the fibre that was told, or every one that is sold.

    Parameters
    ----------
    told : str
        The option that was chosen.
    """
    return sold() if told == fields.UNKNOWN else (fibre(told),)


def cautions_of(strand: CordEstimate) -> tuple[Sentence, ...]:
    """Return the cautions a strand calls for by its fibre, or by each that it may be.

    Parameters
    ----------
    strand : CordEstimate
        As told.
    """
    if not strand.fits:
        return cautions.of_fibre(strand.fibre)
    said = {caution.text: caution for each in strand.fits for caution in cautions.of_fibre(each)}
    if len(strand.fits) == 1:
        return tuple(said.values())
    return tuple(
        Sentence(
            level=each.level,
            standing=each.standing,
            text=f"If it is one of those that fit: {each.text[0].lower()}{each.text[1:]}",
        )
        for each in said.values()
    )


def counted_on(strand: CordEstimate) -> tuple[Sentence, ...]:
    """Return the caution that says which fibre stands for one that is not known; nothing where it is known.

    Parameters
    ----------
    strand : CordEstimate
        As told.
    """
    if not strand.fits:
        return ()
    return (
        Sentence(
            level="caution",
            text=f"The fibre is not known. All is worked out for {strand.fibre.words.replace(',', '')}, the weakest of "
            f"{len(strand.fits)} that fit; another stretches and packs otherwise. The cord test sheet tells more.",
        ),
    )


def unsure(strand: CordEstimate) -> tuple[Sentence, ...]:
    """Return all that is to be said of a strand whose fibre is not known; nothing where it is.

    Parameters
    ----------
    strand : CordEstimate
        As told.
    """
    return (*counted_on(strand), *cautions_of(strand)) if strand.fits else ()


_ARROW = {
    "arrow_dry": "This arrow weighs less than 5 grains for each pound of draw weight. A shot with it is close to a "
    "shot without an arrow, which breaks strings and bows. Use a heavier arrow.",
    "arrow_light": "This arrow weighs less than 8 grains for each pound of draw weight, light for a wooden bow. A "
    "heavier one is kinder to string and limbs.",
}
_STEADY = (
    "A label speaks of a steady pull on a new cord. A bowstring is jerked: test a piece, and do not use this string to "
    "lift or hold a person or a load."
)
_TOO_MUCH = (
    "The label promises more than a strand of this fibre and size can hold. Weigh it again, or doubt the label: the "
    "cord test sheet tells how."
)
_UNPROVEN = (
    "The label promises more than the weakest fibre that fits can hold. A label is no test: it never raises an answer."
)
_KIND = (
    "Told as yarn, and as thick as cord. If it is laid or braided, say so where it asks what the strand is sold as. "
    "Cord holds about half as much, and this answer promises too much."
)
_TAILS = {
    "sure": "They hold.",
    "likely": "They hold as a rule; tails of {tail_needed.high} hold at the worst.",
    "doubtful": "They may slip: make them so long that the shortest is {tail_needed} or more.",
    "slips": "They slip: make them so long that the shortest is {tail_needed} or more.",
}


def of_tails(made: TailCheck) -> Sentence:
    """Return whether tails hold by friction, in words, and what the trade says.

    Parameters
    ----------
    made : TailCheck
        Of the string's shortest tail.
    """
    return Sentence(
        level="note" if made.hold in {"sure", "likely"} else "caution",
        text="Tails: by the friction of this fibre, its wax and lay, {tail_needed} just holds ({tail_needed.low} to "
        f"{{tail_needed.high}}). The shortest strand end here is {{tail_shortest}}. {_TAILS[made.hold]} Makers take "
        "2 in (50 mm) as the least, whatever the fibre: common practice, no published source.",
    )


def verdict(held: StringStrength) -> str:
    """Return what to think of what a string holds, in words.

    Parameters
    ----------
    held : StringStrength
        Its strength against the hardest pull of a shot.
    """
    if held.safety.value < 1.0:
        return "too weak: a shot can break it"
    if held.safety.value < practice("working_margin").spread.low:
        return "too little in hand for a new string"
    if held.safety.low < 1.0:
        return "enough as a rule, but not if much goes the wrong way"
    return "strong enough"


def weak(held: StringStrength) -> tuple[Sentence, ...]:
    """Return the caution that a string calls for by what it holds; none for a count that is advised.

    Parameters
    ----------
    held : StringStrength
        As for `verdict`.
    """
    if held.safety.value < practice("working_margin").spread.low:
        text = (
            "Too weak: this string holds {safety_factor} times the hardest pull of a shot; a new one should hold "
            "{margin}. Take {for_strength} strands or more."
        )
    elif held.safety.low < 1.0:
        text = (
            "At the low end of what is uncertain this string holds only {safety_factor.low} times the hardest pull of "
            "a shot. Take {for_strength} strands: more of them cost little speed."
        )
    else:
        return ()
    return (Sentence(level="caution", text=text),)


def of_size(chosen: Chosen, arrow_kg: float | None) -> tuple[Sentence, ...]:
    """Return cautions about a body too thick for a nock, and an arrow too light.

    Parameters
    ----------
    chosen : Chosen
        The string's strands.
    arrow_kg : float or None
        None where it is not known. [kg]
    """
    said = []
    if chosen.thick.cord_m.value > rule("cord_roll_up").figure("rolled together").spread.value:
        said.append(
            "Plied, this string is {cord_diameter} thick: more than most nocks are cut for, even before serving. Use a "
            "thinner cord of a stronger fibre, or cut the nocks for it."
        )
    thick = tuple(Sentence(level="caution", text=text) for text in said)
    return (*thick, *of_arrow(arrow_kg, chosen.draw_weight_n))


def of_arrow(arrow_kg: float | None, draw_weight_n: float) -> tuple[Sentence, ...]:
    """Return the caution about an arrow too light for its bow; nothing where it is not, or not known.

    Parameters
    ----------
    arrow_kg : float or None
        None where it is not known. [kg]
    draw_weight_n : float, > 0
        [N]
    """
    light = {each.key for each in reasons_for_care(None, arrow_kg=arrow_kg, draw_weight_n=draw_weight_n)}
    return tuple(Sentence(level="caution", text=words) for key, words in _ARROW.items() if key in light)


def of_kind(strand: CordEstimate) -> tuple[Sentence, ...]:
    """Return the caution for a strand told as yarn that is as thick as cord; nothing where it is not.

    Parameters
    ----------
    strand : CordEstimate
        As told.
    """
    return (Sentence(level="caution", text=_KIND),) if thick_as_cord(strand) else ()


def of_label(strand: CordEstimate) -> tuple[Sentence, ...]:
    """Return cautions about a load on a label.

    Parameters
    ----------
    strand : CordEstimate
        As told.
    """
    if strand.rated_n is None:
        return ()
    doubt = (_UNPROVEN if strand.fits else _TOO_MUCH,) if strand.promises_too_much else ()
    said = (_STEADY, *doubt)
    return tuple(Sentence(level="caution", text=text) for text in said)


def of_break(strand: CordEstimate) -> tuple[Sentence, ...]:
    """Return cautions about a strand that was pulled until it broke; nothing where none was.

    Parameters
    ----------
    strand : CordEstimate
        As told.
    """
    if strand.broken_n is None:
        return ()
    said = [cautions.BREAKS]
    if strand.broke_early:
        said.append(Sentence(level="caution", text=_EARLY))
    return tuple(said)


_EARLY = (
    "That strand broke at less than any of this fibre and size should. It was nicked or knotted, it is old, or of "
    "something else. Break another; until then all is worked out for what it held."
)
_LABELLED = "{yarn} × strength of the fibre, and what its label of {rated} leaves of it"
_BELIEVED = "the label says that it breaks at {rated}; no more than the fibre can hold"
_WEAKEST = "the weakest of all fibres that fit: {yarn} × strength of the fibre"


def holding(chosen: Chosen) -> dict[str, Spread | float]:
    """Return the numbers of what a string holds and what the shot asks of it, by row key.

    Parameters
    ----------
    chosen : Chosen
        The string's strands.
    """
    held, strand = chosen.strength, chosen.strand
    shown: dict[str, Spread | float] = {
        "tension_peak": held.peak_n,
        "strand_strength": held.strand_n,
        "efficiency": held.efficiency,
        "peak_ratio": held.peak_ratio,
        "margin": practice("working_margin").spread,
        "for_strength": chosen.advice.for_strength,
        "for_thickness": chosen.advice.for_thickness,
        "thinnest": practice("cord_thinnest").spread,
        "arrow": chosen.arrow,
    }
    if strand.rated_n is not None:
        shown["rated"] = strand.rated_n
    if strand.broken_n is not None:
        shown["broken"] = strand.broken_n
    if strand.laid:
        shown["keeps"] = practice("cord_keeps").spread
    return shown


def size(chosen: Chosen) -> dict[str, Spread | float]:
    """Return the numbers of how heavy and how thick its strands are, by row key.

    Parameters
    ----------
    chosen : Chosen
        The string's strands.
    """
    strand = chosen.strand
    shown: dict[str, Spread | float] = {"yarn": chosen.found["linear"], "strand_thickness": chosen.found["thickness"]}
    if strand.laid:
        return shown | {"fill": practice("cord_fill").spread}
    each = chosen.found["linear"].scaled(chosen.strands // chosen.bundles)
    density = strand.fibre.density_kg_m3.scaled(1e-3)
    return shown | {"bundle_density": each, "density": density, "packing": strand.fibre.packing}


def of_strand(strand: CordEstimate) -> tuple[RowText, ...]:
    """Return the rows of a strand's size and strength, worked as this strand is.

    Parameters
    ----------
    strand : CordEstimate
        As told.
    """
    known, made = table(), []
    of_cord = " × {keeps}" if strand.laid else ""
    if strand.fits:
        labelled = ", and what its label of {rated} leaves of it" if strand.rated_n is not None else ""
        made.append(
            replace(known["strand_strength"], working=_WEAKEST + of_cord + labelled, source="derived:cord-test")
        )
    elif strand.rated_n is not None:
        words = _BELIEVED if strand.rating == "breaking" else _LABELLED
        made.append(replace(known["strand_strength"], working=words, source="ci1401"))
    elif strand.laid:
        made.append(replace(known["strand_strength"], working="{yarn} × strength of the fibre × {keeps}"))
    if strand.broken_n is not None:
        so_far = next((each for each in made if each.key == "strand_strength"), known["strand_strength"])
        made.append(
            replace(so_far, working=f"{so_far.working}; and one broke at {{broken}}", source="derived:estimate")
        )
    if strand.yarn_kg_m is None:
        filled = "{fill}" if strand.laid else "{packing}"
        made.append(
            replace(known["yarn"], working=f"{{strand_thickness}} across, {filled} of it fibre", kind="derived",
                    source="derived:packing")
        )  # fmt: skip
    if strand.laid:
        made.append(replace(known["bundle_diameter"], words="One bundle of cords, each round by itself",
                           working="{strands} cords of {strand_thickness} shared out, packed in a round",
                           source="graham1998"))  # fmt: skip
    return tuple(made)
