"""Absurd but finite input, and input that is no number: only a named problem may come out, never another error."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.data import fibres
from calc.errors import DomainError
from calc.mechanics.bow import (
    SHAPES,
    Bow,
    brace_after,
    brace_height,
    brace_limit,
    brace_per_length,
    draw_curve,
    end_tension,
    force_table,
    limb_outline,
    measured_curve,
    static_tension,
    string_length,
)
from calc.mechanics.estimate import BowEstimate, ForceRead, StringRead
from calc.mechanics.fibre import (
    Findings,
    Load,
    assembly,
    assembly_efficiency,
    breaking_force,
    creep,
    elastic_stretch,
    expected_worst,
    fibre_strain,
    fill,
    grains_per_pound,
    judge,
    lay_efficiency,
    loop_efficiency,
    rated_strength,
    reasons_for_care,
    rolled,
    rope,
    rope_ratio,
    settle,
    sharing_efficiency,
    strand_strength,
    strength_ratio,
    stress_pa,
    string_stiffness,
    twist_efficiency,
    usual_settling,
    weighed,
    wet_strength,
    working_load,
)
from calc.mechanics.shot import (
    AddedMass,
    ShotString,
    dry_fire_peak,
    shot,
    strand_string,
    usual_limb_mass,
)
from calc.numerics import Spread

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.data import Fibre

pytestmark = pytest.mark.exact
fuzz = settings(derandomize=True, deadline=None, max_examples=150)
few = settings(derandomize=True, deadline=None, max_examples=40)

ABSURD = st.sampled_from(
    [0.0, -1.0, 1e-300, 5e-324, 1e-12, 1e-3, 1e3, 1e12, 1e155, 1e300, -1e300, float("inf"), float("-inf"), float("nan")]
)


def near(low: float, high: float) -> st.SearchStrategy[float]:
    """Return numbers most of which a bow may have, and some that none has."""
    return st.one_of(st.floats(low, high), st.floats(low, high), st.floats(low, high), ABSURD, st.floats())


BOWS = st.builds(
    Bow,
    near(0.9, 2.0),
    near(0.0, 0.4),
    st.sampled_from(SHAPES),
    near(-0.03, 0.04),
    near(-0.05, 0.08),
    st.one_of(st.just(0.0), near(0.0, 0.1)),
)
FIBRE = st.sampled_from(fibres())
LENGTH, FORCE, MASS, YARN, LAY = near(0.05, 1.8), near(1.0, 900.0), near(1e-3, 0.5), near(1e-5, 1e-2), near(0.0, 1.5)


def named(work: Callable[[], object]) -> None:
    """Let a sum answer, or say by name why it does not."""
    with suppress(DomainError):
        work()


@st.composite
def bows(draw: st.DrawFn) -> Bow:
    """Return a bow; one that cannot be is a plain one, the same laws hold for the rest."""
    try:
        return draw(BOWS)
    except DomainError:
        return Bow(draw(st.floats(0.9, 2.0)), 0.2, draw(st.sampled_from(SHAPES)))


@st.composite
def knowns(draw: st.DrawFn) -> BowEstimate:
    bow = draw(bows())
    return BowEstimate(
        nock_to_nock_m=bow.nock_to_nock_m,
        handle_length_m=bow.handle_length_m if draw(st.booleans()) or bow.nock_to_nock_m < 0.5 else None,
        shape=bow.shape if draw(st.booleans()) else None,
        handle_proud_m=0.0 if abs(bow.handle_proud_m) > 0.05 else bow.handle_proud_m,
    )


@fuzz
@given(bows(), LENGTH, LENGTH, FORCE)
def test_bows_at_rest(bow: Bow, brace_m: float, draw_m: float, force_n: float) -> None:
    for work in (
        lambda: string_length(bow, brace_m),
        lambda: brace_height(bow, draw_m),
        lambda: brace_per_length(bow, brace_m),
        lambda: brace_after(bow, brace_m, draw_m - 0.5),
        lambda: brace_after(bow, brace_m, draw_m),
        lambda: limb_outline(bow, brace_m),
        lambda: static_tension(bow, brace_m, draw_m, force_n),
        lambda: draw_curve(bow, brace_m, draw_m, force_n, steps=5),
        lambda: end_tension(bow, brace_m, draw_m, force_n),
        lambda: usual_limb_mass(brace_m, draw_m, force_n),
        lambda: brace_limit(bow),
    ):
        named(work)


@few
@given(knowns(), LENGTH, LENGTH, FORCE)
def test_bows_of_which_little_is_known(known: BowEstimate, brace_m: float, draw_m: float, force_n: float) -> None:
    for work in (
        lambda: known.spread(lambda each: each.string_m(brace_m)),
        lambda: known.spread(lambda each: each.brace_m(draw_m)),
        lambda: known.spread(lambda each: each.slope(brace_m)),
        lambda: replace(known, draw_m=draw_m, draw_weight_n=force_n).drawn(brace_m=brace_m),
        lambda: replace(known, draw_m=draw_m, draw_weight_n=force_n).drawn(string_m=brace_m),
    ):
        named(work)


@few
@given(knowns(), st.lists(st.tuples(LENGTH, LENGTH), max_size=3), LENGTH)
def test_bows_given_strings(known: BowEstimate, pairs: list[tuple[float, float]], string_m: float) -> None:
    def work() -> None:
        found = known.given(*(StringRead(*each) for each in pairs))
        found.spread(lambda each: each.brace_m(string_m))
        found.spread(lambda each: each.string_m(string_m))

    named(work)


@few
@given(
    knowns(),
    st.lists(st.tuples(LENGTH, FORCE, near(0.01, 0.1), st.one_of(st.none(), LENGTH)), max_size=3),
    LENGTH,
    st.one_of(st.none(), LENGTH),
    st.one_of(st.none(), st.tuples(LENGTH, LENGTH)),
)
def test_bows_weighed(
    known: BowEstimate,
    reads: list[tuple[float, float, float, float | None]],
    draw_m: float,
    brace_m: float | None,
    pair: tuple[float, float] | None,
) -> None:
    def work() -> None:
        strings = () if pair is None else (StringRead(*pair),)
        bow = replace(known, draw_m=draw_m, braced_m=brace_m)
        bow.given(*strings, *(ForceRead(*each) for each in reads)).drawn(brace_m=brace_m or 0.15)

    named(work)


@few
@given(bows(), LENGTH, LENGTH, st.lists(st.tuples(LENGTH, FORCE), max_size=4))
def test_tables_of_force(bow: Bow, brace_m: float, draw_m: float, reads: list[tuple[float, float]]) -> None:
    def work() -> None:
        table = force_table(brace_m, reads)
        table.force_n(draw_m)
        measured_curve(bow, brace_m, draw_m, table)

    named(work)


@fuzz
@given(
    bows(), near(0.1, 0.2), near(0.4, 0.8), FORCE, near(0.005, 0.1), near(2e3, 4e5), near(1e-3, 0.05),
    near(0.02, 0.5), st.one_of(st.none(), near(1.0, 90.0)), near(0.002, 0.02),
)  # fmt: skip
def test_shots(  # noqa: PLR0917 - what a shot takes
    bow: Bow,
    brace_m: float,
    draw_m: float,
    force_n: float,
    arrow_kg: float,
    stiff_n: float,
    string_kg: float,
    limb_kg: float,
    stored_j: float | None,
    after_s: float,
) -> None:
    def loose(string: ShotString) -> object:
        return shot(
            bow, brace_m, draw_m, force_n, arrow_kg=arrow_kg, string=string, limb_mass_kg=limb_kg, stored_j=stored_j,
            after_s=after_s, within=0.1,
        )  # fmt: skip

    string = ShotString(stiff_n, string_kg)
    named(lambda: loose(string))
    named(lambda: loose(replace(string, added=(AddedMass(string_kg, after_s, brace_m),))))
    named(
        lambda: dry_fire_peak(
            bow, brace_m, draw_m, force_n, string=string, limb_mass_kg=limb_kg, time_s=after_s, within=0.1
        )
    )


@fuzz
@given(FIBRE, FIBRE, YARN, FORCE, LAY, near(0.0, 1e6), near(250.0, 330.0), st.integers(-2, 20_000))
def test_fibres_and_strings(  # noqa: PLR0917 - what a string takes
    one: Fibre, other: Fibre, yarn: float, force_n: float, lay: float, time_s: float, heat_k: float,
    count: int,
) -> None:  # fmt: skip
    for work in (
        lambda: elastic_stretch(one, yarn, force_n, lay),
        lambda: creep(one, yarn, Load(force_n, time_s, heat_k)),
        lambda: settle(one, yarn, Load(force_n, time_s, heat_k), Load(force_n, time_s), lay),
        lambda: usual_settling(heat_k),
        lambda: fibre_strain(one, force_n * 1e6),
        lambda: stress_pa(force_n, time_s),
        lambda: string_stiffness(one, yarn, lay),
        lambda: twist_efficiency(lay),
        lambda: lay_efficiency(lay),
        lambda: loop_efficiency(yarn, force_n, lay),
        lambda: assembly(one, count, lay),
        lambda: assembly_efficiency(lay),
        lambda: strand_strength(one, yarn),
        lambda: wet_strength(one, yarn),
        lambda: breaking_force(one, yarn, Spread.exactly(0.6)),
        lambda: sharing_efficiency(one, count),
        lambda: expected_worst(count),
        lambda: strand_string(one, yarn, count, force_n / 100.0, lay_rad=lay),
        lambda: strength_ratio(one, other, "weight"),
        lambda: grains_per_pound(yarn, force_n),
        lambda: reasons_for_care(one, arrow_kg=yarn, draw_weight_n=force_n),
        lambda: working_load(force_n, time_s),
        lambda: rated_strength(force_n, "breaking"),
    ):
        named(work)


@fuzz
@given(FORCE, st.floats(0.0, 1e6), YARN, near(0.0005, 0.02), st.integers(-2, 300), near(500.0, 2000.0))
def test_judgements(  # noqa: PLR0917 - what a judgement takes
    held_n: float, rated_n: float, yarn: float, thick_m: float, count: int, density: float
) -> None:
    for work in (
        lambda: fill(density, yarn, thick_m),
        lambda: rolled(thick_m, count),
        lambda: weighed(yarn, thick_m),
        lambda: rope("polyester", thick_m),
        lambda: rope_ratio("polyester", "nylon", thick_m, "thickness"),
        lambda: judge(Findings(linear_density_kg_m=yarn, thickness_m=thick_m, held_n=held_n, rated_n=rated_n)),
    ):
        named(work)
