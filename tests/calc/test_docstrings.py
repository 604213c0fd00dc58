"""Docstrings of public functions and classes, read against their signatures.

A room is one package, or a module right below `calc`. What a worksheet reads (`Inputs`) is told by its fields.
"""

from __future__ import annotations

import ast
import logging
import re
from functools import cache
from textwrap import dedent
from typing import TYPE_CHECKING

import griffe
import pytest

from site_build.setup.paths import ROOT

if TYPE_CHECKING:
    from collections.abc import Iterator

pytestmark = pytest.mark.exact
FOLDERS = [path.parent.relative_to(ROOT / "calc") for path in (ROOT / "calc").rglob("__init__.py")]
ROOMS = sorted(
    {".".join(each.parts) for each in FOLDERS if each.parts} | {path.stem for path in (ROOT / "calc").glob("[a-z]*.py")}
)
PHYSICAL = {"geometry", "mechanics"}
"""Rooms in which every public function says where it has its rule from."""
UNITS = {
    "per_strand_m": "turn/m",
    "per_flat_m": "turn/m",
    "per_m": "turn/m or 1/m",
    "n_per_kg_m": "N/(kg/m)",
    "kg_m3": "kg/m^3",
    "kg_m": "kg/m",
    "n_m": "N/m",
    "m_s": "m/s",
    "kg": "kg",
    "rad": "rad",
    "m": "m",
    "n": "N",
    "s": "s",
    "j": "J",
    "k": "K",
}
"""What the end of a name says about its unit; the longer ends first."""
AS_FOR = re.compile(r"^As for `(\w+)`")
Part = griffe.DocstringParameter | griffe.DocstringAttribute


@cache
def public() -> dict[str, list[griffe.Function | griffe.Class]]:
    """Return the functions and classes without an underscore, by their room."""
    logging.getLogger("griffe").setLevel(logging.CRITICAL)
    package = griffe.load("calc", docstring_parser="numpy", search_paths=[str(ROOT)])
    assert isinstance(package, griffe.Module)
    found: dict[str, list[griffe.Function | griffe.Class]] = {}
    for module in _modules(package):
        own = [each for each in module.members.values() if not each.is_alias and not each.name.startswith("_")]
        room = _room(module)
        found.setdefault(room, []).extend(each for each in own if isinstance(each, griffe.Function | griffe.Class))
    return found


def _room(module: griffe.Module) -> str:
    """Return the package that a module stands in, or its own name right below `calc`."""
    steps = module.path.split(".")[1:]
    return ".".join(steps if module.is_init_module or len(steps) < 2 else steps[:-1])


def _modules(module: griffe.Module) -> Iterator[griffe.Module]:
    yield module
    for each in module.modules.values():
        if not each.is_alias:
            yield from _modules(each)


def faults(room: str) -> list[str]:
    """Return what the docstrings of a room lack, a sentence each."""
    found = []
    for each in public()[room]:
        said = _function(each) if isinstance(each, griffe.Function) else _class(each)
        found += [f"{each.path}: {fault}" for fault in said]
        if room.split(".", maxsplit=1)[0] in PHYSICAL and _result(each) != "None" and "Source:" not in _text(each):
            found.append(f"{each.path}: does not say where its rule is from")
    return found


def _function(of: griffe.Function) -> Iterator[str]:
    takes = [each.name for each in of.parameters]
    told = _parts(of, "parameters")
    if sorted(takes) != sorted(told):
        yield f"takes {takes} and tells of {list(told)}"
    elif takes != list(told):
        yield f"tells of its parameters in another order: {list(told)}"
    yield from _units(told)
    result = _result(of)
    returns = [each for each in _sections(of, "returns") if isinstance(each, griffe.DocstringReturn)]
    first = _text(of).partition("\n\n")[0]
    if result != "None" and not returns and not _sections(of, "yields") and not first.startswith("Return "):
        yield f"does not say what it returns ({result})"
    if result == "float" and not re.search(r"\[.+\]", " ".join([first, *(each.description for each in returns)])):
        yield "does not say the unit of what it returns"
    unsaid = _raised(of) - {str(each.annotation) for each in _sections(of, "raises")}
    if unsaid:
        yield f"raises {', '.join(sorted(unsaid))} and does not say so"


