"""Every formula of the reference pages, worked out as it is printed and held against the function it stands beside."""

from __future__ import annotations

import math
import random
from dataclasses import fields, is_dataclass
from importlib import import_module
from inspect import getmembers
from typing import TYPE_CHECKING, Any

import pytest

from calc.data import Fibre, fibre, practice, practices
from calc.data.fibre_table import PROPERTIES
from calc.geometry.ends import FlatTip, RoundTip
from calc.geometry.lay import Lay, lay
from calc.mechanics.bow import Bow
from calc.mechanics.fibre import Load
from calc.mechanics.shot import ShotString
from calc.numerics import Spread
from site_build.pages.reference.docstrings import MATHS, ROOMS, function, function_text
from site_build.pages.reference.page import FORMULAS
from tests.tolerances import CLOSED_FORM

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

pytestmark = pytest.mark.exact

Range = tuple[float, float]
LAYS, DIAMETERS, LENGTHS = (0.05, 0.8), (5e-4, 3e-3), (0.1, 2.0)
TEX, DENSITY, PACKING = (1e-4, 3e-3), (900.0, 1600.0), (0.4, 0.9)
COUNTS = {"bundles", "strands", "wraps"}


def _shape(some: random.Random) -> Lay:
    return lay(some.uniform(*DIAMETERS), some.choice((2, 3, 4)), some.uniform(0.1, 0.7))


def _pin(some: random.Random) -> RoundTip:
    return RoundTip(some.uniform(0.008, 0.02))


def _flat(some: random.Random) -> FlatTip:
    return FlatTip(some.uniform(0.012, 0.02), some.uniform(0.008, 0.011), some.uniform(0.0, 0.004))


def _spread(some: random.Random) -> Spread:
    value = some.uniform(0.2, 0.9)
    return Spread(0.9 * value, value, min(1.0, 1.1 * value))


def _fibre(some: random.Random) -> Fibre:
    return fibre(some.choice(("polyester", "linen", "hmpe", "nylon")))


def _bow(some: random.Random) -> Bow:
    return Bow(
        some.uniform(1.4, 1.8),
        some.uniform(0.0, 0.2),
        some.choice(("arc", "hinged", "tapered", "uniform")),
        some.uniform(-0.02, 0.03),
        some.uniform(-0.03, 0.05),
        some.uniform(0.0, 0.05),
    )


def _straight(some: random.Random) -> Bow:
    return Bow(some.uniform(1.5, 1.8), some.uniform(0.0, 0.2), some.choice(("arc", "tapered")))


def _string(some: random.Random) -> ShotString:
    return ShotString(some.uniform(2e4, 6e4), some.uniform(0.005, 0.01))


def _load(some: random.Random) -> Load:
    return Load(some.uniform(50.0, 200.0), some.uniform(100.0, 1e6), some.uniform(280.0, 305.0))


