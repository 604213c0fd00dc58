"""What is refused, of what kind; and how limits settle what has two readings. Values worked by hand."""

from __future__ import annotations

from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.errors import DomainError, Problem
from calc.units import Quantity, System, read, system_of
from calc.units.tables import UNITS

CALM = settings(derandomize=True, deadline=None, max_examples=200)


def problem(
    text: str, quantity: Quantity, *, low: float = -inf, high: float = inf, system: System = "inch", whole: bool = False
) -> Problem:
    """Return what is wrong with a text."""
    with pytest.raises(DomainError) as caught:
        read("a_field", text, quantity, low=low, high=high, system=system, whole=whole)
    assert caught.value.problem.field == "a_field"
    return caught.value.problem


@pytest.mark.exact
@pytest.mark.parametrize(
    ("text", "quantity", "code"),
    [
        ("", "length", "missing"), ("   ", "length", "missing"), ("\u00a0\u2009", "length", "missing"),
        ("\u200b", "length", "missing"),
        ("long", "length", "number"), ("nan", "length", "number"), ("NaN in", "length", "number"),
        ("inf", "length", "number"), ("-inf", "length", "number"), ("∞", "length", "number"),
        ("in", "length", "number"),
        ("+", "length", "number"), ("-", "length", "number"), ("/", "length", "number"), ("1/0", "length", "number"),
        ("62 1/0 in", "length", "number"), ("1e308 km", "length", "number"), ("1e999", "length", "number"),
        ("1e99999999999", "length", "number"), ("5 6", "length", "number"), ("62-63 in", "length", "number"),
        ("5 lb 3", "force", "number"), ("1 m 57", "length", "number"), ("5 in 2 ft", "length", "number"),
        ("5 ft 2 ft", "length", "number"), ("5 ft 14 in", "length", "number"), ("1'575 mm", "length", "number"),
        ("1'575", "length", "number"), ("1 m 2 in", "length", "number"), ("62 3/2 in", "length", "number"),
        ("6 21/2 in", "length", "number"), ("62.5 1/2 in", "length", "number"), ("1.2.3", "length", "number"),
        ("1,57.5", "length", "number"), ("1,57,5 m", "length", "number"), ("5/6/7", "length", "number"),
        ("1,57 1/2 m", "length", "number"), ("5/1.5", "length", "number"), ("0 m/kg", "linear_density", "number"),
        ("5 g/0 m", "linear_density", "number"), ("g/km", "linear_density", "number"),
        ("5 g/", "linear_density", "number"), ("1e-400 m/kg", "linear_density", "number"),
        ("5 °F 2 °C", "temperature", "number"), ("1 yd 2 ft 3 in 4 thou", "length", "number"),
        ("9" * 201, "length", "number"), ("1" * 150 + " ft " + "1" * 150, "length", "number"),
        ("45 lb", "length", "unit"), ("62 in", "force", "unit"), ("62 furlongs", "length", "unit"),
        ("62 in?", "length", "unit"), ("5 m²", "length", "unit"), ("62-", "length", "unit"),
        ("10² mm", "length", "unit"),
        ("62 1/2 in (about)", "length", "unit"), ("45 lb/in", "force", "unit"), ("5 g", "linear_density", "unit"),
        ("12.5 / 10 m", "linear_density", "unit"), ("12.5 g / 10", "linear_density", "unit"),
        ("12.5 g / 10 kg", "linear_density", "unit"), ("12.5 g / 10 m / 2 kg", "linear_density", "unit"),
        ("30 in", "temperature", "unit"), ("70°", "length", "unit"), ("16 in", "count", "unit"),
        ("5 m 3 kg", "length", "unit"), ("26 g", "force", "unit"), ("2 mm 5 xyz", "length", "unit"),
    ],
)  # fmt: skip
def test_what_has_no_sense_is_refused_by_kind(text: str, quantity: Quantity, code: str) -> None:
    assert problem(text, quantity).code == code


@pytest.mark.exact
@pytest.mark.parametrize(
    ("text", "low", "high", "system", "expected"),
    [
        ("1,575", 0.5, 2.5, "metric", 1.575), ("1,575 m", 0.5, 2.5, "metric", 1.575),
        ("1,575 m", 1000, 2000, "inch", 1575.0),
        ("1,575 mm", 0.5, 2.5, "inch", 1.575), ("1,575", 0.03, 0.05, "inch", 0.040005),
        ("1,575 in", 30.0, 50.0, "inch", 40.005), ("5 ft 2,125 in", 0.1, 9.0, "inch", 1.577975),
        ("621/8 in", 1.5, 1.9, "inch", 1.577975), ("71/4 in", 0.1, 0.2, "inch", 0.18415),
    ],
)  # fmt: skip
def test_the_limits_settle_what_has_two_readings(
    text: str, low: float, high: float, system: System, expected: float
) -> None:
    assert read("n", text, "length", low=low, high=high, system=system) == expected


