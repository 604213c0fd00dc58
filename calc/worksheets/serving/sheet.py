"""A centre serving: turns, thread, thickness, and whether it fits the nock."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc import units
from calc.data import practice
from calc.making.string import core_of_strands, serve
from calc.numerics import Spread, combine
from calc.units import INCH
from calc.worksheets.core import (
    Answer,
    Guide,
    Inputs,
    Number,
    Sentence,
    SheetText,
    Table,
    Worksheet,
    by_the_yard,
    cautions,
    fields,
    rows,
)
from calc.worksheets.core import next_steps as onward
from calc.worksheets.serving import drawings as serving_drawings
from calc.worksheets.serving.drawings import Nocked, fit_words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.units import System

TEXT = SheetText(__spec__)

_RESULTS = (
    "served_diameter", "serving_turns", "thread_length", "thread_to_cut", "nock_fit", "above_nock", "below_nock",
    "thread_fits", "cord_fits",
)  # fmt: skip
_SERVING = "The serving"

_THREAD_DIAMETER = replace(fields.THREAD_DIAMETER, group=_SERVING)
_SERVED_LENGTH = Number(
    key="served_length",
    label="Served length",
    hint="A third of it above the nocking point, the rest below for the fingers. Longer if an arm guard touches.",
    group=_SERVING,
    example="6 1/2 in",
    quantity="length",
    low=0.25 * INCH,
    high=40 * INCH,
)
_THREAD_WEIGHT = Number(
    key="thread_weight",
    label="Weight of the thread",
    hint="As on its reel, like 140 tex, or weigh some: 2 g / 20 m. Only to be told what the serving weighs.",
    group=_SERVING,
    example="not known",
    absent="not known",
    quantity="linear_density",
    low=1e-5,
    high=2e-3,
)
_NOCK_THROAT = Number(
    key="nock_throat",
    label="Throat of the nock",
    hint="Between its walls, where the string sits: find the drill shank that just goes in.",
    group=_SERVING,
    example="0.135 in",
    quantity="thickness",
    low=0.001,
    high=0.015,
)
_STRANDS = replace(
    fields.STRANDS,
    hint="Leave empty if not known. With it, you are told how many strands would fit.",
    example="14",
)

_BLAMES = {"thread_m": "thread_diameter", "core_m": "cord_diameter", "length_m": "served_length"}
_THREADS = (0.25, 0.30, 0.35, 0.40, 0.45, 0.50, 0.60, 0.70, 0.80)
"""Threads to choose from, by diameter [mm]."""
_LINES = 9
"""About so many strand counts are listed, from half of what the string has to half as much again."""


class ServingInputs(Inputs):
    """What was read, in SI, by field key."""

    cord_diameter: float
    strands: float | None
    thread_diameter: float
    served_length: float
    nock_throat: float
    thread_weight: float | None


def _figures(values: ServingInputs, at: Mapping[str, float]) -> dict[str, float]:
    core_m = values.cord_diameter * (1.0 + at["core"])
    thread_m = min(values.thread_diameter * (1.0 + at["thread"]), core_m)
    throat_m = values.nock_throat + at["throat"]
    length_m = values.served_length
    made = serve(core_m, thread_m, length_m, at["press"])
    cord_fits = max(0.0, throat_m * at["hold"] - 2.0 * thread_m * at["press"])
    counts = {} if values.strands is None else {"strands_fit": values.strands * (cord_fits / core_m) ** 2}
    return {
        "served_diameter": made.diameter_m,
        "serving_turns": made.turns,
        "thread_length": made.thread_m,
        "thread_to_cut": made.thread_m + at["ends"],
        "nock_fit": throat_m - made.diameter_m,
        "above_nock": length_m * at["above"],
        "below_nock": length_m * (1.0 - at["above"]),
        "thread_fits": max(0.0, (throat_m * at["hold"] - core_m) / 2.0 / at["press"]),
        "cord_fits": cord_fits,
        "cord_diameter": core_m,
        "thread_diameter": thread_m,
        "nock_throat": throat_m,
        **counts,
    }


def _weights(values: ServingInputs, thread_m: Spread) -> dict[str, Spread | float]:
    """Return what the thread in the coil weighs, where its weight was told."""
    if values.thread_weight is None:
        return {}
    return {"thread_weight": values.thread_weight, "serving_mass": thread_m.scaled(values.thread_weight)}


def _causes() -> dict[str, Spread]:
    return {
        "core": practice("thickness_reading").spread,
        "thread": practice("thickness_reading").spread,
        "throat": practice("throat_reading").spread,
        "press": practice("thread_press").spread,
        "hold": practice("nock_hold").spread,
        "ends": practice("serving_ends").spread,
        "above": practice("serving_above").spread,
    }


def _headlines(made: Nocked) -> tuple[Sentence, ...]:
    verdict = {"fits": "should fit", "too tight": "too tight", "too loose": "too loose"}[fit_words(made.ratio)]
    return (
        Sentence(
            level="answer",
            lead="Served",
            text=f"{verdict}: {{served_diameter}} in a throat of {{nock_throat}}",
            span="{served_diameter.low} to {served_diameter.high}",
            against="nock_throat",
        ),
        Sentence(
            level="answer",
            lead="Wind",
            text="{serving_turns} turns; cut {thread_to_cut} of thread",
            span="{thread_length} of it in the coil",
        ),
        Sentence(
            level="answer",
            lead="Place it",
            text="from {above_nock} above the nocking point to {below_nock} below",
            span="{served_length} in all",
        ),
    )


_TRIAL = "How thick it turns out depends on how hard you wind: serve an inch, try a nock on it, then serve the rest."


def _cautions(made: Nocked, length_m: float, served: Spread) -> tuple[Sentence, ...]:
    said = [Sentence(level="caution", text=text) for text in _misfit(made)]
    others = {fit_words(each / made.throat_m) for each in (served.low, served.high)} - {fit_words(made.ratio)}
    doubt = f"It may turn out {' or '.join(sorted(others))} all the same. " if others and not said else ""
    if length_m * (1.0 - practice("serving_above").spread.value) < practice("serving_below").spread.low:
        said.append(Sentence(text="Short for fingers: most need 4 to 5 in (100 to 130 mm) below the nocking point."))
    return (*said, TEXT.caution("tap"), Sentence(text=doubt + _TRIAL), TEXT.caution("way"), cautions.DOUBT)


def _misfit(made: Nocked) -> tuple[str, ...]:
    """Say what to change where it does not fit."""
    fit = fit_words(made.ratio)
    threads = "a thread of about {thread_fits} ({thread_fits.low} to {thread_fits.high})"
    remade = ", or make the string with about {strands_fit} strands" if made.strands else ""
    if made.core_m >= made.throat_m:
        bare = "The bare string is as thick as the throat: no serving fits. Use a wider nock, or a string"
        return (f"{bare} {{cord_fits}} thick{remade}. Fewer strands hold less: work out their strength first.",)
    if fit == "too tight":
        weaker = " Fewer strands hold less: work out their strength first." if made.strands else ""
        return (f"Too tight. Take {threads}{remade}.{weaker}",)
    if fit == "too loose":
        return (f"Too loose. Take {threads}, lay more strands in under the serving{remade}.",)
    return ()


def _table(made: Nocked, length_m: float, system: System) -> tuple[Table, ...]:
    """List which threads would fit, and where strands are known, how many."""

    def line(core_m: float, thread_m: float, layers: int = 1) -> tuple[str, str]:
        over_m = serve(core_m, thread_m, length_m).diameter_m + 2.0 * (layers - 1) * thread_m
        return units.show(over_m, "thickness", system), fit_words(over_m / made.throat_m)

    thin = [each / 1000.0 for each in _THREADS if each / 1000.0 <= made.core_m]
    threads = [(units.show(each, "thickness", system), *line(made.core_m, each)) for each in thin]
    threads.append(("this thread, in two layers", *line(made.core_m, made.thread_m, 2)))
    found = [
        Table(
            key="threads",
            title="Which thread would fit",
            heads=("Thread", "served", "in this nock"),
            cells=tuple(threads),
            note="The string as it is, {cord_diameter}.",
        )
    ]
    if made.strands:
        found.append(
            Table(
                key="counts",
                title="How many strands would fit",
                heads=("Strands", "string", "served", "in this nock"),
                cells=tuple(
                    (f"{count}", units.show(core_m, "thickness", system), *line(core_m, made.thread_m))
                    for count, core_m in _counted(made)
                ),
                note="With this thread, {thread_diameter}. More strands can also lie under the serving only.",
            )
        )
    return tuple(found)


def _counted(made: Nocked) -> list[tuple[int, float]]:
    """Return strand counts about that of the string, and its thickness with each [m]."""
    step = 2 * max(1, round(made.strands / 2.0 / _LINES))
    counts = sorted({*range(max(2, 2 * (made.strands // 4)), made.strands * 3 // 2 + 1, step), made.strands})
    cores = [(count, core_of_strands(made.core_m, made.strands, count)) for count in counts]
    return [(count, core_m) for count, core_m in cores if core_m >= made.thread_m]


def plan(values: ServingInputs) -> Answer:
    """Return the answer of the serving worksheet.

    Parameters
    ----------
    values : ServingInputs
        As read.

    Raises
    ------
    DomainError
        For a thread thicker than the string.
    """
    length_m = values.served_length
    made = Nocked(
        core_m=values.cord_diameter,
        thread_m=values.thread_diameter,
        throat_m=values.nock_throat,
        strands=int(values.strands or 0),
        served=serve(values.cord_diameter, values.thread_diameter, length_m),
    )
    causes = _causes()
    figures = combine(lambda at: _figures(values, at), causes)
    numbers: dict[str, Spread | float] = {
        **figures,
        "served_length": length_m,
        "thread_press": causes["press"],
        "nock_hold": causes["hold"],
        "serving_ends": causes["ends"],
        "serving_above": causes["above"],
        **({} if values.strands is None else {"strands": values.strands}),
        **_weights(values, figures["thread_length"]),
    }
    told = WORKSHEET.row_texts
    for thread in ("thread_length", "thread_to_cut"):
        told = by_the_yard(told, thread, numbers[thread])
    return Answer(
        rows=rows(_RESULTS, numbers, told),
        headlines=_headlines(made),
        cautions=(
            *_cautions(made, length_m, figures["served_diameter"]),
            *(() if values.thread_weight is None else (TEXT.caution("weighs"),)),
        ),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: serving_drawings.drawings(made, system),
        tables=lambda system: _table(made, length_m, system),
    )


WORKSHEET = Worksheet(
    id="serving",
    place=75,
    title="Serve the centre",
    purpose="Turns and thread of a centre serving, and whether the served string fits the nock.",
    groups=(fields.CORD, _SERVING),
    fields=(fields.CORD_DIAMETER, _STRANDS, _THREAD_DIAMETER, _SERVED_LENGTH, _NOCK_THROAT, _THREAD_WEIGHT),
    results=_RESULTS,
    plan=plan,
    inputs=ServingInputs,
    text=TEXT,
    blames=_BLAMES,
    next=(onward.SERVE, onward.NOCKING_POINT),
    guides=(
        Guide(page="serve", step="where", words="Mark where to serve"),
        Guide(page="serve", step="wind", words="Wind it"),
        Guide(page="serve", step="fit", words="Try the nock"),
    ),
)