GIVEN: dict[str, dict[str, Range | str | Callable[[random.Random], object]]] = {
    "turned_rad": {"bundles": (3, 4), "lay_rad": LAYS},
    "radius_ratio": {"bundles": (2, 4), "lay_rad": LAYS},
    "lay": {"diameter_m": DIAMETERS, "bundles": (2, 4), "lay_rad": (0.05, 0.8)},
    "lay_of_turns": {"diameter_m": (1e-3, 2e-3), "bundles": (2, 4), "turns": (1.0, 60.0), "strand_m": (2.0, 3.0)},
    "lay_of_cord_turns": {"diameter_m": (1e-3, 2e-3), "bundles": (2, 4), "turns": (1.0, 60.0), "cord_m": (2.0, 3.0)},
    "jam": {"bundles": (2, 4)},
    "warn_lay": {"bundles": (3, 4)},
    "surface_angle": {"diameter_m": DIAMETERS, "twist_per_m": (-200.0, 200.0)},
    "flat_surface_angle": {"diameter_m": DIAMETERS, "twist_per_flat_m": (-200.0, 200.0)},
    "retraction": {"surface_rad": (-1.2, 1.2)},
    "modulus_ratio": {"surface_rad": (-1.2, 1.2)},
    "working_load": {"strength_n": (100.0, 9000.0), "design_factor": (1.0, 15.0)},
    "cord_of_bundle": {"bundle_m": LENGTHS, "shape": _shape, "twist_per_flat_m": (-100.0, 100.0)},
    "residual_twist": {"counter": (0.0, 80.0), "turns": (0.0, 80.0), "lay_rad": LAYS},
    "counter_twist": {"residual": (-80.0, 80.0), "turns": (0.0, 80.0), "lay_rad": LAYS},
    "finger_turns": {"counter_per_turn": (0.5, 2.5)},
    "balanced_twist": {"bundles": (2, 4), "lay_rad": LAYS},
    "torque_free_ratio": {"lay_rad": (0.05, 0.7), "stiffness_ratio": (0.5, 1.5)},
    "transferred": {"splice_turns": (1.0, 20.0), "counter_per_turn": (0.5, 2.5), "body_turns": (1.0, 60.0)},
    "bundle_diameter": {"linear_density_kg_m": TEX, "density_kg_m3": DENSITY, "packing": PACKING},
    "waxed_diameter": {
        "linear_density_kg_m": TEX,
        "density_kg_m3": DENSITY,
        "packing": PACKING,
        "wax_share": (0.0, 1.0),
        "wax_density_kg_m3": (950.0, 970.0),
    },
    "rolled_diameter": {"strands": (1, 40), "strand_diameter_m": DIAMETERS},
    "pressed": {"diameter_m": DIAMETERS, "squeeze": _spread},
    "perimeter": {"section": _flat},
    "flattened": {"diameter_m": (0.02, 0.03), "depth_m": (0.005, 0.02)},
    "wall_area": {"diameter_m": (0.02, 0.03), "wall_m": (0.002, 0.005)},
    "loop_nocked": {"section": _pin, "cord_diameter_m": DIAMETERS, "opening_rad": (0.2, 1.8)},
    "coil": {"core_m": DIAMETERS, "thread_m": (1e-4, 4e-4), "length_m": LENGTHS},
    "stagger": {"strands": (2, 20), "tail_m": (0.1, 0.3), "least_m": (0.03, 0.06), "wanted_m": (0.005, 0.02)},
    "splice": {"bare": _shape, "strands": (1, 12), "tail_m": (0.2, 0.3), "step_m": (0.0, 0.01)},
    "wrap_angle": {"strand_m": LENGTHS, "shape": _shape},
    "holding_angle": {"friction": (0.05, 0.5), "squeeze": (0.05, 0.95)},
    "holding_length": {"shape": _shape, "friction": _spread},
    "strand_strength": {"fibre": _fibre, "linear_density_kg_m": TEX},
    "wet_strength": {"fibre": _fibre, "linear_density_kg_m": TEX},
    "twist_efficiency": {"surface_rad": (0.0, 1.2)},
    "lay_efficiency": {"lay_rad": LAYS},
    "sharing_efficiency": {"fibre": _fibre, "strands": (1, 40)},
    "loop_efficiency": {"tip_m": (0.005, 0.02), "cord_m": DIAMETERS, "throat_rad": (0.0, 2.0)},
    "assembly": {"fibre": _fibre, "strands": (1, 40), "lay_rad": LAYS},
    "breaking_force": {"fibre": _fibre, "linear_density_kg_m": TEX, "efficiency": _spread},
    "rated_strength": {"rated_n": (100.0, 3000.0), "rating": "breaking"},
    "elastic_stretch": {"fibre": _fibre, "linear_density_kg_m": TEX, "tension_n": (0.0, 20.0), "lay_rad": LAYS},
    "string_stiffness": {"fibre": _fibre, "linear_density_kg_m": TEX, "lay_rad": LAYS},
    "creep": {"fibre": _fibre, "linear_density_kg_m": (2e-3, 3e-3), "load": _load},
    "Bow": {
        "nock_to_nock_m": (1.4, 1.8),
        "handle_length_m": (0.0, 0.25),
        "shape": "arc",
        "handle_proud_m": (-0.02, 0.03),
        "string_follow_m": (-0.05, 0.1),
        "contact_m": (0.0, 0.08),
    },
    "string_length": {"bow": _bow, "brace_m": (0.12, 0.19)},
    "limb_reach": {"shape": "hinged", "across": (0.0, 0.6)},
    "arc_bend": {"across": (0.01, 0.6)},
    "arc_across": {"reach": (0.8, 0.99)},
    "static_tension": {"bow": _bow, "brace_m": (0.14, 0.17), "draw_m": (0.5, 0.6), "draw_force_n": (60.0, 300.0)},
    "strand_string": {
        "fibre": _fibre,
        "yarn_kg_m": TEX,
        "strands": (1, 40),
        "string_m": LENGTHS,
        "lay_rad": (0.0, 0.5),
    },
    "usual_limb_mass": {"brace_m": (0.12, 0.19), "draw_m": (0.5, 0.7), "draw_force_n": (60.0, 300.0)},
    "shot": {
        "bow": _straight,
        "brace_m": (0.14, 0.17),
        "draw_m": (0.5, 0.6),
        "draw_force_n": (120.0, 300.0),
        "arrow_kg": (0.02, 0.04),
        "string": _string,
        "limb_mass_kg": (0.1, 0.2),
        "within": (3e-3, 4e-3),
    },
    "linear_density": {"mass_kg": (1e-3, 0.1), "length_m": LENGTHS},
    "wound_diameter": {"width_m": (0.01, 0.05), "wraps": (5, 30)},
    "packing_of": {"linear_density_kg_m": TEX, "density_kg_m3": DENSITY, "diameter_m": DIAMETERS},
}
"""For every function with a formula, where its inputs are drawn from."""
PRINTED = [name for group in FORMULAS.values() for name in group if function_text(name).formulas]


