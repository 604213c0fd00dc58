"""What people type, held against pint and against hand-worked exact products."""

from __future__ import annotations

from math import inf

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.errors import DomainError, Problem
from calc.units import Quantity, System, read, system_of
from calc.units.tables import UNITS

PINT: pint.UnitRegistry[float] = pint.UnitRegistry()
CALM = settings(derandomize=True, deadline=None, max_examples=200)


def problem(
    text: str, quantity: Quantity, *, low: float = -inf, high: float = inf, system: System = "inch", whole: bool = False
) -> Problem:
    """Return what is wrong with a text."""
    with pytest.raises(DomainError) as caught:
        read("a_field", text, quantity, low=low, high=high, system=system, whole=whole)
    assert caught.value.problem.field == "a_field"
    return caught.value.problem


LENGTHS = [
    ("62", "62 inch"), ("62 1/2", "62.5 inch"), ("62 1/2 in", "62.5 inch"), ("5 ft 2 1/2 in", "62.5 inch"),
    ("5' 2 1/2\"", "62.5 inch"), ("157.5 cm", "157.5 cm"), ("157,5 cm", "157.5 cm"), ("1,57 m", "1.57 m"),
    ("1575mm", "1575 mm"), ("0.018 in", "0.018 inch"), ("1/8", "0.125 inch"), ("62½", "62.5 inch"),
    ("62 ½ in", "62.5 inch"), ("½", "0.5 inch"), ("½″", "0.5 inch"), ("62⅞ in", "62.875 inch"),
    ("62-1/2", "62.5 inch"), ("62-½ in", "62.5 inch"), ("62 1⁄2", "62.5 inch"), ("62 ¹⁄₂ in", "62.5 inch"),
    ("62¹¹⁄₁₆″", "62.6875 inch"), ("62 ¹¹/₁₆ in", "62.6875 inch"), ('62 11⁄16"', "62.6875 inch"),
    ("62⅟8 in", "62.125 inch"), ("62 1∕2 in", "62.5 inch"), ("62 1 / 2 in", "62.5 inch"),
    ("⅓ yd", "12 inch"), ("62 and 1/2 in", "62.5 inch"), ("62\u00a01/2\u00a0in", "62.5 inch"),
    ("62\u20091/2\u202fin", "62.5 inch"), ("  62   1/2   in  ", "62.5 inch"), ("\t62 1/2 in\n", "62.5 inch"),
    ("\ufeff62 1/2 in\u200b", "62.5 inch"), ('62.5"', "62.5 inch"), ("62.5″", "62.5 inch"), ("62.5”", "62.5 inch"),
    ("62.5“", "62.5 inch"), ("62.5''", "62.5 inch"), ("62.5’’", "62.5 inch"), ("62.5′′", "62.5 inch"),
    ("62.5＂", "62.5 inch"), ("5’2”", "62 inch"), ("5′2″", "62 inch"), ("5'2", "62 inch"), ("5 ft 2", "62 inch"),
    ("5'-2 1/2\"", "62.5 inch"), ("5' - 2 1/2\"", "62.5 inch"), ("5 ft, 2 in", "62 inch"),
    ("5 feet and 2 inches", "62 inch"), ("5ft2in", "62 inch"), ("5 ft. 2 in.", "62 inch"), ("5 FT 2 IN", "62 inch"),
    ("5`2 1/2", "62.5 inch"), ("5´2½", "62.5 inch"), ("1 yd 2 ft 3 in", "63 inch"), ("1 yd 2 ft 3", "63 inch"),
    ("62 inches", "62 inch"), ("62 inch", "62 inch"), ("62-inch", "62 inch"), ("1 foot", "1 foot"),
    ("1 foot 1 inch", "13 inch"), ("2 feet", "2 foot"), ("2 yards", "72 inch"), ("1 metre", "1 m"),
    ("1.5 meters", "1.5 m"), ("15 dm", "1.5 m"), ("450 µm", "450 micrometer"), ("450 μm", "450 micrometer"),
    ("450 um", "450 micrometer"), ("450 microns", "450 micrometer"), ("18 thou", "18 thou"), ("18 mil", "18 thou"),
    ("18 mils", "18 thou"), ("0.45mm", "0.45 mm"), (".45 mm", "0.45 mm"), (",45 mm", "0.45 mm"), ("62.", "62 inch"),
    ("+62 in", "62 inch"), ("-1/2 in", "-0.5 inch"), ("−1/2 in", "-0.5 inch"), ("–½ in", "-0.5 inch"),
    ("- 5' 2\"", "-62 inch"), ("1.575e3 mm", "1575 mm"), ("1.575E+3mm", "1575 mm"), ("1e−1 m", "0.1 m"),
    ("1 575 mm", "1575 mm"), ("1\u2009575 mm", "1575 mm"), ("1\u202f575,5 mm", "1575.5 mm"),
    ("1 575 1/2 mm", "1575.5 mm"), ("1,575.5 mm", "1575.5 mm"), ("1.575,5 mm", "1575.5 mm"),
    ("1,575 1/2 mm", "1575.5 mm"), ("1,000,000 mm", "1e6 mm"), ("1.000.000 mm", "1e6 mm"),
    ("1 000 000,5 mm", "1000000.5 mm"), ("0,575 m", "0.575 m"), ("1 m 57 cm", "157 cm"),
    ("5 ㎜", "5 mm"), ("６２ in", "62 inch"), ("٦٢ cm", "62 cm"), ("9/8 in", "1.125 inch"), ("8/8 in", "1 inch"),
    ("62. in", "62 inch"), ("62 ins.", "62 inch"), ("1e-30 m", "1e-30 m"), ("10/8 in", "1.25 inch"),
]  # fmt: skip
OTHERS: list[tuple[str, Quantity, System, str]] = [
    ("45", "force", "inch", "45 force_pound"), ("45 lb", "force", "inch", "45 force_pound"),
    ("45 lbf", "force", "inch", "45 force_pound"), ("45#", "force", "inch", "45 force_pound"),
    ("45 #", "force", "metric", "45 force_pound"), ("45lbs", "force", "inch", "45 force_pound"),
    ("45 lbs.", "force", "inch", "45 force_pound"), ("45 pounds", "force", "inch", "45 force_pound"),
    ("45 pounds-force", "force", "inch", "45 force_pound"), ("45 lb 8 oz", "force", "inch", "45.5 force_pound"),
    ("200 N", "force", "inch", "200 newton"), ("200", "force", "metric", "200 newton"),
    ("0.2 kN", "force", "inch", "200 newton"), ("20 daN", "force", "inch", "200 newton"),
    ("200 newtons", "force", "inch", "200 newton"), ("20 kgf", "force", "inch", "20 kilogram_force"),
    ("20 kg", "force", "metric", "20 kilogram_force"), ("20 kp", "force", "metric", "20 kilogram_force"),
    ("400 gr", "mass", "inch", "400 grain"), ("400", "mass", "inch", "400 grain"),
    ("400 grains", "mass", "metric", "400 grain"), ("26 g", "mass", "inch", "26 gram"),
    ("26", "mass", "metric", "26 gram"), ("26 grams", "mass", "inch", "26 gram"),
    ("26 grammes", "mass", "inch", "26 gram"), ("0,026 kg", "mass", "inch", "26 gram"),
    ("1 oz", "mass", "inch", "1 ounce"), ("1 lb 2 oz", "mass", "inch", "18 ounce"),
    ("26 000 mg", "mass", "inch", "26 g"),
    ("70", "temperature", "inch", "70 degF"), ("70 °F", "temperature", "metric", "70 degF"),
    ("70F", "temperature", "metric", "70 degF"), ("70 deg F", "temperature", "metric", "70 degF"),
    ("70 degrees Fahrenheit", "temperature", "metric", "70 degF"), ("70°", "temperature", "inch", "70 degF"),
    ("70 degrees", "temperature", "inch", "70 degF"), ("21", "temperature", "metric", "21 degC"),
    ("21 °C", "temperature", "inch", "21 degC"), ("21 ℃", "temperature", "inch", "21 degC"),
    ("21ºC", "temperature", "inch", "21 degC"), ("21˚ C", "temperature", "inch", "21 degC"),
    ("21 celsius", "temperature", "inch", "21 degC"), ("-5 °C", "temperature", "inch", "-5 degC"),
    ("−5", "temperature", "metric", "-5 degC"), ("294 K", "temperature", "inch", "294 kelvin"),
    ("140", "linear_density", "inch", "140 tex"), ("140 tex", "linear_density", "inch", "140 tex"),
    ("1400 dtex", "linear_density", "inch", "140 tex"), ("0.14 ktex", "linear_density", "inch", "140 tex"),
    ("1260 den", "linear_density", "inch", "1260 denier"), ("1260 denier", "linear_density", "inch", "1260 denier"),
    ("1260D", "linear_density", "inch", "1260 denier"), ("140 g/km", "linear_density", "inch", "140 tex"),
    ("0.14 g/m", "linear_density", "inch", "140 tex"), ("9000 m/kg", "linear_density", "inch", "1 kg / (9000 m)"),
    ("9 000 m per kg", "linear_density", "inch", "1 kg / (9000 m)"),
    ("9 km/kg", "linear_density", "inch", "1 kg / (9000 m)"), ("9 m/g", "linear_density", "inch", "1 kg / (9000 m)"),
    ("900 m/100 g", "linear_density", "inch", "1 kg / (9000 m)"),
    ("900 m per 100g", "linear_density", "inch", "1 kg / (9000 m)"),
    ("2000 yd/lb", "linear_density", "inch", "1 pound / (2000 yard)"),
    ("2000 yd per lb", "linear_density", "inch", "1 pound / (2000 yard)"),
    ("2000 yards per pound", "linear_density", "inch", "1 pound / (2000 yard)"),
    ("2000 yds/lb.", "linear_density", "inch", "1 pound / (2000 yard)"),
    ("9000 metres per kilogram", "linear_density", "inch", "1 kg / (9000 m)"),
    ("12.5 g / 10 m", "linear_density", "inch", "1250 tex"), ("12,5 g / 10 m", "linear_density", "inch", "1250 tex"),
    ("12.5 g per 10 m", "linear_density", "inch", "1250 tex"), ("12.5g/10m", "linear_density", "inch", "1250 tex"),
    ("12.5 g for 10 m", "linear_density", "inch", "1250 tex"), ("10 m = 12.5 g", "linear_density", "inch", "1250 tex"),
    ("10 m weigh 12.5 g", "linear_density", "inch", "1250 tex"),
    ("10 m weighs 12,5g", "linear_density", "inch", "1250 tex"),
    ("10 m / 12.5 g", "linear_density", "inch", "1250 tex"),
    ("193 gr / 11 yd", "linear_density", "inch", "193 grain / (11 yard)"),
    ("1/2 oz per 12 1/2 ft", "linear_density", "inch", "0.5 ounce / (12.5 foot)"),
    ("1 lb 2 oz / 100 yd", "linear_density", "inch", "18 ounce / (100 yard)"),
    ("2.5 gr/in", "linear_density", "inch", "2.5 grain / inch"),
    ("12", "turns", "inch", "12 turn"), ("12.5 turns", "turns", "inch", "12.5 turn"),
    ("12 1/2", "turns", "inch", "12.5 turn"),
    ("2.5", "turns_per_length", "inch", "2.5 turn / inch"), ("100", "turns_per_length", "metric", "100 turn / m"),
    ("2.5 turns/in", "turns_per_length", "metric", "2.5 turn / inch"),
    ("2.5 turns per inch", "turns_per_length", "metric", "2.5 turn / inch"),
    ("2.5/in", "turns_per_length", "metric", "2.5 turn / inch"),
    ("2.5 tpi", "turns_per_length", "metric", "2.5 turn / inch"),
    ("30 turns per 12 in", "turns_per_length", "metric", "2.5 turn / inch"),
    ("10 per 10 cm", "turns_per_length", "inch", "100 turn / m"),
    ("100 turns/m", "turns_per_length", "inch", "100 turn / m"),
    ("16", "count", "inch", "16"), ("16 strands", "count", "inch", "16"), ("0.66", "ratio", "inch", "0.66"),
    ("66 %", "ratio", "inch", "0.66"), ("4x", "ratio", "inch", "4"), ("4 ×", "ratio", "inch", "4"),
    ("12.5", "fraction", "inch", "0.125"), ("12,5 %", "fraction", "metric", "0.125"),
    ("12.5 percent", "fraction", "inch", "0.125"), ("12.5 per cent", "fraction", "inch", "0.125"),
    ("30", "angle", "inch", "30 degree"),
    ("30°", "angle", "inch", "30 degree"), ("30 deg", "angle", "inch", "30 degree"),
    ("0.5 rad", "angle", "inch", "0.5 radian"),
    ("40", "energy", "inch", "40 foot * force_pound"), ("40 ft·lbf", "energy", "metric", "40 foot * force_pound"),
    ("40 ft-lb", "energy", "metric", "40 foot * force_pound"),
    ("40 foot-pounds", "energy", "metric", "40 foot * force_pound"),
    ("40 ft.lbs", "energy", "metric", "40 foot * force_pound"), ("50 J", "energy", "inch", "50 joule"),
    ("50 N·m", "energy", "inch", "50 joule"), ("150", "speed", "inch", "150 foot / second"),
    ("150 fps", "speed", "metric", "150 foot / second"), ("150 ft/s", "speed", "metric", "150 foot / second"),
    ("150 feet per second", "speed", "metric", "150 foot / second"), ("45 m/s", "speed", "inch", "45 m / s"),
    ("160 km/h", "speed", "inch", "160 km / hour"), ("100 mph", "speed", "metric", "100 mile / hour"),
    ("5 kN", "stiffness", "inch", "5000 newton"), ("5", "stiffness", "metric", "5000 newton"),
    ("1200 lbf", "stiffness", "metric", "1200 force_pound"), ("12 h", "time", "inch", "12 hour"),
    ("1 h 30 min", "time", "inch", "90 minute"), ("3 ms", "time", "inch", "3 millisecond"),
    ("2 days", "time", "inch", "48 hour"),
    ("0.5", "time", "metric", "0.5 second"), ("0.018 in", "thickness", "metric", "0.018 inch"),
    ("1/8", "thickness", "inch", "0.125 inch"), ("0,45", "thickness", "metric", "0.45 mm"),
]  # fmt: skip
IN_PINT = {"temperature": "kelvin", "turns": "turn", "turns_per_length": "turn / m", "linear_density": "kg / m",
           "force": "N", "stiffness": "N", "mass": "kg", "energy": "J", "speed": "m / s", "time": "s",
           "angle": "radian", "length": "m", "thickness": "m"}  # fmt: skip


