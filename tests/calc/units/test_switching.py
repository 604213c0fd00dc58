"""Typed text in the other units and back: the same number, however often."""

from __future__ import annotations

from fractions import Fraction
from math import inf
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.errors import DomainError
from calc.units import Quantity, System, convert_text, read, show
from calc.units.tables import STYLES

CALM = settings(derandomize=True, deadline=None, max_examples=100)
FEW = settings(CALM, max_examples=40)
SWITCHED: list[Quantity] = [each for each in get_args(Quantity) if STYLES[each]["inch"] != STYLES[each]["metric"]]
STILL: list[Quantity] = [each for each in get_args(Quantity) if each not in SWITCHED]
LARGEST: dict[Quantity, float] = {  # how far a partner may be from what was typed, in SI
    "length": 0.1e-3, "thickness": 0.001e-3, "force": 0.1, "mass": 0.01e-3, "temperature": 0.1, "energy": 0.01,
    "speed": 0.1, "stiffness": 1.0, "turns_per_length": 0.1, "distance": 0.01, "goods": 1e-3,
}  # fmt: skip
OTHER: dict[System, System] = {"inch": "metric", "metric": "inch"}
LABELS = {each: {system: STYLES[each][system].unit for system in get_args(System)} for each in get_args(Quantity)}
DECIMALS = st.integers(0, 10**7).flatmap(
    lambda number: st.integers(0, 4).map(lambda digits: Fraction(number, 10**digits))
)


def value_of(text: str, quantity: Quantity, system: System = "inch") -> float:
    """Return what a text means."""
    return read("n", text, quantity, low=-inf, high=inf, system=system)


def decimal(number: Fraction) -> str:
    """Write a finite decimal."""
    return f"{float(number):.4f}"


@pytest.mark.exact
@pytest.mark.parametrize(
    ("text", "quantity", "there", "back"),
    [  # products by hand: 25.4 mm, 4.4482216 N, 64.79891 mg
        ("62 1/2 in", "length", "1587.5 mm", "62 1/2 in"), ("62 1/2", "length", "1587.5 mm", "62 1/2 in"),
        ("5' 2 1/2\"", "length", "1587.5 mm", "62 1/2 in"), ("62 11/16", "length", "1592.3 mm", "62 11/16 in"),
        ("62 43/64", "length", "1591.9 mm", "62 43/64 in"), ("62.68", "length", "1592.07 mm", "62.68 in"),
        ("-1/2", "length", "−12.7 mm", "−1/2 in"), ("0", "length", "0 mm", "0 in"),
        ("1/32", "length", "0.8 mm", "1/32 in"),
        ("0.018", "thickness", "0.457 mm", "0.018 in"), ("1/8", "thickness", "3.175 mm", "0.125 in"),
        ("1/64", "thickness", "0.39687 mm", "0.015625 in"),
        ("45#", "force", "20.41 kg", "45 lb"), ("45.25 lb", "force", "20.525 kg", "45.25 lb"),
        ("400", "mass", "25.92 g", "400 gr"), ("70", "temperature", "21.1 °C", "70 °F"),
        ("-40 °F", "temperature", "−40 °C", "−40 °F"), ("2.5", "turns_per_length", "98.4 turns/m", "2.5 turns/in"),
    ],
)  # fmt: skip
def test_inch_texts_go_there_and_back(text: str, quantity: Quantity, there: str, back: str) -> None:
    assert convert_text(text, quantity, -inf, inf, "metric") == there
    assert convert_text(there, quantity, -inf, inf, "inch") == back
    assert value_of(back, quantity) == value_of(text, quantity)


@pytest.mark.exact
@pytest.mark.parametrize(
    ("text", "quantity", "there", "back"),
    [
        ("1592", "length", "62.677 in", "1592 mm"), ("1592,5 mm", "length", "62.697 in", "1592.5 mm"),
        ("157 cm", "length", "61 13/16 in", "1570 mm"), ("1,57 m", "length", "61 13/16 in", "1570 mm"),
        ("0,46", "thickness", "0.0181 in", "0.46 mm"), ("20 kg", "force", "44.1 lb", "20 kg"),
        ("26", "mass", "401.24 gr", "26 g"), ("21", "temperature", "69.8 °F", "21 °C"),
        ("21.5 °C", "temperature", "70.7 °F", "21.5 °C"), ("−5", "temperature", "23 °F", "−5 °C"),
    ],
)  # fmt: skip
def test_metric_texts_go_there_and_back(text: str, quantity: Quantity, there: str, back: str) -> None:
    assert convert_text(text, quantity, -inf, inf, "inch") == there
    assert convert_text(there, quantity, -inf, inf, "metric") == back
    assert value_of(back, quantity) == value_of(text, quantity, "metric")


@pytest.mark.exact
@FEW
@given(DECIMALS, st.sampled_from(SWITCHED), st.sampled_from(get_args(System)))
def test_fifty_switches_change_nothing(number: Fraction, quantity: Quantity, system: System) -> None:
    typed = f"{decimal(number)} {LABELS[quantity][system]}"
    text = typed
    for _ in range(25):
        text = convert_text(convert_text(text, quantity, -inf, inf, OTHER[system]), quantity, -inf, inf, system)
    assert value_of(text, quantity) == value_of(typed, quantity)


