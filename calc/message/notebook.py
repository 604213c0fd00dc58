"""The parts of each message of the notebook."""

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
    check,
    is_text,
    list_of,
    object_of,
    optional,
)
from calc.records import DEVICE, ID, KINDS, is_time

if TYPE_CHECKING:
    from collections.abc import Mapping


def _is_kind(value: object) -> bool:
    return isinstance(value, str) and value in KINDS


def _is_id(value: object) -> bool:
    return isinstance(value, str) and bool(ID.fullmatch(value))


def _anything(_: object) -> bool:
    return True


_RECORD = object_of({"kind": _is_kind, "data": _anything})
_NEW = object_of({"kind": _is_kind, "id": _is_id})
_SOME = object_of({"kind": _is_kind, "data": list_of(_anything), "first": COUNT.fits})
_RECORDS = Part("a list of records", list_of(_RECORD))
_BOOK: Parts = {"records": _RECORDS}
_STAMP: Parts = {
    "now": Part("a time", lambda value: isinstance(value, str) and is_time(value)),
    "device": Part("the name of a device", lambda value: isinstance(value, str) and bool(DEVICE.fullmatch(value))),
}
_IDS = object_of({"bow": _is_id, "cord": _is_id, "string": _is_id})
NEEDS: dict[str, Parts] = {
    "fields": {},
    "edit": {
        "record": Part("a record", lambda value: _RECORD(value) or _NEW(value)),
        "texts": TEXTS,
        **_STAMP,
    },
    "delete": {**_BOOK, **_STAMP},
    "restore": {**_BOOK, **_STAMP},
    "head": {"text": optional(TEXT)},
    "merge": {"ours": _RECORDS, "theirs": Part("a list of lists of records", list_of(_SOME))},
    "write": {**_BOOK, "ids": optional(Part("a list of texts", list_of(is_text)))},
    "csv": {**_BOOK, "name": TEXT},
    "people": _BOOK,
    "forget": {**_BOOK, **_STAMP, "name": TEXT, "instead": optional(TEXT)},
    "register": {**_BOOK, "today": TEXT, "every": optional(TEXT)},
    "prefill": {**_BOOK, "chosen": Part("a list of texts", list_of(is_text))},
    "club_list": _BOOK,
    "club_bows": {**_BOOK, **_STAMP, "text": TEXT, "new": Part("an id", _is_id)},
    "put_down": {
        "worksheet": SHEET,
        "inputs": TEXTS,
        "name": TEXT,
        "today": TEXT,
        "chosen": TEXTS,
        "ids": Part("an id for each record", _IDS),
        "string": optional(TEXTS),
        **_STAMP,
    },
    "compare": {**_BOOK, "bow": TEXT},
    "range": {**_BOOK, "string": TEXT, "read": TEXT},
}
"""By the ask's name, as in `calc.notebook_asks`."""


def check_ask(message: Mapping[str, Any]) -> None:
    """Raise unless an ask of the notebook has all that it needs.

    Parameters
    ----------
    message : mapping
        With its ``notebook``.

    Raises
    ------
    MessageError
        As `calc.message.shapes.check`.
    """
    way = message["notebook"]
    if not isinstance(way, str) or way not in NEEDS:
        raise MessageError("This ask cannot be read: the notebook has no such ask.")
    check(message, NEEDS[way])
