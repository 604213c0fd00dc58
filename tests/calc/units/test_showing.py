"""Numbers as a reader sees them: the steps a maker uses, and back again without loss."""

from __future__ import annotations

from fractions import Fraction
from math import inf, nan
from typing import get_args

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.errors import DomainError
from calc.units import Quantity, System, read, show, show_limit, si_unit, unit_label

PINT: pint.UnitRegistry[float] = pint.UnitRegistry()
CALM = settings(derandomize=True, deadline=None, max_examples=200)
QUANTITIES = st.sampled_from(get_args(Quantity))
SYSTEMS = st.sampled_from(get_args(System))
SIZES = st.floats(-1e6, 1e6) | st.floats(-10, 10) | st.floats(-0.1, 0.1) | st.sampled_from([0.0, -0.0, 5e-324])
STEPS: dict[Quantity, tuple[tuple[str, str, str], tuple[str, str, str]]] = {  # label, unit in pint, step
    "length": (("in", "inch", "1/16"), ("mm", "mm", "1")),
    "thickness": (("in", "inch", "0.001"), ("mm", "mm", "0.01")),
    "force": (("lb", "force_pound", "0.1"), ("kg", "kilogram_force", "0.1")),
    "mass": (("gr", "grain", "1"), ("g", "gram", "0.1")),
    "linear_density": (("tex", "tex", "1"), ("tex", "tex", "1")),
    "temperature": (("°F", "degF", "1"), ("°C", "degC", "1")),
    "angle": (("°", "degree", "0.1"), ("°", "degree", "0.1")),
    "fraction": (("%", "percent", "0.1"), ("%", "percent", "0.1")),
    "turns": (("", "turn", "0.5"), ("", "turn", "0.5")),
    "turns_per_length": (("turns/in", "turn/inch", "0.01"), ("turns/m", "turn/m", "1")),
    "count": (("", "", "1"), ("", "", "1")),
    "ratio": (("", "", "0.01"), ("", "", "0.01")),
    "energy": (("ft·lb", "foot*force_pound", "0.1"), ("J", "joule", "0.1")),
    "speed": (("ft/s", "foot/second", "1"), ("m/s", "m/s", "0.1")),
    "stiffness": (("lb", "force_pound", "1"), ("kg", "kilogram_force", "1")),
    "time": (("s", "second", "0.001"), ("s", "second", "0.001")),
    "duration": (("h", "hour", "0.1"), ("h", "hour", "0.1")),
    "frequency": (("Hz", "hertz", "0.1"), ("Hz", "hertz", "0.1")),
    "distance": (("yd", "yard", "0.1"), ("m", "m", "0.1")),
    "goods": (("oz", "ounce", "0.1"), ("g", "g", "1")),
    "weighed": (("g", "gram", "0.1"), ("g", "gram", "0.1")),
}
LARGE: dict[Quantity, int] = {"force": 100}
"""From this number on a step is ten times as large."""
SI_IN_PINT = {"turn": "turn", "turn/m": "turn/m", "K": "kelvin", "1": ""}


def parsed(text: str, label: str) -> Fraction:
    """Return the number of a shown text."""
    number = text.removesuffix(label).strip()
    sign = -1 if number.startswith("−") else 1
    return sign * sum((Fraction(part) for part in number.lstrip("−+").split()), Fraction(0))


def in_reader_units(value: float, quantity: Quantity, system: System) -> float:
    """Return an SI value in the reader's unit, as pint works it out."""
    unit = STEPS[quantity][get_args(System).index(system)][1]
    si = si_unit(quantity)
    return float(PINT.Quantity(value, SI_IN_PINT.get(si, si)).to(unit).magnitude)


