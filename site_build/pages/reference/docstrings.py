"""What a docstring tells: its first sentence, its formulas, where they come from, what they leave out."""

from __future__ import annotations

import re
from dataclasses import dataclass, is_dataclass
from importlib import import_module
from inspect import getdoc, signature
from typing import TYPE_CHECKING, Any, get_args, get_type_hints

from calc.data import fibre_table, practice, practices

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

ROOMS = (
    *(
        f"calc.geometry.ends.{name}"
        for name in (
            "fits",
            "loops",
            "pipes",
            "sections",
            "servings",
            "splices",
        )
    ),
    *(f"calc.geometry.ends.{name}" for name in ("tail_friction",)),
    *(
        f"calc.geometry.lay.{name}"
        for name in (
            "approach",
            "balance",
            "bundles",
            "flattening",
            "helical_lay",
            "jam_limit",
        )
    ),
    *(
        f"calc.geometry.lay.{name}"
        for name in (
            "measured_cord",
            "twist",
        )
    ),
    *(
        f"calc.mechanics.bow.{name}"
        for name in (
            "bow",
            "brace",
            "draw_force",
            "limb_model",
        )
    ),
    *(
        f"calc.mechanics.fibre.{name}"
        for name in (
            "fibres",
            "ropes",
            "sharing",
            "strength",
            "stretch",
            "unknown_cord",
        )
    ),
    *(
        f"calc.mechanics.shot.{name}"
        for name in (
            "peaks",
            "shooting",
            "trajectory",
            "variants",
        )
    ),
)
"""Where the functions stand that the reference pages tell of."""
_TYPE_ROOMS = (
    "calc.data",
    "calc.numerics",
    *(f"calc.geometry.{name}" for name in ("lay", "ends")),
    *(f"calc.mechanics.{name}" for name in ("bow", "fibre", "estimate", "shot")),
    "collections.abc",
)
MATHS = frozenset(("atan", "cos", "log", "log10", "max", "min", "pi", "sin", "sqrt", "tan"))
_ENDS = {"low": "Low end of the answer.", "high": "High end of the answer."}
_SECTION = re.compile(r"^(\w[\w ]*)\n-+\n", re.MULTILINE)
_ENTRY = re.compile(r"^(?P<names>\w[\w, ]*?)(?: : .*)?$")
_QUOTED = re.compile(r"``(.+?)``")
_NAME = re.compile(r"[A-Za-z_]\w*")
_UNIT = re.compile(r" ?\[[^\]]+\]$")
_AS_FOR = re.compile(r"^As for `(\w+)`[.;]? ?")


@dataclass(frozen=True, slots=True)
class FunctionText:
    """What a docstring tells of a function.

    Attributes
    ----------
    words : str
        Its first sentence, without the verb that returns.
    formulas : tuple of str
        Equations as they stand, one by one; a short name alone at the left is defined there.
    source, leaves_out : str
        The sentences of its notes.
    symbols : mapping of str to str
        What each name in the formulas means, in their order.
    """

    words: str
    formulas: tuple[str, ...]
    source: str
    leaves_out: str
    symbols: Mapping[str, str]


def function(name: str) -> Callable[..., Any]:
    """Return a function of the rooms by its name.

    Raises
    ------
    KeyError
        When no room has it.
    """
    for room in ROOMS:
        found = getattr(import_module(room), name, None)
        if callable(found) and getattr(found, "__module__", "") == room:
            return found  # type: ignore[no-any-return]  # checked to be callable just before
    raise KeyError(name)


def constant(name: str) -> float:
    """Return a number that stands by itself in a room, by its name.

    Raises
    ------
    KeyError
        When no room has it.
    """
    for room in ROOMS:
        if isinstance(found := getattr(import_module(room), name, None), float):
            return found
    raise KeyError(name)


