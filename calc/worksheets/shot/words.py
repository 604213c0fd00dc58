"""What the shot sheet says: rows, sentences, headlines and cautions."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.geometry.ends import is_pipe
from calc.mechanics.bow import string_length
from calc.mechanics.fibre import grains_per_pound, reasons_for_care
from calc.worksheets.core import RowText, Sentence
from calc.worksheets.core import cautions as shared

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.making.shot import ShotResult
    from calc.mechanics.shot import Shot
    from calc.numerics import Spread


_BOUND = (
    "Limbs that bend only near the handle are worked out as stiff ones, which cannot give way. The hardest pulls told "
    "here are upper bounds: limbs that give stay below them, by a tenth with a string that stretches, by a half or "
    "more with one that hardly does."
)


def headlines(*, laden: bool) -> tuple[Sentence, ...]:
    """Return what the shot does, in words.

    Parameters
    ----------
    laden : bool
        Whether something hangs on the string, which then has to hold more.
    """
    hold = "peak_laden" if laden else "tension_peak"
    like = " with what hangs on it" if laden else ": bows like this one are not all alike"
    chosen = "; the sheets that choose strands do not know of it" if laden else ", as on the sheets that choose strands"
    return (
        Sentence(
            level="answer",
            lead="Arrow speed",
            text="{arrow_speed}: {efficiency} of {stored_energy} stored",
            span="{arrow_speed.low} to {arrow_speed.high}",
        ),
        Sentence(
            level="answer",
            lead="The string pulls",
            text="{tension_brace} braced, {tension_draw} drawn, {tension_peak_before} with the arrow on",
            span="{tension_peak_before.low} to {tension_peak_before.high} with the arrow on",
        ),
        Sentence(
            level="answer",
            lead="Hardest",
            text="{tension_peak_after} after the arrow has gone, {peak_multiple} times the draw weight",
            span="{tension_peak_after.low} to {tension_peak_after.high}",
        ),
        Sentence(
            level="answer",
            lead="Count on",
            text=f"{{{hold}}} as what a string must hold{like}",
            span=f"{{{hold}.low}} to {{{hold}.high}}{chosen}",
        ),
        Sentence(
            level="answer",
            lead="Another string",
            text="1 1/2 times as heavy: {speed_heavier}; half as stiff: {speed_softer}",
            span="and {peak_softer} at the hardest with the softer one, {peak_now} now",
        ),
    )


def row_texts(own: tuple[RowText, ...], done: ShotResult) -> tuple[RowText, ...]:
    """Return the rows, those that were typed told as such.

    Parameters
    ----------
    own : tuple of RowText
        The sheet's rows.
    done : ShotResult
        As worked out.
    """
    asked, found = done.asked, {row.key: row for row in own}
    typed = {"limb_mass": asked.limb_kg, "string_mass": asked.string_kg, "string_stiffness": asked.stiffness_n}
    rows = {
        key: replace(found[key], working="as typed", source="input", kind="measured")
        for key, value in typed.items()
        if value is not None
    }
    if asked.limb_kg is None and is_pipe(asked.tip):
        wall = "of schedule 40, perhaps 80" if asked.schedule is None else f"of schedule {asked.schedule}"
        rows["limb_mass"] = replace(
            found["limb_mass"],
            working=f"not weighed: ({{nock_to_nock}} − {{handle}}) ÷ 2 of rigid PVC pipe, its wall {wall}",
            source="pvc-pipe",
            kind="measured",
        )
    if asked.table is not None:
        rows["stored_energy"] = replace(
            found["stored_energy"], working="area under your own draw and force, over {way_drawn}", kind="measured"
        )
    return (*rows.values(), *(each for each in own if each.key not in rows))


def speed(made: Shot, kept: float) -> float:
    """Return the speed of the arrow with what friction, hand and air leave of its energy [m/s].

    Parameters
    ----------
    made : Shot
        As worked out.
    kept : float
        Share of the arrow's energy that is left. [-]
    """
    return made.speed_m_s * sqrt(kept)


def compared(done: ShotResult) -> Mapping[str, Spread | float]:
    """Return the numbers of other strings and arrows, by row key.

    Parameters
    ----------
    done : ShotResult
        As worked out.
    """
    kept = done.causes["kept"].value
    figures = done.figures
    hardest = max(figures["tension_peak_before"], figures["tension_peak_after"], key=lambda each: each.value)
    found: dict[str, Spread | float] = {
        "grains": grains_per_pound(done.asked.arrow_kg, done.asked.force_n),
        "peak_now": hardest,
        "speed_heavier": speed(done.heavier, kept),
        "speed_softer": speed(done.softer, kept),
        "peak_softer": hardest.scaled(done.softer.peak_n / hardest.value),
    }
    if done.asked.table is not None:
        found["energy_modelled"] = done.modelled_j
    return found


def learnt(done: ShotResult) -> dict[str, Spread | float]:
    """Return the draw weight with how sure it is, by row key; a table is taken as it was read.

    Parameters
    ----------
    done : ShotResult
        As worked out.
    """
    bow = done.asked.bow
    if done.asked.table is not None:
        return {}
    first = replace(bow, forces=()).spread(lambda each: each.weight_n)
    if not bow.forces:
        return {"weight_first": first}
    return {
        "weight_first": first,
        "weight_found": bow.spread(lambda each: each.weight_n),
        "weighed_force": bow.forces[0].force_n,
        "weighed_draw": bow.forces[0].draw_m,
    }


def _of_weighed(done: ShotResult) -> list[Sentence]:
    """Say what a weighed force told."""
    if done.asked.table is not None:
        if not done.asked.left_aside:
            return []
        return [
            Sentence(text="Your table holds the bow's own forces: the single force that was weighed is left aside.")
        ]
    if not done.asked.bow.forces:
        return []
    said = [
        Sentence(
            text="With the force you weighed the draw weight is {weight_found.low} to {weight_found.high}; told alone "
            "it was {weight_first.low} to {weight_first.high}. All pulls and the energy get surer with it."
        )
    ]
    if done.asked.bow.apart:
        text = "The weighed force and the draw weight do not go together on a bow like this. Check scale and draws."
        said.append(Sentence(level="caution", text=text))
    return said


def cautions(done: ShotResult) -> tuple[Sentence, ...]:
    """Return what may go wrong, in words.

    Parameters
    ----------
    done : ShotResult
        As worked out.
    """
    asked, rigid = done.asked, done.asked.bow.shape == "hinged"
    said = [
        Sentence(
            level="caution",
            standing=True,
            text="Never loose without an arrow. Nothing would carry the energy off: the string would be pulled to "
            f"{'as much as' if rigid else 'about'} {{dry_peak}}, and limbs and string would have to bear it all. Bows "
            "break that way.",
        )
    ]
    if rigid:
        said.append(Sentence(text=_BOUND))
    reasons = {each.key for each in reasons_for_care(None, arrow_kg=asked.arrow_kg, draw_weight_n=asked.force_n)}
    if "arrow_dry" in reasons:
        said.append(
            Sentence(
                level="caution",
                text="This arrow weighs {grains} grains for each pound of draw weight, so little that it is close to "
                "no arrow at all. Do not shoot it from this bow.",
            )
        )
    if "arrow_light" in reasons:
        said.append(
            Sentence(
                level="caution",
                text="This arrow weighs {grains} grains for each pound of draw weight. Wooden bows are shot with 8 to "
                "10 or more, youth and pipe bows with more still. A light arrow leaves limbs and string more to bear.",
            )
        )
    said += shared.of_brace_height(asked.bow.nock_to_nock_m, asked.brace_m)
    pipe = (shared.PIPE,) if is_pipe(asked.tip) else ()
    return (*said, *pipe, *_of_string(done), *_by_table(done), *_of_weighed(done), shared.YOUNG, shared.DOUBT)


def _of_string(done: ShotResult) -> tuple[Sentence, ...]:
    """Caution about the fibre, or about a string whose stiffness was typed and is that of a low-stretch fibre."""
    asked = done.asked
    if asked.stiffness_n is None:
        return shared.of_fibre(asked.fibre)
    kg_m = done.string.mass_kg / string_length(asked.settled(), asked.brace_m)
    if asked.stiffness_n / kg_m <= practice("low_stretch").spread.value:
        return ()
    text = "This string hardly stretches for its weight. Use it only where a qualified bowyer says the bow is built"
    return (Sentence(level="caution", text=f"{text} for it."),)


def _by_table(done: ShotResult) -> list[Sentence]:
    if done.asked.table is None:
        return []
    text = "Your table stores {stored_energy}, limbs of that shape and draw weight would store {energy_modelled}."
    return [Sentence(text=f"{text} The draw weight is taken from the table.")]