@pytest.mark.exact
@pytest.mark.parametrize(
    ("value", "quantity", "system", "expected"),
    [  # each number worked from the definitions, then rounded to the step
        (62.6875 * 0.0254, "length", "inch", "62 11/16 in"), (62.69 * 0.0254, "length", "inch", "62 11/16 in"),
        (62.5 * 0.0254, "length", "inch", "62 1/2 in"), (62 * 0.0254, "length", "inch", "62 in"),
        (0.0254 / 16, "length", "inch", "1/16 in"), (-1.5 * 0.0254, "length", "inch", "−1 1/2 in"),
        (0.0254 / 31, "length", "inch", "1/16 in"), (0.0254 / 33, "length", "inch", "0 in"),
        (-0.0254 / 33, "length", "inch", "0 in"), (1.5922, "length", "metric", "1592 mm"),
        (12.0, "length", "metric", "12000 mm"),
        (-0.0004, "length", "metric", "0 mm"), (0.018 * 0.0254, "thickness", "inch", "0.018 in"),
        (0.00046, "thickness", "metric", "0.46 mm"), (45 * 4.4482216152605, "force", "inch", "45.0 lb"),
        (200.2, "force", "metric", "20.4 kg"), (9.75, "force", "metric", "0.99 kg"),
        (9.76, "force", "metric", "1.0 kg"),
        (-9.75, "force", "metric", "−0.99 kg"), (-9.76, "force", "metric", "−1.0 kg"),
        (980.0, "force", "metric", "99.9 kg"), (980.3, "force", "metric", "100 kg"),
        (1883.0, "force", "inch", "423 lb"),
        (400 * 64.79891e-6, "mass", "inch", "400 gr"),
        (0.0259, "mass", "metric", "25.9 g"), (62.54e-6, "linear_density", "inch", "62.5 tex"),
        (140.4e-6, "linear_density", "metric", "140 tex"), (99.96e-6, "linear_density", "metric", "100 tex"),
        (294.15, "temperature", "metric", "21 °C"), (294.15, "temperature", "inch", "70 °F"),
        (255.15, "temperature", "metric", "−18 °C"), (273.1, "temperature", "metric", "0 °C"),
        (0.5, "angle", "inch", "28.6°"), (0.1254, "fraction", "metric", "12.5%"), (12.3, "turns", "inch", "12.5"),
        (12.2, "turns", "inch", "12"), (98.4, "turns_per_length", "inch", "2.50 turns/in"),
        (98.4, "turns_per_length", "metric", "98 turns/m"), (16.0, "count", "inch", "16"),
        (0.664, "ratio", "inch", "0.66"),
        (54.23, "energy", "inch", "40.0 ft·lb"), (54.23, "energy", "metric", "54.2 J"),
        (45.72, "speed", "inch", "150 ft/s"),
        (45.72, "speed", "metric", "45.7 m/s"), (5338.0, "stiffness", "inch", "1200 lb"),
        (5338.0, "stiffness", "metric", "544 kg"),
        (0.01234, "time", "inch", "0.012 s"), (1e15, "count", "inch", "1000000000000000"),
        (1e-30, "ratio", "inch", "0.00"),
        (2.5, "count", "inch", "3"), (-2.5, "count", "inch", "−3"), (0.0315, "mass", "metric", "31.5 g"),
    ],
)  # fmt: skip
def test_numbers_are_shown_to_the_step_of_the_bench(
    value: float, quantity: Quantity, system: System, expected: str
) -> None:
    assert show(value, quantity, system) == expected


@pytest.mark.exact
def test_a_plus_is_shown_where_it_is_asked() -> None:
    assert show(0.0127, "length", "inch", sign=True) == "+1/2 in"
    assert show(-0.0127, "length", "inch", sign=True) == "−1/2 in"
    assert show(1e-9, "length", "inch", sign=True) == "0 in"
    assert read("n", "+1/2 in", "length", low=-1, high=1) == 0.0127


