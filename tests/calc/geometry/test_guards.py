"""Every way in is guarded: what is not finite never passes, and answers to sane inputs are finite."""

from __future__ import annotations

import re
from dataclasses import astuple, is_dataclass
from inspect import signature
from math import isfinite, nan, radians
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any, NamedTuple

import pytest

from calc.data import sources
from calc.errors import DomainError
from calc.geometry import ends
from calc.geometry import lay as lays
from calc.geometry.bounds import require_length
from calc.geometry.ends import EllipseTip, FlatTip, RoundTip
from calc.geometry.ends.sections import outline_ahead, touch
from calc.numerics import Spread
from site_build.pages.reference.formulas import formulas

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = pytest.mark.exact

ROOM: dict[str, Any] = {name: getattr(each, name) for each in (ends, lays) for name in each.__all__}
room = SimpleNamespace(**ROOM)
SHAPE = room.lay(0.002, 2, 0.3)
TIP = RoundTip(0.0127)
FRICTION = Spread(0.1, 0.2, 0.3)


class Limit(NamedTuple):
    """A value just outside a bound, and what must be said of it."""

    field: str
    value: float
    code: str
    limit: float


SANE: list[tuple[Callable[..., Any], dict[str, Any]]] = [
    (room.balanced_twist, {"bundles": 2, "lay_rad": 0.3}),
    (room.bearing_line, {"width_m": 0.015, "opening_rad": 0.6, "pull_n": 900.0}),
    (room.bulk_density, {"linear_density_kg_m": 1e-3, "diameter_m": 0.001}),
    (room.bundle_diameter, {"linear_density_kg_m": 1e-3, "density_kg_m3": 1380.0, "packing": 0.7}),
    (room.bundle_of_cord, {"cord_m": 1.0, "shape": SHAPE, "twist_per_flat_m": 40.0}),
    (room.closed, {"shape": SHAPE, "squeeze": 0.9}),
    (room.closing_up, {"shape": SHAPE}),
    (room.coil, {"core_m": 0.003, "thread_m": 0.0005, "length_m": 0.15}),
    (room.cord_of_bundle, {"bundle_m": 1.0, "shape": SHAPE, "twist_per_flat_m": 40.0}),
    (room.counter_twist, {"turns": 20.0, "lay_rad": 0.3, "residual": 10.0}),
    (room.finger_turns, {"counter_per_turn": 2.0}),
    (room.flat_surface_angle, {"diameter_m": 0.001, "twist_per_flat_m": 100.0}),
    (room.flattened, {"diameter_m": 0.0267, "depth_m": 0.012}),
    (room.hand_of, {"turns": 3.0}),
    (room.holding_angle, {"friction": 0.2, "squeeze": 0.3}),
    (room.holding_ratio, {"tail_m": 0.2, "shape": SHAPE, "friction": FRICTION}),
    (room.jam_turns, {"diameter_m": 0.002, "bundles": 2, "strand_m": 1.0}),
    (room.lay, {"diameter_m": 0.002, "bundles": 2, "lay_rad": 0.3}),
    (room.lay_of_cord_turns, {"diameter_m": 0.002, "bundles": 3, "turns": 40.0, "cord_m": 1.0}),
    (room.bundle_of_laid, {"over_m": 0.004, "bundles": 3, "turns": 40.0, "cord_m": 1.0}),
    (room.lay_of_turns, {"diameter_m": 0.002, "bundles": 3, "turns": 40.0, "strand_m": 1.0}),
    (room.linear_density, {"mass_kg": 0.01, "length_m": 10.0}),
    (room.loop_nocked, {"section": TIP, "cord_diameter_m": 0.003, "opening_rad": 1.0}),
    (room.loop_of_length, {"section": TIP, "cord_diameter_m": 0.003, "length_m": 0.1}),
    (room.loop_of_throat, {"section": TIP, "cord_diameter_m": 0.003, "throat_m": 0.02}),
    (room.loop_sliding, {"section": TIP, "cord_diameter_m": 0.003, "ease": 0.05}),
    (room.middle_lay, {"loosest_rad": 0.1, "tightest_rad": 0.4}),
    (room.modulus_ratio, {"surface_rad": 0.3}),
    (room.over_bridge, {"from_nock_m": 0.04, "height_m": 0.01}),
    (room.packing_of, {"linear_density_kg_m": 1e-3, "density_kg_m3": 1380.0, "diameter_m": 0.002}),
    (room.pressed, {"diameter_m": 0.002, "squeeze": Spread(0.8, 0.9, 1.0)}),
    (room.radius_ratio, {"bundles": 3, "lay_rad": 0.3}),
    (room.residual_twist, {"counter": 40.0, "turns": 20.0, "lay_rad": 0.3}),
    (room.retraction, {"surface_rad": 0.3}),
    (room.rolled_diameter, {"strands": 12, "strand_diameter_m": 0.0004}),
    (
        room.served_loop,
        {"section": TIP, "bundle_m": 0.002, "thread_m": 0.0005, "opening_rad": 1.0, "bound_length_m": 0.06},
    ),
    (room.shortest_loop, {"section": TIP, "cord_diameter_m": 0.003}),
    (room.signed, {"turns": 3.0, "hand": "S"}),
    (room.splice, {"bare": SHAPE, "strands": 7, "tail_m": 0.2, "step_m": 0.0127}),
    (room.stagger, {"strands": 7, "tail_m": 0.2, "least_m": 0.05, "wanted_m": 0.0127}),
    (room.surface_angle, {"diameter_m": 0.001, "twist_per_m": 100.0}),
    (room.take_up_curve, {"diameter_m": 0.002, "bundles": 2, "points": 9}),
    (room.torque_free_ratio, {"lay_rad": 0.3, "stiffness_ratio": 1.0}),
    (room.transferred, {"splice_turns": 12.0, "counter_per_turn": 2.0, "body_turns": 20.0}),
    (room.twist_of_angle, {"diameter_m": 0.001, "surface_rad": 0.3}),
    (
        room.waxed_diameter,
        {
            "linear_density_kg_m": 1e-3,
            "density_kg_m3": 1380.0,
            "packing": 0.7,
            "wax_share": 0.1,
            "wax_density_kg_m3": 960.0,
        },
    ),
    (room.wet_length, {"lay_rad": 0.3, "swelling": 0.2, "along": 0.001}),
    (room.widest_opening, {"section": TIP, "cord_diameter_m": 0.003}),
    (room.wound_diameter, {"width_m": 0.03, "wraps": 20}),
    (room.wall_area, {"diameter_m": 0.02, "wall_m": 0.003}),
    (room.wrap_angle, {"strand_m": 0.2, "shape": SHAPE}),
    (RoundTip, {"diameter_m": 0.0127}),
    (FlatTip, {"width_m": 0.02, "depth_m": 0.01, "corner_m": 0.002}),
    (EllipseTip, {"width_m": 0.02, "depth_m": 0.01}),
    (touch, {"section": TIP, "normal_rad": 0.5}),
    (outline_ahead, {"section": TIP, "normal_rad": 0.5}),
]

