"""Every unit that may be typed, with its exact factor to SI, and how each quantity is shown."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import pi
from typing import Literal, TypeAlias

System = Literal["inch", "metric"]
Quantity = Literal[
    "length",
    "thickness",
    "force",
    "mass",
    "linear_density",
    "temperature",
    "angle",
    "fraction",
    "turns",
    "turns_per_length",
    "count",
    "ratio",
    "energy",
    "speed",
    "stiffness",
    "time",
    "duration",
    "frequency",
    "distance",
    "goods",
    "weighed",
]
_Row: TypeAlias = "tuple[str, Fraction, System | None]"


@dataclass(frozen=True, slots=True)
class Definition:
    """A factor that is exact because it is defined so.

    Attributes
    ----------
    value : Fraction
        The factor.
    unit : str
        The SI unit it leads to.
    source : str
        Who defined it.
    kind : str
        Always ``exact``.
    """

    value: Fraction
    unit: str
    source: str
    kind: Literal["exact"] = "exact"


_YARD_1959 = "international yard and pound, 1959: yard 0.9144 m, pound 0.45359237 kg"
_CGPM_1901 = "General Conference on Weights and Measures, 1901: standard gravity 9.80665 m/s²"
_TEX = "tex system: grams in 1000 m, denier grams in 9000 m"
_SI = "SI Brochure: degree Celsius, minute, hour, day, degree of angle; Fahrenheit as 5/9 K from 459.67"

DEFINITIONS = {
    "inch": Definition(Fraction("0.0254"), "m", _YARD_1959),
    "foot": Definition(Fraction("0.3048"), "m", _YARD_1959),
    "yard": Definition(Fraction("0.9144"), "m", _YARD_1959),
    "mile": Definition(Fraction("1609.344"), "m", _YARD_1959),
    "pound": Definition(Fraction("0.45359237"), "kg", _YARD_1959),
    "ounce": Definition(Fraction("0.45359237") / 16, "kg", _YARD_1959),
    "grain": Definition(Fraction("0.45359237") / 7000, "kg", _YARD_1959),
    "gravity": Definition(Fraction("9.80665"), "m/s2", _CGPM_1901),
    "tex": Definition(Fraction(1, 10**6), "kg/m", _TEX),
    "denier": Definition(Fraction(1, 9 * 10**6), "kg/m", _TEX),
    "fahrenheit": Definition(Fraction(5, 9), "K", _SI),
    "zero_celsius": Definition(Fraction("273.15"), "K", _SI),
    "zero_fahrenheit": Definition(Fraction("459.67") * 5 / 9, "K", _SI),
    "minute": Definition(Fraction(60), "s", _SI),
    "hour": Definition(Fraction(3600), "s", _SI),
    "day": Definition(Fraction(86400), "s", _SI),
}
"""The one table of conversion factors: all others are these times each other or a power of ten."""


def _exact(name: str) -> Fraction:
    return DEFINITIONS[name].value


_INCH, _FOOT, _POUND = _exact("inch"), _exact("foot"), _exact("pound")
_KILOGRAM_FORCE = _exact("gravity")
_POUND_FORCE = _POUND * _KILOGRAM_FORCE
_HOUR = _exact("hour")
_ONE = Fraction(1)
_MILLI = Fraction(1, 1000)
_DEGREE = Fraction(pi) / 180

INCH = float(_INCH)
GRAIN = float(_exact("grain"))
POUND_FORCE = float(_POUND_FORCE)
"""For bounds and tests: metres in an inch, kilograms in a grain, newtons in a pound-force."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit that a reader may type: SI = number x factor + offset.

    Attributes
    ----------
    label : str
        As it is printed.
    factor, offset : Fraction
        To SI.
    system : {"inch", "metric"} or None
        Whose unit it is; None where both kinds of reader use it.
    """

    label: str
    factor: Fraction
    system: System | None = None
    offset: Fraction = Fraction(0)


def _units(*rows: _Row) -> dict[str, Unit]:
    """Index units by each of their names, in lower case, without spaces, points and hyphens."""
    return {name: Unit(names.split()[0], factor, system) for names, factor, system in rows for name in names.split()}


_PLAIN = {"": Unit("", _ONE)}
_LENGTH = _units(
    ("m metre metres meter meters mtr", _ONE, "metric"),
    ("dm decimetre decimetres decimeter decimeters", _ONE / 10, "metric"),
    ("cm centimetre centimetres centimeter centimeters cms", _ONE / 100, "metric"),
    ("mm millimetre millimetres millimeter millimeters mms", _MILLI, "metric"),
    ("μm um micron microns micrometre micrometres micrometer micrometers", _MILLI**2, "metric"),
    ("km kilometre kilometres kilometer kilometers", _ONE * 1000, "metric"),
    ('in inch inches ins "', _INCH, "inch"),
    ("ft foot feet '", _FOOT, "inch"),
    ("yd yds yard yards", _exact("yard"), "inch"),
    ("thou thous mil mils", _INCH / 1000, "inch"),
)
_MASS = _units(
    ("kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes", _ONE, "metric"),
    ("g gram grams gramme grammes gm gms", _MILLI, "metric"),
    ("mg milligram milligrams", _MILLI**2, "metric"),
    ("gr grain grains grs gn", _exact("grain"), "inch"),
    ("oz ounce ounces", _exact("ounce"), "inch"),
    ("lb lbs pound pounds #", _POUND, "inch"),
)
_WEIGHED = {name: replace(unit, system=None) if unit.label == "g" else unit for name, unit in _MASS.items()}
"""Off a kitchen scale: grams are what it gives to every reader."""
_FORCE = _units(
    ("N n newton newtons", _ONE, "metric"),
    ("kN kn kilonewton kilonewtons", _ONE * 1000, "metric"),
    ("daN dan", _ONE * 10, "metric"),
    ("kg kgf kp kgs kilo kilos kilogram kilograms kilopond kiloponds", _KILOGRAM_FORCE, "metric"),
    ("lb lbf lbs pound pounds lbsf # poundforce poundsforce", _POUND_FORCE, "inch"),
    ("oz ozf ounce ounces", _POUND_FORCE / 16, "inch"),
)
_TIME = _units(
    ("s sec secs second seconds", _ONE, None),
    ("ms millisecond milliseconds", _MILLI, None),
    ("min mins minute minutes", _exact("minute"), None),
    ("h hr hrs hour hours", _HOUR, None),
    ("d day days", _exact("day"), None),
)
_TURNS = _PLAIN | _units(("turn turns rev revs revolution revolutions twist twists", _ONE, None))
_DENSITY = _units(
    ("tex", _exact("tex"), None),
    ("dtex decitex", _exact("tex") / 10, None),
    ("ktex kilotex", _exact("tex") * 1000, None),
    ("den denier deniers d", _exact("denier"), None),
)
_TEMPERATURE = {
    **dict.fromkeys(
        ("°c", "c", "degc", "degreesc", "celsius", "°celsius", "degreescelsius", "centigrade"),
        Unit("°C", _ONE, "metric", _exact("zero_celsius")),
    ),
    **dict.fromkeys(
        ("°f", "f", "degf", "degreesf", "fahrenheit", "°fahrenheit", "degreesfahrenheit"),
        Unit("°F", _exact("fahrenheit"), "inch", _exact("zero_fahrenheit")),
    ),
    **dict.fromkeys(("k", "kelvin", "kelvins"), Unit("K", _ONE, "metric")),
}
DEGREES = {"°", "deg", "degs", "degree", "degrees"}
"""Degrees of a temperature, of which scale the reader's system tells."""