@pytest.mark.exact
@pytest.mark.parametrize("value", [nan, inf, -inf])
def test_what_is_no_number_is_not_shown(value: float) -> None:
    with pytest.raises(DomainError) as caught:
        show(value, "length", "inch")
    assert (caught.value.problem.field, caught.value.problem.code) == ("value", "number")
    with pytest.raises(DomainError) as caught:
        show_limit(value, "length", "inch", side="max")
    assert (caught.value.problem.field, caught.value.problem.code) == ("value", "number")


@pytest.mark.exact
@CALM
@given(SIZES, QUANTITIES, SYSTEMS)
def test_what_is_shown_is_the_nearest_step(value: float, quantity: Quantity, system: System) -> None:
    label, _, step = STEPS[quantity][get_args(System).index(system)]
    number = parsed(show(value, quantity, system), label)
    true = in_reader_units(value, quantity, system)
    assert unit_label(quantity, system) == label
    unit = Fraction(step) * (10 if abs(number) >= LARGE.get(quantity, inf) else 1)
    assert float(abs(number - Fraction(true))) <= float(unit) / 2 + abs(true) * 1e-11 + 1e-10
    fine = {"kg": 1, "tex": 100}.get(label, 0) if quantity in {"force", "linear_density"} else 0
    assert number % (unit / (10 if abs(number) < fine else 1)) == 0


@pytest.mark.exact
@pytest.mark.parametrize("off", [0.3, 2e-3, 1e-3, 5e-4, 1e-4, 1e-5])
def test_either_side_of_a_half_step_the_nearer_one_is_shown(off: float) -> None:
    """Worked in exact fractions from the size of an inch, a pound and a grain by definition."""
    sizes: dict[Quantity, tuple[Fraction, Fraction]] = {
        "length": (Fraction("0.0254"), Fraction(1, 16)),
        "force": (Fraction("0.45359237") * Fraction("9.80665"), Fraction(1, 10)),
        "mass": (Fraction("64.79891e-6"), Fraction(1)),
    }
    for quantity, (unit, step) in sizes.items():
        label, _, _ = STEPS[quantity][0]
        for whole in (0, 1, 7, 999, *(() if quantity in LARGE else (1000, 123456, 987654321))):
            for side in (-1, 1):
                value = float((whole + Fraction(1, 2) + side * Fraction(off)) * step * unit)
                assert parsed(show(value, quantity, "inch"), label) == (whole + (side > 0)) * step
                assert parsed(show(-value, quantity, "inch"), label) == -(whole + (side > 0)) * step


@pytest.mark.exact
@pytest.mark.parametrize("whole", [100, 777, 98765])
def test_of_a_hundred_pounds_and_more_whole_ones_are_shown(whole: int) -> None:
    pound = Fraction("0.45359237") * Fraction("9.80665")
    assert show(float((whole + Fraction("0.499")) * pound), "force", "inch") == f"{whole} lb"
    assert show(float((whole + Fraction("0.501")) * pound), "force", "inch") == f"{whole + 1} lb"


@pytest.mark.exact
@CALM
@given(SIZES, QUANTITIES, SYSTEMS, st.booleans())
def test_what_is_shown_reads_back_to_itself(value: float, quantity: Quantity, system: System, sign: bool) -> None:  # noqa: FBT001 - drawn
    shown = show(value, quantity, system, sign=sign)
    for other in get_args(System):  # the unit stands behind it, so either reader reads the same
        back = read("n", shown, quantity, low=-inf, high=inf, system=other)
        assert show(back, quantity, system, sign=sign) == shown
    label, unit, _ = STEPS[quantity][get_args(System).index(system)]
    si = si_unit(quantity)
    true = PINT.Quantity(float(parsed(shown, label)), unit).to(SI_IN_PINT.get(si, si)).magnitude
    assert back == pytest.approx(true, rel=1e-14, abs=1e-12 if quantity == "temperature" else 0.0)


