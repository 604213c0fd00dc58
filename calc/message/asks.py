"""The parts of each kind of message."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.message.shapes import (
    COUNT,
    SHEET,
    TEXT,
    TEXTS,
    MessageError,
    Part,
    Parts,
    are_texts,
    check,
    is_text,
    list_of,
    object_of,
    optional,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

_FORM: Parts = {"inputs": TEXTS, "system": TEXT}
_NAMED: Parts = {"name": optional(TEXT), "link": optional(TEXT)}
_LARGEST_CODE = 177  # modules a side: ISO/IEC 18004, version 40


def _is_code(value: object) -> bool:
    """Return whether a value is a square code: rows of 1 for dark and 0 for light, as many as each is long; or none."""
    rows = value if isinstance(value, list) else [None]
    return len(rows) <= _LARGEST_CODE and all(
        isinstance(row, str) and len(row) == len(rows) and not row.strip("01") for row in rows
    )


_SOURCE = object_of({"from": is_text}, {"on": is_text})


def _are_sources(value: object) -> bool:
    """Return whether a value says of fields what their texts are from."""
    return isinstance(value, dict) and all(map(_SOURCE, value.values()))


_STRING = object_of({"inputs": are_texts}, {"name": is_text, "link": is_text, "code": _is_code})
ASKS: dict[str, Parts] = {
    "notebook": {},  # first: its asks have keys of others in them. What each needs: `calc.message.notebook`
    "convert": {"convert": SHEET, "to": TEXT, "inputs": TEXTS},
    "share": {"share": SHEET, **_FORM, "name": optional(TEXT)},
    "open": {"open": TEXT, "system": TEXT},
    "part": {"part": SHEET, **_FORM, "from": COUNT, "to": COUNT},
    "line": {"line": SHEET, **_FORM, "at": COUNT},
    "figure": {},  # `calc.own_figures` says itself what is wrong
    "card": {
        "paper": TEXT,
        "form": TEXT,
        "system": TEXT,
        "inputs": optional(TEXTS),
        "strings": Part("a list of strings", list_of(_STRING)),
    },
    "text": {"text": SHEET, **_FORM, **_NAMED},
    "worksheet": {"worksheet": SHEET, **_FORM, "told": optional(Part("what texts are from, by name", _are_sources))},
}
"""By the key that tells the kind."""


def kind_of(message: Mapping[str, Any]) -> str:
    """Return what kind of ask this is, once it is sure to have all that such an ask needs.

    Parameters
    ----------
    message : mapping
        As `read_message` gives it.

    Returns
    -------
    str
        A key of `ASKS`.

    Raises
    ------
    MessageError
        Saying which part is missing, or is not what it must be.

    Examples
    --------
    >>> kind_of({"open": "", "system": "inch"})
    'open'
    >>> kind_of({"open": 3, "system": "inch"})
    Traceback (most recent call last):
        ...
    calc.message.shapes.MessageError: This ask cannot be read: open is not a text.
    """
    kind = next((each for each in ASKS if each in message), "")
    if not kind:
        raise MessageError(f"This ask cannot be read: it has none of {', '.join(ASKS)}.")
    check(message, ASKS[kind])
    if kind == "notebook":
        from calc.message.notebook import check_ask  # noqa: PLC0415 - loaded only where there is a notebook

        check_ask(message)
    return kind
