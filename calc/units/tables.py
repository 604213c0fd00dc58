"""Every unit that may be typed, with its exact factor to SI, and how each quantity is shown."""

from __future__ import annotations

from typing import Literal

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
    "count",
    "ratio",
    "energy",
    "speed",
    "stiffness",
    "time",
]

INCH = 0.0254
FOOT = 0.3048
YARD = 0.9144
GRAIN = 64.79891e-6
POUND = 0.45359237
GRAVITY = 9.80665
POUND_FORCE = 4.4482216152605
"""Exact by definition: the international yard and pound of 1959, the grain as 1/7000 lb, the standard
acceleration of gravity of 1901. Checked in the tests against two independent libraries."""

_LENGTH = {
    "m": 1.0, "metre": 1.0, "metres": 1.0, "meter": 1.0, "meters": 1.0,
    "cm": 0.01, "centimetre": 0.01, "centimetres": 0.01, "centimeter": 0.01, "centimeters": 0.01,
    "mm": 0.001, "millimetre": 0.001, "millimetres": 0.001, "millimeter": 0.001, "millimeters": 0.001,
    "µm": 1e-6, "μm": 1e-6, "um": 1e-6, "micron": 1e-6, "microns": 1e-6, "km": 1000.0,
    "in": INCH, "inch": INCH, "inches": INCH, "ins": INCH, '"': INCH,
    "ft": FOOT, "foot": FOOT, "feet": FOOT, "'": FOOT,
    "yd": YARD, "yds": YARD, "yard": YARD, "yards": YARD,
    "thou": 25.4e-6, "mil": 25.4e-6, "mils": 25.4e-6,
}  # fmt: skip
_MASS = {
    "kg": 1.0, "kilo": 1.0, "kilos": 1.0, "kilogram": 1.0, "kilograms": 1.0,
    "g": 0.001, "gram": 0.001, "grams": 0.001, "gramme": 0.001, "grammes": 0.001, "mg": 1e-6,
    "gr": GRAIN, "grain": GRAIN, "grains": GRAIN, "gn": GRAIN,
    "oz": POUND / 16, "ounce": POUND / 16, "ounces": POUND / 16,
    "lb": POUND, "lbs": POUND, "pound": POUND, "pounds": POUND,
}  # fmt: skip
_FORCE = {
    "n": 1.0, "newton": 1.0, "newtons": 1.0, "kn": 1000.0, "dan": 10.0,
    "kgf": GRAVITY, "kp": GRAVITY, "kg": GRAVITY, "kilo": GRAVITY, "kilos": GRAVITY,
    "lb": POUND_FORCE, "lbs": POUND_FORCE, "lbf": POUND_FORCE, "#": POUND_FORCE,
    "pound": POUND_FORCE, "pounds": POUND_FORCE, "ozf": POUND_FORCE / 16,
}  # fmt: skip
_TEX = 1e-6
_LINEAR_DENSITY = {
    "tex": _TEX, "g/km": _TEX, "dtex": _TEX / 10, "ktex": _TEX * 1000, "g/m": _TEX * 1000, "kg/m": 1.0,
    "den": _TEX / 9, "denier": _TEX / 9, "d": _TEX / 9,
}  # fmt: skip
LENGTH_PER_MASS = {
    "m/kg": 1.0, "m/g": 1000.0, "m/100g": 10.0, "km/kg": 1000.0, "yd/lb": YARD / POUND, "ft/lb": FOOT / POUND,
}  # fmt: skip
"""Sizes that run the other way: the more, the thinner. Factor to m/kg."""

FACTORS: dict[Quantity, dict[str, float]] = {
    "length": _LENGTH,
    "thickness": _LENGTH,
    "force": _FORCE,
    "mass": _MASS,
    "linear_density": _LINEAR_DENSITY,
    "temperature": {"k": 1.0, "°c": 1.0, "c": 1.0, "°f": 5 / 9, "f": 5 / 9, "degc": 1.0, "degf": 5 / 9},
    "angle": {"°": 3.141592653589793 / 180, "deg": 3.141592653589793 / 180, "rad": 1.0},
    "fraction": {"%": 0.01, "": 1.0},
    "turns": {"": 1.0, "turn": 1.0, "turns": 1.0},
    "count": {"": 1.0, "strands": 1.0, "strand": 1.0},
    "ratio": {"": 1.0},
    "energy": {"j": 1.0, "ft·lbf": FOOT * POUND_FORCE, "ftlbf": FOOT * POUND_FORCE},
    "speed": {"m/s": 1.0, "ft/s": FOOT, "fps": FOOT, "km/h": 1 / 3.6},
    "stiffness": {"n": 1.0, "kn": 1000.0, "lbf": POUND_FORCE},
    "time": {"s": 1.0, "min": 60.0, "h": 3600.0, "hour": 3600.0, "hours": 3600.0, "ms": 0.001},
}
OFFSETS = {
    "°c": 273.15,
    "c": 273.15,
    "degc": 273.15,
    "°f": 459.67 * 5 / 9,
    "f": 459.67 * 5 / 9,
    "degf": 459.67 * 5 / 9,
}
"""Added after the factor, for temperatures [K]."""

SHOWN: dict[Quantity, dict[System, tuple[str, float]]] = {
    "length": {"inch": ("in", 1 / 16), "metric": ("mm", 1.0)},
    "thickness": {"inch": ("in", 0.001), "metric": ("mm", 0.01)},
    "force": {"inch": ("lbf", 0.1), "metric": ("N", 1.0)},
    "mass": {"inch": ("gr", 1.0), "metric": ("g", 0.1)},
    "linear_density": {"inch": ("tex", 1.0), "metric": ("tex", 1.0)},
    "temperature": {"inch": ("°F", 1.0), "metric": ("°C", 1.0)},
    "angle": {"inch": ("°", 0.1), "metric": ("°", 0.1)},
    "fraction": {"inch": ("%", 0.1), "metric": ("%", 0.1)},
    "turns": {"inch": ("", 0.5), "metric": ("", 0.5)},
    "count": {"inch": ("", 1.0), "metric": ("", 1.0)},
    "ratio": {"inch": ("", 0.01), "metric": ("", 0.01)},
    "energy": {"inch": ("ft·lbf", 0.1), "metric": ("J", 0.1)},
    "speed": {"inch": ("ft/s", 1.0), "metric": ("m/s", 0.1)},
    "stiffness": {"inch": ("lbf", 1.0), "metric": ("kN", 0.1)},
    "time": {"inch": ("s", 0.001), "metric": ("s", 0.001)},
}
"""Unit and smallest step each quantity is shown in. Turns in halves: hands count half turns."""

SI = {
    "length": "m",
    "thickness": "m",
    "force": "N",
    "mass": "kg",
    "linear_density": "kg/m",
    "temperature": "K",
    "angle": "rad",
    "fraction": "1",
    "turns": "turn",
    "count": "1",
    "ratio": "1",
    "energy": "J",
    "speed": "m/s",
    "stiffness": "N",
    "time": "s",
}