@pytest.mark.exact
@CALM
@given(SIZES, QUANTITIES, SYSTEMS)
def test_the_bare_number_reads_as_the_shown_one(value: float, quantity: Quantity, system: System) -> None:
    shown = show(value, quantity, system)
    bare = shown.removesuffix(unit_label(quantity, system))
    assert read("n", bare, quantity, low=-inf, high=inf, system=system) == read(
        "n", shown, quantity, low=-inf, high=inf, system=system
    )


@pytest.mark.exact
@CALM
@given(SIZES, QUANTITIES, SYSTEMS)
def test_mirrored_numbers_are_shown_alike(value: float, quantity: Quantity, system: System) -> None:
    if quantity != "temperature":
        shown = show(value, quantity, system).removeprefix("−")
        assert show(-value, quantity, system).removeprefix("−") == shown
        assert not shown.startswith(("-", "−"))


@pytest.mark.exact
@CALM
@given(SIZES, QUANTITIES, SYSTEMS)
def test_a_shown_limit_is_inside_and_closest(value: float, quantity: Quantity, system: System) -> None:
    lowest = show_limit(value, quantity, system, side="min")
    highest = show_limit(value, quantity, system, side="max")
    at_least = read("n", lowest, quantity, low=value, high=inf, system=system)
    at_most = read("n", highest, quantity, low=-inf, high=value, system=system)
    assert at_most <= value <= at_least
    assert show(value, quantity, system) in {lowest, highest}


@pytest.mark.exact
def test_a_limit_on_a_step_is_shown_as_it_is() -> None:
    for count in range(1, 200):
        for side in ("min", "max"):
            assert show_limit(count * 0.0254, "length", "inch", side=side) == f"{count} in"
    kilogram = 9.80665
    assert show_limit(2.26 * kilogram, "force", "metric", side="min") == "2.3 kg"
    assert show_limit(2.26 * kilogram, "force", "metric", side="max") == "2.2 kg"
    assert show_limit(0.999 * kilogram, "force", "metric", side="max") == "0.99 kg"
    assert show_limit(0.999 * kilogram, "force", "metric", side="min") == "1.0 kg"
    assert show_limit(100.3 * kilogram, "force", "metric", side="max") == "100 kg"
    assert show_limit(99.96 * kilogram, "force", "metric", side="min") == "100 kg"


@pytest.mark.exact
@CALM
@given(value=SIZES, off=st.floats(0.0, 1e5), quantity=QUANTITIES, system=SYSTEMS)
def test_no_more_digits_than_are_known(value: float, off: float, quantity: Quantity, system: System) -> None:
    """What is printed lies within a tenth of what a number may be off."""
    label, _, step = STEPS[quantity][get_args(System).index(system)]
    number = float(parsed(show(value, quantity, system, off=off), label))
    true = in_reader_units(value, quantity, system)
    wide = abs(in_reader_units(value + off, quantity, system) - true)
    most = float(Fraction(step)) * (10.0 if abs(number) >= LARGE.get(quantity, inf) else 1.0)
    grid = max(most, wide / 5.0)
    assert abs(number - true) <= grid / 2.0 * (1.0 + 1e-9) + abs(true) * 1e-11 + 1e-10
    low, high = (
        float(parsed(show(value, quantity, system, off=off, end=end), label)) for end in ("low", "high")
    )  # fmt: skip
    assert low <= number <= high


@pytest.mark.exact
def test_a_bound_that_was_told_to_a_tenth_of_a_pound() -> None:
    """764.1 lb, known to some 150 either way."""
    lbf = 4.4482216152605
    assert show(764.1 * lbf, "force", "inch", off=150 * lbf) == "760 lb"
    assert show(764.1 * lbf, "force", "metric", off=150 * lbf) == "350 kg"
    assert show(40.0 * lbf, "force", "inch") == "40.0 lb"
    assert show(0.9583, "ratio", "inch", off=0.6, end="low") == "0.9"
    assert show(1.5922, "length", "inch", off=0.5) == "62 11/16 in"