@pytest.mark.exact
@pytest.mark.parametrize(
    ("text", "quantity", "system", "readings"),
    [
        ("1,575 m", "length", "metric", ("1.575 m", "1575 m")), ("1,575", "length", "metric", ("1.575 mm", "1575 mm")),
        ("1,575", "length", "inch", ("1.575 in", "1575 in")), ("-1,575″", "length", "inch", ("−1.575 in", "−1575 in")),
        ("1,200 gr", "mass", "inch", ("1.200 gr", "1200 gr")), ("1,200%", "fraction", "inch", ("1.200%", "1200%")),
        ("9,000 m per kg", "linear_density", "inch", ("9.000 m / kg", "9000 m / kg")),
        ("22 gr", "weighed", "inch", ("22 grains", "22 g")), ("22 gr", "weighed", "metric", ("22 grains", "22 g")),
        ("8.4 gr / 50 m", "linear_density", "metric", ("8.4 grains / 50 m", "8.4 g / 50 m")),
        ("3 mil", "thickness", "inch", ("3 thou", "3 mm")),
        ("621/2", "length", "inch", ("621/2 in", "62 1/2 in")),
        ("1,200e1 #", "force", "inch", ("1.200e1 lb", "1200e1 lb")),
    ],
)  # fmt: skip
def test_what_stays_open_is_named_both_ways(
    text: str, quantity: Quantity, system: System, readings: tuple[str, ...]
) -> None:
    found = problem(text, quantity, system=system)
    assert (found.code, found.readings) == ("ambiguous", readings)
    values = [read("n", each, quantity, low=-inf, high=inf) for each in readings if "/2" not in each]
    assert len(set(values)) == len(values)


@pytest.mark.exact
def test_limits_are_told_in_si_and_are_included() -> None:
    low, high = 20 * 0.0254, 26 * 0.0254
    assert problem("19.9 in", "length", low=low, high=high) == Problem(field="a_field", code="min", limit=low)
    assert problem("1e308", "length", low=low, high=high) == Problem(field="a_field", code="max", limit=high)
    assert problem("-1e308", "length", low=low, high=high) == Problem(field="a_field", code="min", limit=low)
    assert problem("0", "length", low=low, high=high).code == "min"
    assert read("n", "20 in", "length", low=low, high=high) == low
    assert read("n", "26 in", "length", low=low, high=high) == high
    assert read("n", "660,4 mm", "length", low=low, high=high) == high


@pytest.mark.exact
def test_of_two_readings_outside_the_nearer_one_is_blamed() -> None:
    assert problem("1,575 mm", "length", low=2.0, high=3.0).code == "min"
    assert problem("1,575 mm", "length", low=0.1, high=1.5).code == "max"


@pytest.mark.exact
def test_whole_numbers_only_where_they_are_asked() -> None:
    assert read("n", "16", "count", low=1, high=99, whole=True) == 16.0
    assert read("n", "16.0 strands", "count", low=1, high=99, whole=True) == 16.0
    assert read("n", "1,200", "count", low=1, high=9999, whole=True) == 1200.0
    assert problem("12.5", "count", low=1, high=99, whole=True).code == "number"
    assert isinstance(read("n", "1", "count", low=1, high=1, whole=True), float)


@pytest.mark.exact
@pytest.mark.parametrize(
    ("text", "quantity", "expected"),
    [
        ("62 1/2 in", "length", "inch"), ("5'2", "length", "inch"), ("157 cm", "length", "metric"),
        ("62", "length", None),
        ("1,575 m", "length", "metric"), ("45 lb", "length", None), ("", "length", None),
        ("140 tex", "linear_density", None),
        ("150 ft/s", "speed", "inch"), ("30 turns / 10 cm", "turns_per_length", "metric"),
        ("70°", "temperature", "inch"),
    ],
)  # fmt: skip
def test_the_system_of_a_typed_unit_is_told(text: str, quantity: Quantity, expected: System | None) -> None:
    assert system_of(text, quantity) == expected


PIECES = st.sampled_from(
    [
        "1", "62", "575", "0", "9" * 30, ",", ".", " ", "/", "-", "−", "+", "'", '"',
        "½", "¹¹⁄₁₆", "in", "ft", "mm", "m", "g",
        "kg", "lb", "#", "°", "C", "per", "and", "e", "e5", "e-9", "%", "\u2009", "tex", "x", "²", "٣", "\ud800",
        "\x00", "ﷺ", "=", "÷",
    ]
)  # fmt: skip
TEXTS = st.text(max_size=60) | st.lists(PIECES, max_size=14).map("".join)
BOUNDS = st.sampled_from([(-inf, inf), (0.0, 1.0), (1.0, 1.0), (-1e300, 1e300), (0, 0)])


@pytest.mark.exact
@CALM
@given(TEXTS, st.sampled_from(sorted(UNITS)), st.sampled_from(["inch", "metric"]), BOUNDS, st.booleans())
def test_whatever_is_typed_is_read_or_refused(
    text: str,
    quantity: Quantity,
    system: System,
    bounds: tuple[float, float],
    whole: bool,  # noqa: FBT001 - drawn
) -> None:
    low, high = bounds
    try:
        value = read("a_field", text, quantity, low=low, high=high, system=system, whole=whole)
    except DomainError as error:
        assert error.problem.field == "a_field"  # noqa: PT017 - both ends are fine, nothing else is
        assert error.problem.code in {"missing", "number", "unit", "ambiguous", "min", "max"}  # noqa: PT017 - as above
    else:
        assert low <= value <= high
        assert abs(value) < inf
        assert not whole or value == int(value)


@pytest.mark.exact
@pytest.mark.parametrize(
    "text",
    [
        "1,111" * 40, "1/9" * 60, "1 " * 100, "9" * 100_000, "½" * 190, "1'" * 100,
        "-" * 199,        "1,111 ft" * 25,
        "1e9" * 66, " " * 10**6 + "x",
        "2" * 98 + "/" + "1" * 98, "1,111 " * 33, "11/9 ft" * 28, "m/" * 100, "5 g÷" * 50,
    ],
)  # fmt: skip
def test_long_texts_are_refused_at_once(text: str) -> None:
    assert problem(text, "length", low=1.5, high=1.6).code in {"number", "unit", "min"}
