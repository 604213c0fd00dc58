"""The formulas of the reference pages: `formulas.toml` in a room of `calc` declares them beside their functions.

Only the site and the tests read them; they do not go into the browser.
"""

from __future__ import annotations

import ast
import re
import tomllib
from dataclasses import dataclass, field, replace
from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING, Any

from calc.data import fibre_table, practice, practices
from site_build.setup.paths import ROOT

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

FILE = "formulas.toml"
MATHS = frozenset(("atan", "cos", "log", "log10", "max", "min", "pi", "sin", "sqrt", "tan"))
_OF_A_FIBRE = re.compile(r"_(n_per_kg_m|kg_m3)$")


@dataclass(frozen=True, slots=True)
class Symbol:
    """What a name in a formula means, with its unit; ``-`` for a plain number, nothing for what is no number."""

    words: str
    unit: str


@dataclass(frozen=True, slots=True)
class Formula:
    """What a reference page tells of a function.

    Attributes
    ----------
    function : str
        The function or class, from `calc` on.
    group, title : str
        Where on the pages it stands; its heading.
    words, unit : str
        What it answers, and the unit where that is one number.
    where : mapping of str to str
        What letters stand for in the equations, in the order in which they are worked out.
    equations : tuple of str
        Both sides of each; none where the way to the answer is too long to print.
    source, leaves_out : str
        Sentences; a key of the sources stands between double backticks.
    symbols : mapping of str to Symbol
        What the names in its lines mean, in their order.
    """

    function: str
    group: str
    title: str
    words: str
    source: str
    unit: str = ""
    where: Mapping[str, str] = field(default_factory=dict)
    equations: tuple[str, ...] = ()
    leaves_out: str = ""
    symbols: Mapping[str, Symbol] = field(default_factory=dict)

    @property
    def name(self) -> str:
        """The function's own name."""
        return self.function.rpartition(".")[2]

    @property
    def lines(self) -> tuple[str, ...]:
        """Every equation to print, those of the letters first."""
        return (*(f"{letter} = {means}" for letter, means in self.where.items()), *self.equations)


@cache
def formulas() -> dict[str, Formula]:
    """Return every declared formula by the name of its function, in the order of the pages.

    Raises
    ------
    KeyError
        For a name in an equation that nothing explains.
    TypeError
        For a field that does not exist, or one that is missing.
    """
    declared: dict[str, Formula] = {}
    shared: dict[str, dict[str, list[str]]] = {}
    for path in sorted((ROOT / "calc").rglob(FILE)):
        room = ".".join(path.parent.relative_to(ROOT).parts)
        data = tomllib.loads(path.read_text(encoding="utf-8"))
        for row in data["formula"]:
            own = data.get("symbols", {}) | row.pop("symbols", {})
            row |= {"function": f"{room}.{row['function']}", "equations": tuple(row.get("equations", ()))}
            this = Formula(**row)
            declared[this.name], shared[this.name] = this, own
    return {name: _explained(this, shared[name], declared) for name, this in declared.items()}


def groups() -> dict[str, list[Formula]]:
    """Return the formulas by the block of a page that shows them."""
    found: dict[str, list[Formula]] = {}
    for each in formulas().values():
        found.setdefault(each.group, []).append(each)
    return found


def function(name: str) -> Callable[..., Any]:
    """Return the function, or class, of a formula by its name.

    Raises
    ------
    KeyError
        When no formula is declared for it.
    """
    module, _, own = formulas()[name].function.rpartition(".")
    return getattr(import_module(module), own)  # type: ignore[no-any-return]  # a test calls each


def constant(name: str) -> float:
    """Return a number that stands by itself in a room with formulas, by its name.

    Raises
    ------
    KeyError
        When no such room has it.
    """
    for path in sorted((ROOT / "calc").rglob(FILE)):
        for file in path.parent.glob("[a-z]*.py"):
            module = import_module(".".join(file.relative_to(ROOT).with_suffix("").parts))
            if isinstance(found := getattr(module, name, None), float):
                return found
    raise KeyError(name)


def names(lines: tuple[str, ...]) -> Iterator[str]:
    """Yield each name in some equations once, in its order, without those of mathematics.

    >>> list(names(("tan(a / 2) = b * a", "c = sqrt(b)")))
    ['a', 'b', 'c']
    """
    sides = (side for line in lines for side in line.split(" = "))
    nodes = (ast.walk(ast.parse(side, mode="eval")) for side in sides)
    found = [sorted((each.col_offset, each.id) for each in side if isinstance(each, ast.Name)) for side in nodes]
    yield from (each for each in dict.fromkeys(name for side in found for _, name in side) if each not in MATHS)


def _explained(this: Formula, own: Mapping[str, list[str]], declared: Mapping[str, Formula]) -> Formula:
    used = [each for each in names(this.lines) if each not in this.where and (each != this.name or each in own)]
    return replace(this, symbols={each: _symbol(each, own, declared) for each in used})


def _symbol(name: str, own: Mapping[str, list[str]], declared: Mapping[str, Formula]) -> Symbol:
    """Look a name up: in its room, the fibre table, the constants, the other formulas."""
    if name in own:
        return Symbol(*own[name])
    plain = _OF_A_FIBRE.sub("", name)
    if plain in fibre_table.PROPERTIES:
        return Symbol(f"{fibre_table.PROPERTIES[plain]}, of the fibre.", "")
    if name in practices():
        words = practice(name).words
        return Symbol(f"{words[0].upper()}{words[1:]}.", "")
    return Symbol(declared[name].words, declared[name].unit)