UNITS: dict[Quantity, dict[str, Unit]] = {
    "length": _LENGTH,
    "thickness": _LENGTH,
    "force": _FORCE,
    "mass": _MASS,
    "linear_density": _DENSITY,
    "temperature": _TEMPERATURE,
    "angle": _units(("° deg degs degree degrees", _DEGREE, None), ("rad radian radians", _ONE, None)),
    "fraction": _units(("% percent pct", _ONE / 100, None)),
    "turns": _TURNS,
    "turns_per_length": _units(("turns/in tpi", 1 / _INCH, "inch"), ("turns/m tpm", _ONE, "metric")),
    "count": _PLAIN
    | _units(
        ("strands strand", _ONE, None), ("bundles bundle", _ONE, None), ("ends end", _ONE, None), ("pcs pc", _ONE, None)
    ),
    "ratio": _PLAIN | _units(("% percent pct", _ONE / 100, None), ("x times", _ONE, None)),
    "energy": _units(
        ("J j joule joules nm newtonmetre newtonmetres", _ONE, "metric"),
        (
            "ft·lb ftlb ftlbf ftlbs lbft footpound footpounds footpoundsforce footpoundforce",
            _FOOT * _POUND_FORCE,
            "inch",
        ),
    ),
    "speed": _units(
        ("m/s mps", _ONE, "metric"),
        ("km/h kph kmh", 1000 / _HOUR, "metric"),
        ("ft/s fps", _FOOT, "inch"),
        ("mph", _exact("mile") / _HOUR, "inch"),
    ),
    "stiffness": _FORCE,
    "time": _TIME,
    "duration": _TIME,
    "frequency": _units(("Hz hz hertz cps", _ONE, None), ("kHz khz kilohertz", _ONE * 1000, None)),
    "distance": _LENGTH,
    "goods": _MASS,
    "weighed": _WEIGHED,
}
TWO_MEANINGS: dict[Quantity, dict[str, Unit]] = {
    "weighed": dict.fromkeys(("gr", "grs"), _WEIGHED["g"]),
    **dict.fromkeys(("length", "thickness"), dict.fromkeys(("mil", "mils"), _LENGTH["mm"])),
}
"""What else a unit's name is used for: a weight off a kitchen scale in `gr` may be grains or grams, a `mil` a
thousandth of an inch or a millimetre. The limits of the field decide, and where both fit the reader is asked."""
QUOTIENTS: dict[Quantity, tuple[Quantity, Quantity]] = {
    "linear_density": ("weighed", "length"),
    "turns_per_length": ("turns", "length"),
    "speed": ("length", "time"),
}
"""Quantities that may be typed as one amount per another, like a weighed length."""