LENGTHS = {
    *("bound_length_m", "bundle_m", "cord_diameter_m", "cord_m", "core_m", "depth_m", "diameter_m", "least_m"),
    *("length_m", "strand_diameter_m", "tail_m", "thread_m", "throat_m", "wanted_m", "width_m"),
}


def _numbers(inputs: dict[str, Any]) -> list[str]:
    return [name for name, value in inputs.items() if isinstance(value, float)]


CASES = [
    pytest.param(ask, inputs, name, id=f"{ask.__name__}-{name}") for ask, inputs in SANE for name in _numbers(inputs)
]


def _flat(answer: object) -> list[float]:
    if is_dataclass(answer) and not isinstance(answer, type):
        return _flat(astuple(answer))
    if isinstance(answer, tuple):
        return [number for each in answer for number in _flat(each)]
    return [float(answer)] if isinstance(answer, float) else []


@pytest.mark.parametrize(("ask", "inputs"), SANE, ids=[ask.__name__ for ask, _ in SANE])
def test_sane_inputs_give_finite_numbers(ask: Callable[..., Any], inputs: dict[str, Any]) -> None:
    numbers = _flat(ask(**inputs))
    assert all(isfinite(number) for number in numbers)
    assert numbers or isinstance(ask(**inputs), str)
    assert set(inputs) == {name for name in signature(ask).parameters if name != "self"}


