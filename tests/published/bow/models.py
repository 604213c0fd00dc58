"""Ours beside the bows that were measured, over what is not told of them: the calls of `measured.toml`, in SI."""

from __future__ import annotations

from itertools import product
from math import sqrt
from typing import TYPE_CHECKING

from calc.data import fibre, practice
from calc.mechanics.bow import Bow, brace_height, draw_curve, static_tension, string_length
from calc.mechanics.shot import ShotString, shot, strand_string, usual_limb_mass
from calc.numerics import Spread
from calc.units import GRAIN, INCH, POUND_FORCE

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from calc.mechanics.bow import DrawPoint, LimbShape

SHAPES: tuple[LimbShape, ...] = ("arc", "tapered", "uniform")


def _range(values: Iterable[float]) -> Spread:
    """Return the range of values that are all as likely, its middle as value."""
    found = list(values)
    low, high = min(found), max(found)
    return Spread(low, (low + high) / 2.0, high)


def _bows(nock_in: float, handle_in: float = 8.0, **more: float) -> Iterator[Bow]:
    return (Bow(nock_in * INCH, handle_in * INCH, shape, **more) for shape in SHAPES)


def _following(nock_in: float, follow_in: list[float]) -> Iterator[Bow]:
    return (bow for each in follow_in for bow in _bows(nock_in, string_follow_m=each * INCH))


def _inches(bow: Bow, brace_in: float, draw_in: float) -> tuple[DrawPoint, ...]:
    """Return a draw of weight 1, inch by inch."""
    return draw_curve(bow, brace_in * INCH, draw_in * INCH, 1.0, steps=round(draw_in - brace_in)).points


def braced_tension(nock_in: float, brace_in: float, draw_in: float, follow_in: list[float]) -> Spread:
    """Return string tension at brace / draw weight, over shapes and string follow."""
    return _range(_inches(bow, brace_in, draw_in)[0].tension_n for bow in _following(nock_in, follow_in))


def tension_at(nock_in: float, brace_in: float, draw_in: float, at_in: float, follow_in: list[float]) -> Spread:
    """Return string tension at a draw / draw weight, over shapes and string follow."""
    at = round(at_in - brace_in)
    return _range(_inches(bow, brace_in, draw_in)[at].tension_n for bow in _following(nock_in, follow_in))


def first_rise(nock_in: float, brace_in: float, draw_in: float, force_lbf: float, follow_in: list[float]) -> Spread:
    """Return the force gained by an inch over the first three [N/m]."""
    bows, rise = _following(nock_in, follow_in), force_lbf * POUND_FORCE / INCH
    return _range(rise * _inches(bow, brace_in, draw_in)[3].force_n / 3.0 for bow in bows)


def last_rise(nock_in: float, brace_in: float, draw_in: float, force_lbf: float, follow_in: list[float]) -> Spread:
    """Return the force gained by an inch over the last two [N/m]."""
    bows, rise = _following(nock_in, follow_in), force_lbf * POUND_FORCE / INCH
    return _range(rise * (1.0 - _inches(bow, brace_in, draw_in)[-3].force_n) / 2.0 for bow in bows)


def fullness(nock_in: float, handle_in: float, brace_cm: float, way_cm: float) -> Spread:
    """Return stored energy / (draw weight x way drawn), over shapes and 0 to 3 in of string against each tip."""
    brace_m, draw_m = brace_cm / 100.0, (brace_cm + way_cm) / 100.0
    bows = (bow for contact_in in (0.0, 3.0) for bow in _bows(nock_in, handle_in, contact_m=contact_in * INCH))
    return _range(static_tension(bow, brace_m, draw_m, 1.0).energy_j / (way_cm / 100.0) for bow in bows)