def _class(of: griffe.Class) -> Iterator[str]:
    holds = {name for name, each in of.attributes.items() if not each.is_alias and "property" not in each.labels}
    told = _parts(of, "parameters") | _parts(of, "attributes")
    unsaid = sorted(name for name in holds - set(told) if not name.startswith("_") and not of.members[name].docstring)
    if unsaid and not any(base in {"Enum", "TypedDict"} or base.endswith("Inputs") for base in map(str, of.bases)):
        yield f"does not tell of {', '.join(unsaid)}"
    yield from _units(told)


def _units(told: dict[str, str]) -> Iterator[str]:
    for name, words in told.items():
        unit = next((unit for end, unit in UNITS.items() if f"_{name}".endswith(f"_{end}")), "")
        named = re.split(r", ", ", ".join(re.findall(r"\[([^\]]+)\]", words)))
        if unit and not set(unit.split(" or ")) & set(named):
            yield f"{name} does not say [{unit}]"


def _raised(of: griffe.Function) -> set[str]:
    """Return what a function raises itself or by asking for a number within limits."""
    nodes = list(ast.walk(ast.parse(dedent(of.source))))
    exceptions = [each.exc for each in nodes if isinstance(each, ast.Raise) and each.exc]
    calls = [each.func.id for each in nodes if isinstance(each, ast.Call) and isinstance(each.func, ast.Name)]
    names = {ast.unparse(each.func if isinstance(each, ast.Call) else each) for each in exceptions}
    return {name for name in names if not name.startswith("_")} | ({"DomainError"} if "require" in calls else set())


def _result(of: griffe.Function | griffe.Class) -> str:
    return str(of.returns) if isinstance(of, griffe.Function) else "None"


def _text(of: griffe.Object) -> str:
    return of.docstring.value if of.docstring else ""


def _sections(of: griffe.Object, kind: str) -> list[griffe.DocstringElement]:
    parsed = of.docstring.parsed if of.docstring else []
    return [each for section in parsed if section.kind.value == kind for each in section.value]


def _parts(of: griffe.Object, kind: str) -> dict[str, str]:
    """Return the words of each parameter or attribute; names that share an entry share its words."""
    parts = [each for each in _sections(of, kind) if isinstance(each, Part)]
    named = [(name.lstrip("*"), each.description) for each in parts for name in each.name.split(", ")]
    return {name: _followed(name, words, kind) for name, words in named}


def _followed(name: str, words: str, kind: str) -> str:
    """Return the words of a parameter; `As for` another function's means what is said there."""
    there = AS_FOR.match(words)
    if not there:
        return words
    others = [each for members in public().values() for each in members if each.name == there[1]]
    return " ".join([words, *(_parts(each, kind).get(name, "") for each in others)])


@pytest.mark.parametrize("room", ROOMS)
def test_docstrings_tell_parameters_units_results_errors_and_sources(room: str) -> None:
    assert faults(room) == []


def test_a_function_with_every_fault_is_found_out() -> None:
    with griffe.temporary_visited_module(
        'def half(length_m, share) -> float:\n    """Halve.\n\n    Parameters\n    ----------\n    share : float\n'
        '        Of one.\n    length_m : float\n        Of the cord.\n    """\n    raise ValueError\n\n'
        'class Cord:\n    """A cord."""\n\n    length_m: float\n'
    ) as module:
        for each in (module["half"], module["Cord"]):
            each.docstring.parser = "numpy"
        assert list(_function(module["half"])) == [
            "tells of its parameters in another order: ['share', 'length_m']",
            "length_m does not say [m]",
            "does not say what it returns (float)",
            "does not say the unit of what it returns",
            "raises ValueError and does not say so",
        ]
        assert list(_class(module["Cord"])) == ["does not tell of length_m"]