@pytest.mark.parametrize(("ask", "inputs", "name"), CASES)
@pytest.mark.parametrize("bad", [nan, float("inf"), float("-inf")])
def test_what_is_not_finite_is_no_number(
    ask: Callable[..., Any], inputs: dict[str, Any], name: str, bad: float
) -> None:
    with pytest.raises(DomainError) as caught:
        ask(**{**inputs, name: bad})
    assert (caught.value.problem.field, caught.value.problem.code) == (name, "number")


@pytest.mark.parametrize(
    ("ask", "inputs", "name"),
    [case for case in CASES if case.values[2] in LENGTHS],
)
@pytest.mark.parametrize(("bad", "code"), [(0.0, "min"), (-0.001, "min"), (1e-16, "min"), (2e9, "max")])
def test_lengths_are_above_nothing_and_within_reach(
    ask: Callable[..., Any], inputs: dict[str, Any], name: str, bad: float, code: str
) -> None:
    with pytest.raises(DomainError) as caught:
        ask(**{**inputs, name: bad})
    assert (caught.value.problem.field, caught.value.problem.code) == (name, code)


BY_NAME = {ask.__name__: (ask, inputs) for ask, inputs in SANE}
QUARTER = radians(90)


@pytest.mark.parametrize(
    ("name", "limits"),
    [
        ("balanced_twist", [Limit("lay_rad", -1e-9, "min", 0.0), Limit("lay_rad", 0.9, "max", room.jam(2).lay_rad)]),
        ("bundle_diameter", [Limit("linear_density_kg_m", 0.0, "min", 0.0)]),
        ("bundle_diameter", [Limit("linear_density_kg_m", 1.1e6, "max", 1e6)]),
        ("bundle_diameter", [Limit("density_kg_m3", 0.99, "min", 1.0), Limit("density_kg_m3", 1.1e5, "max", 1e5)]),
        ("bundle_diameter", [Limit("packing", 0.0099, "min", 0.01), Limit("packing", 1.0001, "max", 1.0)]),
        ("bulk_density", [Limit("linear_density_kg_m", 0.0, "min", 0.0)]),
        ("bulk_density", [Limit("linear_density_kg_m", 1.1e6, "max", 1e6)]),
        ("packing_of", [Limit("density_kg_m3", 0.99, "min", 1.0), Limit("density_kg_m3", 1.1e5, "max", 1e5)]),
        ("linear_density", [Limit("mass_kg", 0.0, "min", 0.0), Limit("mass_kg", 1.1e6, "max", 1e6)]),
        ("counter_twist", [Limit("lay_rad", -1e-9, "min", 0.0), Limit("lay_rad", 1.5709, "max", QUARTER)]),
        ("residual_twist", [Limit("lay_rad", -1e-9, "min", 0.0), Limit("lay_rad", 1.5709, "max", QUARTER)]),
        ("holding_angle", [Limit("friction", 9e-4, "min", 1e-3), Limit("friction", 1001.0, "max", 1e3)]),
        ("holding_angle", [Limit("squeeze", 9e-4, "min", 1e-3), Limit("squeeze", 1.001, "max", 1.0)]),
        ("lay", [Limit("lay_rad", -1e-9, "min", 0.0)]),
        ("lay_of_turns", [Limit("turns", -1e-9, "min", 0.0)]),
        ("lay_of_cord_turns", [Limit("turns", -1e-9, "min", 0.0)]),
        ("loop_nocked", [Limit("opening_rad", 9e-10, "min", 1e-9)]),
        ("loop_sliding", [Limit("ease", -1e-9, "min", 0.0), Limit("ease", 1e6 + 0.5, "max", 1e6)]),
        ("radius_ratio", [Limit("lay_rad", -1e-9, "min", 0.0)]),
        (
            "retraction",
            [Limit("surface_rad", QUARTER, "max", QUARTER), Limit("surface_rad", -QUARTER, "min", -QUARTER)],
        ),
        ("modulus_ratio", [Limit("surface_rad", QUARTER, "max", QUARTER)]),
        ("modulus_ratio", [Limit("surface_rad", -QUARTER, "min", -QUARTER)]),
        ("twist_of_angle", [Limit("surface_rad", QUARTER, "max", QUARTER)]),
        ("twist_of_angle", [Limit("surface_rad", -QUARTER, "min", -QUARTER)]),
        ("splice", [Limit("step_m", -1e-9, "min", 0.0)]),
        ("torque_free_ratio", [Limit("lay_rad", 0.0, "min", 0.0), Limit("lay_rad", QUARTER / 2, "max", QUARTER / 2)]),
        ("torque_free_ratio", [Limit("stiffness_ratio", 0.0, "min", 0.0)]),
        ("waxed_diameter", [Limit("wax_share", -1e-9, "min", 0.0), Limit("wax_share", 10.1, "max", 10.0)]),
        ("waxed_diameter", [Limit("wax_density_kg_m3", 0.99, "min", 1.0)]),
        ("waxed_diameter", [Limit("wax_density_kg_m3", 1.1e5, "max", 1e5)]),
        ("wrap_angle", [Limit("strand_m", -1e-9, "min", 0.0), Limit("strand_m", 1.1e9, "max", 1e9)]),
        ("touch", [Limit("normal_rad", -1e-9, "min", 0.0), Limit("normal_rad", 1.5709, "max", QUARTER)]),
        ("outline_ahead", [Limit("normal_rad", -1e-9, "min", 0.0), Limit("normal_rad", 1.5709, "max", QUARTER)]),
        ("FlatTip", [Limit("corner_m", -1e-9, "min", 0.0)]),
    ],
)
def test_bounds_are_named_with_their_limit(name: str, limits: list[Limit]) -> None:
    ask, inputs = BY_NAME[name]
    for each in limits:
        with pytest.raises(DomainError) as caught:
            ask(**{**inputs, each.field: each.value})
        problem = caught.value.problem
        assert (problem.field, problem.code) == (each.field, each.code)
        assert problem.limit == pytest.approx(each.limit, rel=1e-12)