def string_weight_loss(nock_in: float, force_lbf: list[float]) -> Spread:
    """Return the speed lost to 30 strands of linen in place of 12, over shapes and draw weights [-]."""

    def lost(bow: Bow, pounds: float) -> float:
        brace_m, draw_m, force_n = 6.5 * INCH, 28.0 * INCH, pounds * POUND_FORCE
        long_m = string_length(bow, brace_m)
        speeds = []
        for strands, grains in ((12, 108.0), (30, 254.0)):
            string = strand_string(fibre("linen"), grains * GRAIN / strands / long_m, strands, long_m)
            limb_kg = usual_limb_mass(brace_m, draw_m, force_n).value
            found = shot(bow, brace_m, draw_m, force_n, arrow_kg=400.0 * GRAIN, string=string, limb_mass_kg=limb_kg)
            speeds.append(found.speed_m_s)
        return 1.0 - speeds[1] / speeds[0]

    return _range(lost(bow, pounds) for bow in _bows(nock_in) for pounds in force_lbf)


def brace_of_slack_string(nock_in: list[float], short_in: list[float], stretch_percent: list[float]) -> Spread:
    """Return the brace height that a string gives which is so much shorter than the bow before it stretches [m]."""
    return _range(
        brace_height(bow, (nock - short) * (1.0 + percent / 100.0) * INCH)
        for nock, short, percent in product(nock_in, short_in, stretch_percent)
        for bow in _bows(nock)
    )


def arrow_speed(
    *,
    fibre_key: str,
    string_gr: float,
    nock_in: float,
    set_in: float,
    force_lbf: float,
    brace_in: list[float],
    draw_in: list[float],
    arrow_gr: float,
    limb_kg: list[float],
) -> Spread:
    """Return the speed of an arrow, over shapes and what is not told, less what friction usually takes [m/s].

    How much friction may take is our own guess: its width is left out, since it would let any speed pass.
    """

    def speed(bow: Bow, brace: float, draw: float, limb: float) -> float:
        long_m = string_length(bow, brace * INCH)
        string = strand_string(fibre(fibre_key), string_gr * GRAIN / long_m, 1, long_m)
        pull_n = force_lbf * POUND_FORCE
        found = shot(
            bow, brace * INCH, draw * INCH, pull_n, arrow_kg=arrow_gr * GRAIN, string=string, limb_mass_kg=limb
        )
        return found.speed_m_s

    kept = sqrt(practice("shot_kept").spread.value)
    return _range(
        kept * speed(bow, *rest)
        for bow in _bows(nock_in, string_follow_m=set_in * INCH)
        for rest in product(brace_in, draw_in, limb_kg)
    )


def rides_along(nock_in: float, force_lbf: float, arrow_gr: list[float]) -> Spread:
    """Return by how much arrow a gram of string is worth in speed, over shapes and arrows [-]."""

    def share(bow: Bow, arrow: float) -> float:
        def speed(arrow_gr: float, string_gr: float) -> float:
            found = shot(
                bow,
                6.5 * INCH,
                28.0 * INCH,
                force_lbf * POUND_FORCE,
                arrow_kg=arrow_gr * GRAIN,
                string=ShotString(3e4, string_gr * GRAIN),
                limb_mass_kg=usual_limb_mass(6.5 * INCH, 28.0 * INCH, force_lbf * POUND_FORCE).value,
            )
            return found.speed_m_s

        start = speed(arrow, 110.0)
        return (speed(arrow, 150.0) - start) / 40.0 / ((speed(arrow + 10.0, 110.0) - start) / 10.0)

    return _range(share(bow, arrow) for bow in _bows(nock_in) for arrow in arrow_gr)


_STRAIGHT = (Bow(1.8288, 0.2032, "tapered"), 0.1524, 0.7112, 152.297)


def static_coefficient() -> Spread:
    """Return stored energy / (draw weight x draw) of the thesis' straight bow."""
    return Spread.exactly(static_tension(*_STRAIGHT).energy_j / (_STRAIGHT[3] * _STRAIGHT[2]))


def efficiency() -> Spread:
    """Return its efficiency, over strings of 20 to 80 kN."""
    strings = (ShotString(stiff_n, 0.0068) for stiff_n in (20e3, 80e3))
    return _range(shot(*_STRAIGHT, arrow_kg=0.025, string=each, limb_mass_kg=0.1625).efficiency for each in strings)
