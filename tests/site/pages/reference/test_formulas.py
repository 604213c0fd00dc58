"""Every declared formula, worked out as it is shown and held against its function; and what a declaration must have."""

from __future__ import annotations

import math
import random
import re
import tomllib
from dataclasses import fields, is_dataclass
from typing import TYPE_CHECKING, Any

import pytest

from calc.data import Fibre, fibre, practice, practices, sources
from calc.data.fibre_table import PROPERTIES
from calc.geometry.ends import FlatTip, RoundTip
from calc.geometry.lay import Lay, lay
from calc.mechanics.bow import Bow
from calc.mechanics.fibre import Load, expected_worst
from calc.mechanics.shot import ShotString
from calc.numerics import Spread
from site_build.pages.reference.formulas import FILE, MATHS, formulas, function, names
from site_build.setup.paths import ROOT
from tests.arithmetic import work_out
from tests.calc.test_docstrings import UNITS
from tests.tolerances import CLOSED_FORM

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping
    from pathlib import Path

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
EQUATIONS = [name for name, each in formulas().items() if each.equations]
TABLES = sorted((ROOT / "calc").rglob(FILE))


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
    known |= {each: _callable(each) for each in formulas()} | {"expected_worst": expected_worst}
    known |= _parts(answer) | {name: _plain(answer)}
    for each in given.values():
        known |= _parts(each)
    return known | {key: _plain(value) for key, value in given.items() if value is not None}


def _cases(name: str) -> Iterator[dict[str, Any]]:
    """Yield what is known in each of 25 cases drawn by lot, with the letters worked out."""
    some = random.Random(name)  # noqa: S311 - drawn alike each time, nothing secret
    for _ in range(25):
        given = _drawn(name, some)
        known = _known(name, given, function(name)(**given))
        for letter, means in formulas()[name].where.items():
            known[letter] = work_out(means, known)
        yield known


def _sides(equation: str, known: Mapping[str, Any]) -> tuple[float, float]:
    left, _, right = equation.partition(" = ")
    return work_out(left, known), work_out(right, known)


def _agree(sides: tuple[float, float]) -> bool:
    return sides[0] == pytest.approx(sides[1], rel=CLOSED_FORM, abs=1e-15)


@pytest.mark.parametrize("name", EQUATIONS)
def test_a_formula_gives_what_its_function_gives(name: str) -> None:
    """What a function answers stands on either side, so that an equation it solves is checked by putting it in."""
    for known in _cases(name):
        for equation in formulas()[name].equations:
            sides = _sides(equation, known)
            assert _agree(sides), (equation, sides)


@pytest.mark.parametrize("name", EQUATIONS)
def test_a_formula_that_is_off_by_a_millionth_is_caught(name: str) -> None:
    for equation in formulas()[name].equations:
        left, _, right = equation.partition(" = ")
        assert not all(_agree(_sides(f"{left} = ({right}) * 1.000001", known)) for known in _cases(name)), equation


def test_every_formula_with_an_equation_is_tried() -> None:
    assert set(EQUATIONS) == set(GIVEN)


@pytest.mark.parametrize("name", formulas())
def test_every_formula_says_where_it_is_from(name: str) -> None:
    """By a key of the sources, or by another formula or function that has one."""
    this = formulas()[name]
    keys = {each.key for each in sources()}
    assert set(re.findall(r"``((?:derived:)[\w-]+)``", this.source + this.leaves_out)) <= keys
    assert any(f"``{key}``" in this.source for key in keys) or re.search(r"(?<!`)`\w+`(?!`)", this.source)


@pytest.mark.parametrize("name", formulas())
def test_units_are_those_that_names_end_in(name: str) -> None:
    this = formulas()[name]
    units = {each: symbol.unit for each, symbol in this.symbols.items()} | ({name: this.unit} if this.unit else {})
    for symbol, unit in units.items():
        wanted = next((unit for end, unit in UNITS.items() if f"_{symbol}".endswith(f"_{end}")), "")
        assert unit in wanted.split(" or ") or not wanted or _is_of_a_fibre(symbol), symbol


def _is_of_a_fibre(symbol: str) -> bool:
    return symbol.removesuffix("_n_per_kg_m") in PROPERTIES


@pytest.mark.parametrize("path", TABLES, ids=lambda path: path.parent.name)
def test_every_symbol_that_is_declared_is_used(path: Path) -> None:
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    used: set[str] = set()
    for row in data["formula"]:
        this = formulas()[row["function"].rpartition(".")[2]]
        assert set(row.get("symbols", ())) <= set(names(this.lines)), this.name
        used |= set(this.symbols) - set(row.get("symbols", ()))
    assert set(data.get("symbols", ())) <= used


def test_docstrings_point_to_the_formulas_and_hold_none() -> None:
    for path in (ROOT / "calc").rglob("*.py"):
        assert "Formula:" not in path.read_text(encoding="utf-8"), path
    for name, this in formulas().items():
        doc = function(name).__doc__ or ""
        assert f"Source: ``{FILE}`` beside this file." in doc, this.function
    pointing = sum(path.read_text("utf-8").count(f"Source: ``{FILE}``") for path in (ROOT / "calc").rglob("*.py"))
    assert pointing == len(formulas())


@pytest.mark.parametrize("text", ["a.b", "[1]", "a if a else 2", "'a'", "not a", "f(x=a)", "a < 2", "(lambda: a)()"])
def test_what_is_not_arithmetic_is_not_worked_out(text: str) -> None:
    with pytest.raises(ValueError, match="is not arithmetic"):
        work_out(text, {"a": 1.0, "f": math.sin})


def test_arithmetic_is_worked_out() -> None:
    assert work_out("-a**2 / 4 + sqrt(b) * (a - 1)", {"a": 2.0, "b": 9.0, "sqrt": math.sqrt}) == 2.0
