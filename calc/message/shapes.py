"""What each part of a message may be, and the check of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from calc.worksheets import one

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    Fits = Callable[[Any], bool]

_MOST = 10**9


class MessageError(ValueError):
    """Raised for a message that does not have the shape of an ask; its text is a sentence."""


@dataclass(frozen=True, slots=True)
class Part:
    """One part of an ask.

    Attributes
    ----------
    words : str
        What it must be.
    fits : callable
        Whether a value of JSON is that.
    needed : bool
        Whether it must be there.
    """

    words: str
    fits: Fits
    needed: bool = True


Parts = dict[str, Part]


def check(message: Mapping[str, Any], parts: Mapping[str, Part]) -> None:
    """Raise unless a message has all its parts, each as it must be.

    Parameters
    ----------
    message : mapping
        What came.
    parts : mapping of str to Part
        By key; what else there is does not matter.

    Raises
    ------
    MessageError
        Naming the part.
    """
    for key, part in parts.items():
        if key not in message:
            if part.needed:
                raise MessageError(f"This ask cannot be read: {key} is missing.")
        elif not part.fits(message[key]):
            raise MessageError(f"This ask cannot be read: {key} is not {part.words}.")


def optional(part: Part) -> Part:
    """Return a part that may be missing.

    Parameters
    ----------
    part : Part
    """
    return Part(part.words, part.fits, needed=False)


def is_text(value: object) -> bool:
    """Return whether a value is a text.

    Parameters
    ----------
    value : object
        Of JSON.
    """
    return isinstance(value, str)


def is_count(value: object) -> bool:
    """Return whether a value is a whole number, and none out of all reason.

    Parameters
    ----------
    value : object
        Of JSON.
    """
    return isinstance(value, int) and not isinstance(value, bool) and abs(value) < _MOST


def are_texts(value: object) -> bool:
    """Return whether a value is an object of texts; numbers may stand for theirs.

    Parameters
    ----------
    value : object
        Of JSON.
    """
    return isinstance(value, dict) and all(
        isinstance(each, str | int | float) and not isinstance(each, bool) for each in value.values()
    )


def is_sheet(value: object) -> bool:
    """Return whether a value is the id of a worksheet.

    Parameters
    ----------
    value : object
        Of JSON.
    """
    try:
        return isinstance(value, str) and bool(one(value))
    except KeyError:
        return False


def list_of(fits: Fits) -> Fits:
    """Return the check that a value is a list of such values.

    Parameters
    ----------
    fits : callable
        The check of each.
    """
    return lambda value: isinstance(value, list) and all(map(fits, value))


def object_of(needed: Mapping[str, Fits], optional: Mapping[str, Fits] | None = None) -> Fits:
    """Return the check that a value is an object with such values.

    Parameters
    ----------
    needed, optional : mapping of str to callable
        Checks by key.
    """

    def fits(value: object) -> bool:
        return (
            isinstance(value, dict)
            and all(key in value and fit(value[key]) for key, fit in needed.items())
            and all(key not in value or fit(value[key]) for key, fit in (optional or {}).items())
        )

    return fits


SHEET = Part("the name of a worksheet", is_sheet)
TEXT = Part("a text", is_text)
TEXTS = Part("texts by name", are_texts)
COUNT = Part("a whole number", is_count)
