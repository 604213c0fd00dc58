"""What people type, held against pint and against hand-worked exact products."""

from __future__ import annotations

from math import inf

import pint
import pytest

from calc.units import Quantity, System, read
from calc.units.tables import UNITS

PINT: pint.UnitRegistry[float] = pint.UnitRegistry()
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
    ("450 um", "450 micrometer"), ("450 microns", "450 micrometer"), ("18 thou", "18 thou"),
    ("0.45mm", "0.45 mm"), (".45 mm", "0.45 mm"), (",45 mm", "0.45 mm"), ("62.", "62 inch"),
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
    ("200 N", "force", "inch", "200 newton"), ("20", "force", "metric", "20 kilogram_force"),
    ("0.2 kN", "force", "inch", "200 newton"), ("20 daN", "force", "inch", "200 newton"),
    ("200 newtons", "force", "inch", "200 newton"), ("20 kgf", "force", "inch", "20 kilogram_force"),
    ("20 kg", "force", "metric", "20 kilogram_force"), ("20 kp", "force", "metric", "20 kilogram_force"),
    ("400 gr", "mass", "inch", "400 grain"), ("400", "mass", "inch", "400 grain"),
    ("400 grains", "mass", "metric", "400 grain"), ("26 g", "mass", "inch", "26 gram"),
    ("26", "mass", "metric", "26 gram"), ("26 grams", "mass", "inch", "26 gram"),
    ("26 grammes", "mass", "inch", "26 gram"), ("0,026 kg", "mass", "inch", "26 gram"),
    ("1 oz", "mass", "inch", "1 ounce"), ("1 lb 2 oz", "mass", "inch", "18 ounce"),
    ("26 000 mg", "mass", "inch", "26 g"), ("22", "weighed", "inch", "22 g"), ("22", "weighed", "metric", "22 g"),
    ("340 grains", "weighed", "inch", "340 grain"), ("0.8 oz", "weighed", "metric", "0.8 ounce"),
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
    ("193 grains / 11 yd", "linear_density", "inch", "193 grain / (11 yard)"),
    ("1/2 oz per 12 1/2 ft", "linear_density", "inch", "0.5 ounce / (12.5 foot)"),
    ("1 lb 2 oz / 100 yd", "linear_density", "inch", "18 ounce / (100 yard)"),
    ("2.5 grains/in", "linear_density", "inch", "2.5 grain / inch"),
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
    ("5 kN", "stiffness", "inch", "5000 newton"), ("500", "stiffness", "metric", "500 kilogram_force"),
    ("1200 lbf", "stiffness", "metric", "1200 force_pound"), ("12 h", "time", "inch", "12 hour"),
    ("1 h 30 min", "time", "inch", "90 minute"), ("3 ms", "time", "inch", "3 millisecond"),
    ("2 days", "time", "inch", "48 hour"), ("8", "duration", "inch", "8 hour"),
    ("108", "frequency", "inch", "108 hertz"), ("82.4 Hz", "frequency", "metric", "82.4 hertz"),
    ("0.1 kHz", "frequency", "inch", "100 hertz"),
    ("2 d", "duration", "metric", "48 hour"), ("120", "distance", "inch", "120 yard"),
    ("120 m", "distance", "inch", "120 m"), ("120", "distance", "metric", "120 m"), ("9", "goods", "inch", "9 ounce"),
    ("250", "goods", "metric", "0.25 kg"), ("1 lb 2 oz", "goods", "inch", "18 ounce"),
    ("0.5", "time", "metric", "0.5 second"), ("0.018 in", "thickness", "metric", "0.018 inch"),
    ("1/8", "thickness", "inch", "0.125 inch"), ("0,45", "thickness", "metric", "0.45 mm"),
]  # fmt: skip
IN_PINT = {"temperature": "kelvin", "turns": "turn", "turns_per_length": "turn / m", "linear_density": "kg / m",
           "force": "N", "stiffness": "N", "mass": "kg", "energy": "J", "speed": "m / s", "time": "s", "duration": "s",
           "frequency": "Hz",
           "distance": "m", "goods": "kg", "weighed": "kg",
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
