"""Strips line numbers from compiled code, inside Pyodide at the build."""

from types import CodeType


def lineless(code: CodeType) -> CodeType:
    """Return code that says of no part which line of the source it came from."""
    inner = tuple(lineless(each) if isinstance(each, CodeType) else each for each in code.co_consts)
    return code.replace(co_linetable=no_lines(len(code.co_code) // 2), co_consts=inner)


def no_lines(units: int) -> bytes:
    """Return a table of lines for so many units of code, all without one.

    Its entries are those of CPython's `Objects/codeobject.c`: code 15, and how many units it is for, 8 at most, less 1.
    """
    whole, rest = divmod(units, 8)
    return b"\xff" * whole + (bytes([0xF8 | (rest - 1)]) if rest else b"")
