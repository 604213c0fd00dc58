"""What people type, against two independent sets of conversion factors."""

from __future__ import annotations

from math import isclose

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import constants

from calc.errors import DomainError
from calc.units import Quantity, System, convert_text, read, show
from calc.units.tables import FACTORS, LENGTH_PER_MASS, SHOWN

OTHER: dict[System, System] = {"inch": "metric", "metric": "inch"}


def length(text: str, system: System = "inch") -> float:
    return read("n", text, "length", low=0.0, high=10.0, system=system)


@pytest.mark.exact
@pytest.mark.parametrize(
    ("text", "metres"),
    [
        ("62", 1.5748), ("62 1/2", 1.5875), ("62 1/2 in", 1.5875), ("5 ft 2 1/2 in", 1.5875), ("5' 2 1/2\"", 1.5875),
        ("5′ 2½″", 1.5875), ("157.5 cm", 1.575), ("157,5 cm", 1.575), ("1,57 m", 1.57), ("1575mm", 1.575),
        ("0.018 in", 0.0004572), ("1/8", 0.003175), ("62½", 1.5875), ("62 ½ in", 1.5875), ("62-1/2 in", 1.5875),
        ("62 ¹¹⁄₁₆ in", 1.5922625), ("62\u00a01/2\u2009in", 1.5875), ("5ft2½in", 1.5875), (" + 62 1/2 in. ", 1.5875),
        ("1\u2009575 mm", 1.575), ("1.575,0 mm", 1.575), ("5 ft 2", 1.5748), ("1e2 cm", 1.0),
    ],
)  # fmt: skip
def test_lengths_as_people_type_them(text: str, metres: float) -> None:
    assert isclose(length(text), metres, rel_tol=1e-15)


@pytest.mark.exact
@pytest.mark.parametrize(
    ("text", "quantity", "value"),
    [
        ("45 lb", "force", 45 * constants.lbf), ("45 lbf", "force", 45 * constants.lbf),
        ("45#", "force", 45 * constants.lbf), ("200 N", "force", 200.0), ("20 kgf", "force", 20 * constants.kgf),
        ("400 gr", "mass", 400 * constants.grain), ("26 g", "mass", 0.026),
        ("1500 den", "linear_density", 1500e-6 / 9), ("6000 m/kg", "linear_density", 1 / 6000),
        ("1670 dtex", "linear_density", 167e-6), ("8.4 g / 50 m", "linear_density", 168e-6),
        ("12.5 g per 10 m", "linear_density", 1.25e-3),
        ("3000 yards per lb", "linear_density", constants.lb / (3000 * constants.yard)),
        ("20 °C", "temperature", 293.15), ("68 F", "temperature", 293.15), ("-40", "temperature", 233.15),
    ],
)  # fmt: skip
def test_other_quantities_against_scipy_constants(text: str, quantity: Quantity, value: float) -> None:
    assert isclose(read("n", text, quantity, low=-1e9, high=1e9), value, rel_tol=1e-12)


@pytest.mark.exact
def test_every_factor_against_pint() -> None:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    names = {
        "length": (
            "metre",
            {"in": "inch", "ft": "foot", "yd": "yard", "mm": "millimetre", "cm": "centimetre", "mil": "thou"},
        ),
        "mass": ("kilogram", {"gr": "grain", "lb": "pound", "oz": "ounce", "g": "gram"}),
        "force": ("newton", {"lbf": "force_pound", "kgf": "force_kilogram", "#": "force_pound"}),
        "linear_density": ("kilogram / metre", {"tex": "tex", "dtex": "dtex", "den": "denier"}),
        "energy": ("joule", {"ft·lbf": "foot * force_pound"}),
        "speed": ("metre / second", {"ft/s": "foot / second"}),
    }
    for quantity, (base, pairs) in names.items():
        for ours, theirs in pairs.items():
            factor = FACTORS[quantity][ours]  # type: ignore[index]
            assert isclose(factor, registry.Quantity(1.0, theirs).to(base).magnitude, rel_tol=1e-12), ours
    assert isclose(LENGTH_PER_MASS["yd/lb"], registry.Quantity(1.0, "yard / pound").to("metre / kilogram").magnitude)


@pytest.mark.exact
def test_a_comma_is_taken_when_only_one_reading_is_inside() -> None:
    assert read("n", "1,575", "length", low=0.5, high=2.5, system="metric") == 1.575
    with pytest.raises(DomainError) as caught:
        read("n", "1,575", "length", low=0.0, high=2.5, system="metric")
    assert caught.value.problem.code == "ambiguous"
    assert caught.value.problem.readings == ("1.575 mm", "1575 mm")


@pytest.mark.exact
@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "missing"), ("  ", "missing"), ("abc", "number"), ("nan", "number"), ("inf", "number"), ("1/0", "number"),
        ("1e308", "max"), ("-5", "min"), ("45 lb", "unit"), ("62 furlongs", "unit"), ("5 in 3 ft", "number"),
        ("9" * 400, "number"), ("1 in 2", "unit"),
    ],
)  # fmt: skip
def test_what_cannot_be_a_length_says_why(text: str, code: str) -> None:
    with pytest.raises(DomainError) as caught:
        length(text)
    assert (caught.value.problem.field, caught.value.problem.code) == ("n", code)


@pytest.mark.exact
@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.text(max_size=60), st.sampled_from(sorted(SHOWN)), st.sampled_from(["inch", "metric"]))
def test_nothing_but_an_input_error_is_ever_raised(text: str, quantity: Quantity, system: System) -> None:
    try:
        value = read("n", text, quantity, low=-1e6, high=1e6, system=system)
    except DomainError:
        return
    assert -1e6 <= value <= 1e6


@pytest.mark.exact
@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.floats(0.001, 1.0), st.sampled_from(sorted(SHOWN)), st.sampled_from(["inch", "metric"]))
def test_what_is_shown_reads_back_to_what_is_shown(share: float, quantity: Quantity, system: System) -> None:
    value = 250.0 + 100.0 * share if quantity == "temperature" else share
    shown = show(value, quantity, system)
    assert show(read("n", shown, quantity, low=-1e9, high=1e9, system=system), quantity, system) == shown


@pytest.mark.exact
@settings(derandomize=True, deadline=None, max_examples=200)
@given(
    st.integers(1, 100_000),
    st.sampled_from(["length", "thickness", "force", "mass", "temperature"]),
    st.sampled_from(["inch", "metric"]),
)
def test_switching_units_never_drifts(count: int, quantity: Quantity, system: System) -> None:
    unit, step = SHOWN[quantity][system]
    text = f"{count * step:.4f} {unit}"
    value = read("n", text, quantity, low=-1e9, high=1e9, system=system)
    for _ in range(3):
        text = convert_text(text, quantity, low=-1e9, high=1e9, to=OTHER[system])
        text = convert_text(text, quantity, low=-1e9, high=1e9, to=system)
    assert read("n", text, quantity, low=-1e9, high=1e9, system=system) == pytest.approx(value, rel=1e-12)