def in_pint(expression: str, quantity: Quantity) -> float:
    """Return an expression in SI, as pint works it out."""
    if quantity == "temperature":
        number, unit = expression.split()
        return float(PINT.Quantity(float(number), unit).to("kelvin").magnitude)
    worked = PINT.parse_expression(expression)
    return float(worked.to(IN_PINT[quantity]).magnitude) if quantity in IN_PINT else float(worked)


@pytest.mark.exact
@pytest.mark.parametrize(("text", "expression"), LENGTHS)
def test_lengths_are_read_as_pint_has_them(text: str, expression: str) -> None:
    value = read("n", text, "length", low=-inf, high=inf)
    assert value == pytest.approx(in_pint(expression, "length"), rel=1e-14)


@pytest.mark.exact
@pytest.mark.parametrize(("text", "quantity", "system", "expression"), OTHERS)
def test_quantities_are_read_as_pint_has_them(text: str, quantity: Quantity, system: System, expression: str) -> None:
    value = read("n", text, quantity, low=-inf, high=inf, system=system)
    assert value == pytest.approx(in_pint(expression, quantity), rel=1e-14)


@pytest.mark.exact
def test_every_quantity_is_typed_at_least_once() -> None:
    assert {quantity for _, quantity, _, _ in OTHERS} | {"length"} == set(UNITS)


@pytest.mark.exact
@pytest.mark.parametrize(
    ("text", "quantity", "expected"),
    [  # hand-worked from the definitions, rounded once
        ("62 1/2 in", "length", 1.5875), ("5' 2 1/2\"", "length", 1.5875), ("0.1 in", "length", 0.00254),
        ("157,5 cm", "length", 1.575), ("7000 gr", "mass", 0.45359237), ("1 gr", "mass", 6.479891e-05),
        ("1 lbf", "force", 4.4482216152605), ("20 kgf", "force", 196.133), ("20 °C", "temperature", 293.15),
        ("32 °F", "temperature", 273.15), ("9 den", "linear_density", 1e-6), ("3 yd", "length", 2.7432),
        ("180°", "angle", 3.141592653589793),
    ],
)  # fmt: skip
def test_what_is_typed_is_rounded_only_once(text: str, quantity: Quantity, expected: float) -> None:
    assert read("n", text, quantity, low=-inf, high=inf) == expected


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
        ("621/2", "length", "inch", ("621/2 in", "62 1/2 in")),
        ("1,200e1 #", "force", "inch", ("1.200e1 lbf", "1200e1 lbf")),
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