@pytest.mark.exact
@CALM
@given(st.integers(0, 8000), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_every_mark_of_a_tape_comes_back_as_it_was(count: int, parts: int) -> None:
    whole, rest = divmod(count, parts)
    typed = f"{whole} {rest}/{parts} in"
    there = convert_text(typed, "length", -inf, inf, "metric")
    back = convert_text(there, "length", -inf, inf, "inch")
    assert "." not in back
    assert value_of(back, "length") == value_of(typed, "length")
    assert value_of(there, "length") == pytest.approx(value_of(typed, "length"), abs=0.0500001e-3)


@pytest.mark.exact
@CALM
@given(DECIMALS, st.sampled_from(SWITCHED), st.sampled_from(get_args(System)))
def test_the_other_text_means_the_same_to_a_tape(number: Fraction, quantity: Quantity, system: System) -> None:
    typed = f"{decimal(number)} {LABELS[quantity][system]}"
    there = convert_text(typed, quantity, -inf, inf, OTHER[system])
    assert there.endswith(LABELS[quantity][OTHER[system]])
    assert abs(value_of(there, quantity) - value_of(typed, quantity)) <= LARGEST[quantity] * 1.000001


@pytest.mark.exact
@FEW
@given(st.text(alphabet="0123456789", min_size=9, max_size=60), st.sampled_from(SWITCHED))
def test_more_digits_than_the_ladder_are_rounded_once(digits: str, quantity: Quantity) -> None:
    typed = f"{digits[:3]}.{digits[3:]} {LABELS[quantity]['inch']}"
    texts = [convert_text(typed, quantity, -inf, inf, "metric")]
    for _ in range(4):
        texts.append(convert_text(texts[-1], quantity, -inf, inf, "inch"))
        texts.append(convert_text(texts[-1], quantity, -inf, inf, "metric"))
    assert len(set(texts)) == 2
    assert value_of(texts[0], quantity) == pytest.approx(value_of(typed, quantity), rel=1e-6, abs=LARGEST[quantity])


@pytest.mark.exact
@CALM
@given(
    st.integers(1, 4000),
    st.integers(1, 4000),
    st.integers(0, 5),
    st.sampled_from(SWITCHED),
    st.sampled_from(["low", "high"]),
)
def test_what_is_within_the_limits_stays_within(
    first: int, width: int, inset: int, quantity: Quantity, side: str
) -> None:
    unit = value_of(f"2 {LABELS[quantity]['inch']}", quantity) - value_of(f"1 {LABELS[quantity]['inch']}", quantity)
    zero = value_of(f"0 {LABELS[quantity]['inch']}", quantity)
    low, high = zero + first / 8 * unit, zero + (first / 8 + width / 8) * unit
    sixteenths = 2 * (first + width) - inset if side == "high" else 2 * first + inset
    typed = f"{sixteenths / 16} {LABELS[quantity]['inch']}"
    value = read("n", typed, quantity, low=low, high=high) if 2 * first <= sixteenths <= 2 * (first + width) else None
    if value is not None:
        there = convert_text(typed, quantity, low, high, "metric")
        assert low <= read("n", there, quantity, low=low, high=high) <= high
        back = convert_text(there, quantity, low, high, "inch")
        assert read("n", back, quantity, low=low, high=high) == value


@pytest.mark.exact
def test_a_limit_stays_a_legal_answer() -> None:
    low = 5 * 4.4482216152605
    assert convert_text("5 lbf", "force", low, 900.0, "metric") == "2.27 kg"
    assert convert_text("2.27 kg", "force", low, 900.0, "inch") == "5 lb"


@pytest.mark.exact
def test_limits_with_no_room_keep_the_unit() -> None:
    third = 1.0 / 3 * 0.0254
    assert convert_text("1", "length", 0.0254, 0.0254, "metric") == "25.4 mm"
    assert convert_text("1/64", "length", 0.0254 / 64, 0.0254 / 64, "metric") == "1/64 in"
    assert convert_text("1/64 in", "length", 0.0254 / 64, 0.0254 / 64, "inch") == "1/64 in"
    assert convert_text("1/3", "length", third, third, "metric").endswith(" in")


@pytest.mark.exact
@pytest.mark.parametrize("text", ["62 1/2 in", "5' 2\"", "0.018 inches", "1 yd 2 ft 3"])
def test_a_text_in_the_wanted_units_is_left_alone(text: str) -> None:
    assert convert_text(text, "length", -inf, inf, "inch") == text


@pytest.mark.exact
@pytest.mark.parametrize("quantity", STILL)
@pytest.mark.parametrize("system", get_args(System))
def test_quantities_with_one_unit_are_left_alone(quantity: Quantity, system: System) -> None:
    assert convert_text(" 12,5 ", quantity, -inf, inf, system) == " 12,5 "
    assert show(0.5, quantity, "inch") == show(0.5, quantity, "metric")


@pytest.mark.exact
@pytest.mark.parametrize(
    ("text", "code"), [("", "missing"), ("long", "number"), ("45 lb", "unit"), ("1,575", "ambiguous")]
)
def test_what_cannot_be_read_is_refused(text: str, code: str) -> None:
    with pytest.raises(DomainError) as caught:
        convert_text(text, "length", -inf, inf, "inch")
    assert caught.value.problem.code == code
