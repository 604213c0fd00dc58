"""Pages of the reference about the code: every public name of `calc`, as its signature and its docstring tell it.

A package has a page with the names in its ``__all__``; a module that stands alone, with those it defines without an
underscore. The pages are made from what is there when the site is built, so a new or moved package has its page. They
are left out of the search, which is for makers of strings.
"""

from __future__ import annotations

import logging
import re
from textwrap import fill
from typing import TYPE_CHECKING

import griffe

from site_build.pages.reference.formulas import formulas
from site_build.pages.reference.page import page_of
from site_build.setup.paths import ROOT

if TYPE_CHECKING:
    from collections.abc import Iterator

FOLDER = "reference/code"
_HEAD = "---\ntitle: {title}\nsearch:\n  exclude: true\n---\n\n# {title}\n"
_START = """
For who wants to change this site or to use its sums elsewhere. The pages below are not kept for use without a signal.

## How it is made
"""
_PACKAGE = """
## The calc package

The sums behind the worksheets, as a Python package that needs nothing but the standard library, in SI units. Install it
with `pip install .` in a clone of the project. These pages are read from the code.
"""
_TITLE = re.compile(r"^title: (.+)$", re.MULTILINE)
_PARTS = {"parameters": "Takes", "attributes": "Holds", "returns": "Returns", "yields": "Yields", "raises": "Raises"}
Member = griffe.Function | griffe.Class | griffe.Attribute
WIDE = 100
"""Characters of a line of code at most."""


def pages() -> dict[str, str]:
    """Return the Markdown of each page by its path below ``docs``."""
    logging.getLogger("griffe").setLevel(logging.CRITICAL)  # docstrings are checked in tests/calc/test_docstrings.py
    package = griffe.load("calc", docstring_parser="numpy", search_paths=[str(ROOT)])
    assert isinstance(package, griffe.Module)
    made: dict[str, str] = {}
    lines = [_HEAD.format(title="The code"), _START, *_written_by_hand(), _PACKAGE]
    for module in _documented(package):
        made[f"{FOLDER}/{module.path}.md"] = _page(module)
        lines.append(f"- [`{module.path}`]({module.path}.md): {_summary(module)}")
    return {f"{FOLDER}/index.md": "\n".join(lines) + "\n", **made}


def _written_by_hand() -> Iterator[str]:
    for path in sorted((ROOT / "docs" / FOLDER).glob("*.md")):
        title = _TITLE.search(path.read_text(encoding="utf-8"))
        yield f"- [{title[1] if title else path.stem}]({path.name})"


def _documented(package: griffe.Module) -> Iterator[griffe.Module]:
    """Yield the packages that say what others may use, and the modules that stand alone, in order of their names."""
    for each in sorted(package.modules.values(), key=lambda each: each.name):
        if each.is_alias or each.name.startswith("_"):
            continue
        if public(each):
            yield each
        yield from (inner for inner in _documented(each) if inner.is_init_module)


def public(module: griffe.Module) -> list[Member]:
    """Return what others may use of a module: the names in its ``__all__``, else its own without an underscore."""
    if module.exports is None:
        own = (each for name, each in module.members.items() if not (name.startswith("_") or each.is_alias))
        return [each for each in own if isinstance(each, Member)]
    found = (_named(module, str(name)) for name in sorted(map(str, module.exports), key=str.casefold))
    return [each for each in found if isinstance(each, Member)]


def _named(module: griffe.Module, name: str) -> griffe.Object:
    """Return what a package exports by a name; a function in a file of its own name goes before the file."""
    found = module.members[name]
    each = found.final_target if isinstance(found, griffe.Alias) else found
    return _named(each, name) if isinstance(each, griffe.Module) else each


def _page(module: griffe.Module) -> str:
    parts = [_HEAD.format(title=module.path), f"{_text(module)}\n"]
    for each in public(module):
        parts += [f"## {each.name}\n", *_member_text(each)]
    return "\n".join(parts)


def _member_text(each: Member) -> Iterator[str]:
    yield f"```python\n{_signature(each)}\n```\n"
    declared = formulas().get(each.name)
    if declared and declared.function == each.path:
        yield f"Formula: [{declared.title}](../{page_of(declared.group)}.md#f-{declared.name})\n"
    for section in each.docstring.parsed if each.docstring else []:
        kind = section.kind.value
        if kind == "text":
            yield f"{section.value}\n"
        elif kind in _PARTS:
            yield f"**{_PARTS[kind]}**\n"
            yield from map(_item, section.value)
            yield ""
        elif kind == "examples":
            shown = (f"```pycon\n{text}\n```" if how.value == "examples" else text for how, text in section.value)
            yield "\n\n".join(["**Examples**", *shown, ""])
        elif kind == "admonition":
            yield f"**{section.title}**\n\n{section.value.contents}\n"


def _item(part: griffe.DocstringElement) -> str:
    name = f"`{part.name}` " if isinstance(part, griffe.DocstringNamedElement) and part.name else ""
    kind = f"({part.annotation}) " if part.annotation else ""
    return f"- {name}{kind}{' '.join(part.description.split())}".rstrip()


def _signature(each: Member) -> str:
    """Return how a function is called, a class made, a constant set."""
    if isinstance(each, griffe.Attribute):
        return f"{each.name} = {each.value}" if each.value and len(str(each.value)) < WIDE else each.name
    if isinstance(each, griffe.Class) and not each.parameters:
        return f"class {each.name}"
    return fill(each.signature(), WIDE, subsequent_indent="    ", break_long_words=False, break_on_hyphens=False)


def _text(of: griffe.Object) -> str:
    return of.docstring.value if of.docstring else ""


def _summary(of: griffe.Module) -> str:
    return _text(of).partition("\n\n")[0].replace("\n", " ")
