"""Factors held against two independent sets: pint's definitions and scipy.constants."""

from __future__ import annotations

from typing import get_args

import pint
import pytest
from scipy import constants

from calc import units
from calc.units import Quantity, System
from calc.units.tables import DEFINITIONS, QUOTIENTS, SI, STYLES, UNITS, Unit

PINT: pint.UnitRegistry[float] = pint.UnitRegistry()
SPELLED = {
    "#": "lb", '"': "in", "'": "ft", "thou": "thou", "gr": "grain", "°": "degree", "ft·lbf": "foot * force_pound",
    "N": "newton", "kN": "kilonewton", "daN": "decanewton", "kgf": "kilogram_force", "lbf": "force_pound",
    "ozf": "force_ounce", "den": "denier", "dtex": "decitex", "ktex": "kilotex", "turns/in": "turn / inch",
    "turns/m": "turn / meter", "h": "hour", "d": "day", "J": "joule", "%": "percent", "m/s": "meter / second",
    "km/h": "kilometer / hour", "ft/s": "foot / second", "μm": "micrometer", "in": "inch", "lb": "pound",
}  # fmt: skip
PLAIN = {"", "strands", "bundles", "ends", "pcs", "x"}
ROWS = [
    (quantity, unit)
    for quantity, known in UNITS.items()
    for unit in {each.label: each for each in known.values()}.values()
]

FORCES = {"kg": "kilogram_force", "lb": "force_pound", "oz": "force_ounce", "ft·lb": "foot * force_pound"}
"""Where a scale's pounds and kilograms are forces."""

IN_SCIPY = [
    ("inch", constants.inch),
    ("foot", constants.foot),
    ("yard", constants.yard),
    ("mile", constants.mile),
    ("pound", constants.pound),
    ("ounce", constants.ounce),
    ("grain", constants.grain),
    ("gravity", constants.g),
    ("fahrenheit", constants.degree_Fahrenheit),
    ("zero_celsius", constants.zero_Celsius),
    ("zero_fahrenheit", constants.convert_temperature(0.0, "F", "K")),
    ("minute", constants.minute),
    ("hour", constants.hour),
    ("day", constants.day),
    ("tex", constants.gram / constants.kilo),
    ("denier", constants.gram / (9 * constants.kilo)),
]


def in_si(number: float, quantity: Quantity, unit: Unit) -> float:
    """Return a number of a unit in SI, as pint has it."""
    if unit.label in PLAIN:
        return number
    if quantity == "temperature":
        names = {"°C": "degC", "°F": "degF", "K": "kelvin"}
        return float(PINT.Quantity(number, names[unit.label]).to("kelvin").magnitude)
    spelled = (FORCES if SI[quantity] in {"N", "J"} else SPELLED).get(unit.label, SPELLED.get(unit.label, unit.label))
    target = {"turn": "turn", "turn/m": "turn / meter", "1": "dimensionless", "rad": "radian"}
    return float(PINT.Quantity(number, PINT.Unit(spelled)).to(target.get(SI[quantity], SI[quantity])).magnitude)


@pytest.mark.exact
@pytest.mark.parametrize(("quantity", "unit"), ROWS, ids=lambda each: getattr(each, "label", each))
@pytest.mark.parametrize("number", [1.0, 0.37, -40.0])
def test_every_unit_is_as_large_as_in_pint(quantity: Quantity, unit: Unit, number: float) -> None:
    ours = float(number * unit.factor + unit.offset)
    assert ours == pytest.approx(in_si(number, quantity, unit), rel=1e-13, abs=1e-13)


@pytest.mark.exact
@pytest.mark.parametrize(("name", "expected"), IN_SCIPY)
def test_every_definition_is_as_in_scipy(name: str, expected: float) -> None:
    assert float(DEFINITIONS[name].value) == pytest.approx(expected, rel=1e-15)


@pytest.mark.exact
def test_the_definitions_checked_are_all_there_are() -> None:
    assert {name for name, _ in IN_SCIPY} == set(DEFINITIONS)
    assert all(each.kind == "exact" and each.source and each.unit for each in DEFINITIONS.values())


@pytest.mark.exact
def test_the_constants_for_bounds_are_as_in_scipy() -> None:
    assert constants.inch == units.INCH
    assert constants.lbf == units.POUND_FORCE
    assert pytest.approx(constants.grain, rel=1e-15) == units.GRAIN


@pytest.mark.exact
def test_every_quantity_stands_in_every_table() -> None:
    names = set(get_args(Quantity))
    assert set(UNITS) == set(STYLES) == set(SI) == names
    assert set(QUOTIENTS) < names


@pytest.mark.exact
@pytest.mark.parametrize("quantity", get_args(Quantity))
@pytest.mark.parametrize("system", get_args(System))
def test_what_is_shown_is_a_unit_of_the_reader(quantity: Quantity, system: System) -> None:
    label = units.unit_label(quantity, system)
    assert any(each.label == label and each.system in {system, None} for each in UNITS[quantity].values())