def _drawn(name: str, some: random.Random) -> dict[str, Any]:
    drawn: dict[str, Any] = {}
    for given, how in GIVEN[name].items():
        if isinstance(how, tuple):
            drawn[given] = some.randint(int(how[0]), int(how[1])) if given in COUNTS else some.uniform(*how)
        else:
            drawn[given] = how(some) if callable(how) else how
    return drawn


def _plain(value: object) -> object:
    return value.value if isinstance(value, Spread) else value


def _parts(of: object) -> dict[str, object]:
    """Return what an input or an answer is made of, spreads by their typical values."""
    if isinstance(of, Fibre):
        known: dict[str, object] = {name: spread.value for name in PROPERTIES if (spread := of.spread(name))}
        longer = ("tenacity_n_per_kg_m", "thread_n_per_kg_m", "modulus_n_per_kg_m")
        return known | {name: _plain(getattr(of, name)) for name in longer}
    if isinstance(of, tuple) and hasattr(of, "_asdict"):
        return {name: _plain(value) for name, value in of._asdict().items()}
    if is_dataclass(of) and not isinstance(of, type):
        return {each.name: _plain(getattr(of, each.name)) for each in fields(of)}
    return {}


def _callable(name: str) -> Callable[..., object]:
    return lambda *given: _plain(function(name)(*given))


def _known(name: str, given: Mapping[str, Any], answer: object) -> dict[str, Any]:
    """Return every name a formula may use; what was given goes before what came out."""
    known: dict[str, Any] = {each: getattr(math, each) for each in MATHS - {"max", "min"}} | {"max": max, "min": min}
    known |= {key: practice(key).spread.value for key in practices()}
    known |= {each: _callable(each) for group in FORMULAS.values() for each in group}
    known["expected_worst"] = _callable("expected_worst")
    known |= _parts(answer) | {name: _plain(answer)}
    for each in given.values():
        known |= _parts(each)
    return known | {key: _plain(value) for key, value in given.items() if value is not None}


def _holds(formula: str, known: dict[str, Any]) -> None:
    """Set a letter that stands alone, or hold both sides against each other."""
    left, _, right = formula.partition(" = ")
    value = eval(right, {"__builtins__": {}}, known)  # noqa: S307 - the formula is our own
    if len(left) == 1 and left not in known:
        known[left] = value
        return
    told_ = eval(left, {"__builtins__": {}}, known)  # noqa: S307 - as above
    assert told_ == pytest.approx(value, rel=CLOSED_FORM, abs=1e-15), formula


@pytest.mark.parametrize("name", PRINTED)
def test_a_formula_gives_what_its_function_gives(name: str) -> None:
    some = random.Random(name)  # noqa: S311 - drawn alike each time, nothing secret
    for _ in range(25):
        given = _drawn(name, some)
        answer = function(name)(**given)
        known = _known(name, given, answer)
        if name == "turned_rad" or "low" in function_text(name).symbols:
            known |= _parts(answer)
        for formula in function_text(name).formulas:
            _holds(formula, known)


def test_a_wrong_formula_is_caught() -> None:
    known = _known("retraction", {"surface_rad": 0.3}, function("retraction")(0.3))
    with pytest.raises(AssertionError):
        _holds("retraction = tan(surface_rad / 2)", known)


def test_every_formula_in_the_rooms_is_on_a_page_and_tried_here() -> None:

    with_one = {
        name
        for room in ROOMS
        for name, each in getmembers(import_module(room), callable)
        if getattr(each, "__module__", "") == room and "Formula:" in (each.__doc__ or "")
    }
    assert with_one == set(PRINTED)
    assert set(PRINTED) == set(GIVEN)