@pytest.mark.parametrize(
    ("name", "inputs"),
    [
        ("bundle_diameter", {"density_kg_m3": 1.0, "packing": 0.01}),
        ("bundle_diameter", {"density_kg_m3": 1e5, "packing": 1.0}),
        ("packing_of", {"density_kg_m3": 1.0}),
        ("packing_of", {"density_kg_m3": 1e5}),
        ("holding_angle", {"friction": 1e-3, "squeeze": 1e-3}),
        ("holding_angle", {"friction": 1e3, "squeeze": 1.0}),
        ("waxed_diameter", {"wax_share": 10.0, "wax_density_kg_m3": 1.0}),
        ("waxed_diameter", {"wax_share": 0.0, "wax_density_kg_m3": 1e5}),
        ("wrap_angle", {"strand_m": 1e9}),
        ("loop_nocked", {"opening_rad": 1e-9}),
        ("loop_sliding", {"ease": 0.0}),
        ("loop_sliding", {"ease": 1e6}),
        ("take_up_curve", {"points": 2}),
        ("pressed", {"squeeze": Spread(0.01, 0.5, 1.0)}),
    ],
)
def test_bounds_themselves_are_inside(name: str, inputs: dict[str, Any]) -> None:
    ask, sane = BY_NAME[name]
    assert all(isfinite(number) for number in _flat(ask(**{**sane, **inputs})))


@pytest.mark.parametrize("inside", [1e-15, 1.0, 1e9])
def test_lengths_at_their_bounds_are_inside(inside: float) -> None:
    require_length("any_m", inside)


@pytest.mark.parametrize(("bad", "limit"), [(0.0, 0.0), (-1.0, 0.0), (9e-16, 1e-15), (1.1e9, 1e9)])
def test_lengths_out_of_bounds_name_the_nearer_bound(bad: float, limit: float) -> None:
    with pytest.raises(DomainError) as caught:
        require_length("any_m", bad)
    assert caught.value.problem.limit == limit


def test_every_function_of_the_room_is_tried() -> None:
    tried = {ask.__name__ for ask, _ in SANE}
    functions = {name for name in ROOM if callable(ROOM[name]) and name[0].islower()}
    elsewhere = {
        "envelope_ratio",
        "holding_length",
        "is_pipe",
        "jam",
        "perimeter",
        "pipe",
        "torque_free_band",
        "warn_lay",
    }
    assert functions - tried == elsewhere


def test_every_function_names_a_known_source() -> None:
    known = {each.key for each in sources()}
    for name, function in ROOM.items():
        if callable(function) and name[0].islower():
            notes = formulas()[name].source if name in formulas() else (function.__doc__ or "").partition("Source:")[2]
            named = [key for key in known if f"``{key}``" in notes]
            refers = re.search(r"(?<!`)`[a-z_]+`(?!`)", notes)
            assert named or refers, name