def function_text(name: str) -> FunctionText:
    """Return what the docstring of a function tells.

    Raises
    ------
    KeyError
        For a function that is in no room, or a symbol that nothing explains.
    """
    doc = _doc(function(name))
    words = doc.partition("\n\n")[0].replace("\n", " ").removeprefix("Return ")
    notes = sections(doc)["Notes"]
    before, _, after = notes.partition("Source:")
    source, mark, left = " ".join(after.split()).partition("Leaves out")
    formulas = tuple(_QUOTED.findall(before))
    return FunctionText(
        words=words[0].upper() + words[1:],
        formulas=formulas,
        source=_sentence(source),
        leaves_out=_sentence(mark + left),
        symbols={each: _meaning(each, name) for each in _names(formulas) if each not in _defined(name, formulas)},
    )


def sections(doc: str) -> dict[str, str]:
    """Return the sections of a docstring by their headings."""
    parts = _SECTION.split(doc)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def _doc(of: object) -> str:
    return getdoc(of) or ""


def _sentence(text: str) -> str:
    text = text.strip()
    return text[:1].upper() + text[1:]


def _names(formulas: tuple[str, ...]) -> Iterator[str]:
    for each in dict.fromkeys(name for text in formulas for name in _NAME.findall(text)):
        if each not in MATHS:
            yield each


def _defined(name: str, formulas: tuple[str, ...]) -> set[str]:
    """Return the names that need no words: the function's own, and those a formula sets."""
    return {name} | {left for left in (text.partition(" = ")[0] for text in formulas) if len(left) == 1}


def entries(section: str) -> dict[str, str]:
    """Return the entries of a section of parameters or attributes, in one line each.

    Names that share an entry share its text, or its parts where there is one for each between semicolons.
    """
    found: dict[str, str] = {}
    lines: dict[tuple[str, ...], list[str]] = {}
    names: tuple[str, ...] = ()
    for line in section.splitlines():
        head = _ENTRY.match(line)
        if head:
            names = tuple(head["names"].split(", "))
            lines[names] = []
        elif line.startswith(" "):
            lines[names].append(line.strip())
    for names, told_ in lines.items():
        text = " ".join(told_)
        unit = _UNIT.search(text)
        parts = text.removesuffix(unit[0] if unit else "").rstrip(". ").split("; ")
        if len(names) == len(parts) > 1:
            found |= {
                name: f"{_sentence(part)}.{unit[0] if unit else ''}" for name, part in zip(names, parts, strict=True)
            }
        else:
            found |= dict.fromkeys(names, text)
    return found


def _meaning(symbol: str, name: str) -> str:
    """Look a symbol up: parameters, results, parts of parameters, fibres, constants, other functions."""
    for of in _places(name):
        parts = sections(_doc(of))
        known = entries(parts.get("Parameters", "")) | entries(parts.get("Attributes", ""))
        if symbol in known:
            return _followed(symbol, known[symbol])
    plain = re.sub(r"_(n_per_kg_m|kg_m3)$", "", symbol)
    if plain in fibre_table.PROPERTIES:
        return f"{fibre_table.PROPERTIES[plain]}, of the fibre."
    if symbol in _ENDS:
        return _ENDS[symbol]
    if symbol in practices():
        return _sentence(practice(symbol).words) + "."
    return function_text(symbol).words


def _places(name: str) -> Iterator[object]:
    """Yield where a symbol of a function may be told: itself, what it returns, what it is given."""
    of = function(name)
    yield of
    hints = get_type_hints(of, vars(import_module(of.__module__)) | _types())
    for hint in (hints.get("return"), *(hints.get(given) for given in signature(of).parameters)):
        for each in (hint, *get_args(hint)):
            if isinstance(each, type) and (is_dataclass(each) or issubclass(each, tuple)):
                yield each


def _types() -> dict[str, object]:
    """Return the types that rooms import for annotations only."""
    names: dict[str, object] = {}
    for room in _TYPE_ROOMS:
        names |= vars(import_module(room))
    return names


def _followed(symbol: str, text: str) -> str:
    """Replace a reference to another function's parameter by what stands there."""
    found = _AS_FOR.match(text)
    if not found:
        return text
    return f"{_meaning(symbol, found[1])} {_sentence(text[found.end() :])}".strip()
