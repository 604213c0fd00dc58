"""What Python works out anew at every start from texts that never change: kept at the build, looked up at the start.

Two things: the code that `dataclasses` writes for each class as text and has compiled, and regular expressions. A text
that was not seen at the build is worked out as ever.
"""

import builtins
import dataclasses
import marshal
import re
from re import _compiler, _parser  # type: ignore[attr-defined]
from types import CodeType
from typing import Any
from zlib import crc32

_MODULE = """
import marshal
from zlib import crc32

CODES, PATTERNS = marshal.loads({held!r})


def code(text):
    held = CODES.get(crc32(text.encode()))
    return marshal.loads(held) if held else text


def pattern(text, flags):
    held = PATTERNS.get((text, flags))
    return held and marshal.loads(held)
"""


def watch_dataclasses() -> dict[int, CodeType]:
    """Return where the code of every class made from now on will be, by the checksum of its text."""
    codes: dict[int, CodeType] = {}

    def noted(text: str, around: dict[str, object], names: dict[str, object]) -> None:
        codes[crc32(text.encode())] = made = compile(text, "<string>", "exec", dont_inherit=True)
        builtins.exec(made, around, names)  # noqa: S102 - in the place of the same call

    dataclasses.exec = noted  # type: ignore[attr-defined]
    return codes


def patterns() -> dict[tuple[Any, int], tuple[Any, ...]]:
    """Return what `re` made of each expression that was used so far, by the expression and its flags."""
    made: dict[tuple[Any, int], tuple[Any, ...]] = {}
    for _, pattern, flags in re._cache:  # type: ignore[attr-defined]  # noqa: SLF001
        parsed = _parser.parse(pattern, flags)
        state = parsed.state
        index = [None] * state.groups
        for name, at in state.groupdict.items():
            index[at] = name
        code = [int(each) for each in _compiler._code(parsed, flags)]  # noqa: SLF001
        made[pattern, int(flags)] = (int(flags | state.flags), code, state.groups - 1, state.groupdict, tuple(index))
    return made


def source(codes: dict[int, CodeType]) -> str:
    """Return the module that holds all of it."""
    known = patterns()
    first = {key: marshal.dumps(codes[key]) for key in sorted(codes)}
    second = {key: marshal.dumps(known[key]) for key in sorted(known, key=repr)}
    return _MODULE.format(held=marshal.dumps((first, second)))