@dataclass(frozen=True, slots=True)
class Style:
    """How one quantity is shown to one kind of reader.

    Attributes
    ----------
    unit : str
        Label of the unit.
    step : Fraction
        What a shown number is rounded to, in that unit.
    form : str
        ``decimal``, ``mixed`` (whole and fraction) or ``trimmed`` (no zeros at the end).
    below, fine
        Numbers smaller than `below` are rounded to the finer step `fine`; 0 for never.
    large : int
        Numbers from `large` on are rounded to steps ten times as large; 0 for never.
    """

    unit: str
    step: Fraction
    form: Literal["decimal", "mixed", "trimmed"] = "decimal"
    below: int = 0
    fine: Fraction = Fraction(1)
    large: int = 0


def _both(unit: str, step: str, form: Literal["decimal", "trimmed"] = "decimal") -> dict[System, Style]:
    style = Style(unit, Fraction(step), form)
    return {"inch": style, "metric": style}


def _each(inch: Style, metric: Style) -> dict[System, Style]:
    return {"inch": inch, "metric": metric}


_TENTH = Fraction(1, 10)
_YARN = Style("tex", _ONE, below=100, fine=_TENTH)

STYLES: dict[Quantity, dict[System, Style]] = {
    "length": _each(Style("in", Fraction(1, 16), "mixed"), Style("mm", _ONE)),
    "thickness": _each(Style("in", _MILLI), Style("mm", _ONE / 100)),
    "force": _each(Style("lb", _TENTH, large=100), Style("kg", _TENTH, below=1, fine=_ONE / 100, large=100)),
    "mass": _each(Style("gr", _ONE), Style("g", _TENTH)),
    "linear_density": _each(_YARN, _YARN),
    "temperature": _each(Style("°F", _ONE), Style("°C", _ONE)),
    "angle": _both("°", "0.1"),
    "fraction": _both("%", "0.1"),
    "turns": _both("", "0.5", "trimmed"),
    "turns_per_length": _each(Style("turns/in", _ONE / 100), Style("turns/m", _ONE)),
    "count": _both("", "1"),
    "ratio": _both("", "0.01"),
    "energy": _each(Style("ft·lb", _TENTH), Style("J", _TENTH)),
    "speed": _each(Style("ft/s", _ONE), Style("m/s", _TENTH)),
    "stiffness": _each(Style("lb", _ONE), Style("kg", _ONE)),
    "time": _both("s", "0.001"),
    "duration": _both("h", "0.1", "trimmed"),
    "frequency": _both("Hz", "0.1"),
    "distance": _each(Style("yd", _TENTH), Style("m", _TENTH)),
    "goods": _each(Style("oz", _TENTH), Style("g", _ONE)),
    "weighed": _both("g", "0.1", "trimmed"),
}
"""Turns go in halves: one crossing of two bundles is half a turn, so halves can be counted and nothing finer."""

SI: dict[Quantity, str] = {
    "length": "m",
    "thickness": "m",
    "force": "N",
    "mass": "kg",
    "linear_density": "kg/m",
    "temperature": "K",
    "angle": "rad",
    "fraction": "1",
    "turns": "turn",
    "turns_per_length": "turn/m",
    "count": "1",
    "ratio": "1",
    "energy": "J",
    "speed": "m/s",
    "stiffness": "N",
    "time": "s",
    "duration": "s",
    "frequency": "Hz",
    "distance": "m",
    "goods": "kg",
    "weighed": "kg",
}


def usual_unit(quantity: Quantity, system: System) -> Unit:
    """Return the unit in which a reader is shown a quantity, and in which a bare number is taken.

    Parameters
    ----------
    quantity : Quantity
        What it is.
    system : {"inch", "metric"}
        The reader's units.
    """
    return UNITS[quantity][STYLES[quantity][system].unit.casefold().replace("·", "")]


def with_unit(number: str, label: str) -> str:
    """Return a number with its unit: close up for `%` and `°`, else after a space.

    Parameters
    ----------
    number : str
        As printed.
    label : str
        Of the unit; may be empty.
    """
    return f"{number}{label}" if label in {"%", "°"} else f"{number} {label}".strip()
