"""Read JSON text; every text and number of the result is safe to use."""

from __future__ import annotations

import json
from math import isfinite
from typing import TYPE_CHECKING, Any

from calc.message.shapes import MessageError

if TYPE_CHECKING:
    from collections.abc import Mapping


def read_message(text: str) -> dict[str, Any]:
    r"""Read a message; what is null counts as left out.

    Parameters
    ----------
    text : str
        Anything.

    Returns
    -------
    dict
        NaN and numbers past the largest count as null. Half of a surrogate pair, which cannot be written as UTF-8, has
        become U+FFFD.

    Raises
    ------
    MessageError
        For what is not JSON of an object.

    Examples
    --------
    >>> read_message('{"id": 1e999, "name": "a\\ud800"}')
    {'name': 'a�'}
    """
    try:
        said = json.loads(_whole(text), parse_constant=lambda _: None, parse_float=_finite)
    except (ValueError, RecursionError) as error:
        raise MessageError("This ask cannot be read: it is not JSON.") from error
    if not isinstance(said, dict):
        raise MessageError("This ask cannot be read: it is not an object.")
    if "\\u" in text:
        said = _all_whole(said)
    return {key: value for key, value in said.items() if value is not None}


def number_of(message: Mapping[str, Any]) -> str | float | None:
    """Return what an ask is known by, to go back with its reply; None where that is neither a number nor a text.

    Parameters
    ----------
    message : mapping
        As `read_message` gives it.
    """
    found = message.get("id")
    return found if isinstance(found, str | int | float) else None


def _finite(written: str) -> float | None:
    value = float(written)
    return value if isfinite(value) else None


def _whole(text: str) -> str:
    return text.encode("utf-16", "surrogatepass").decode("utf-16", "replace")


def _all_whole(value: Any) -> Any:  # noqa: ANN401 - JSON
    if isinstance(value, str):
        return _whole(value)
    if isinstance(value, list):
        return [_all_whole(each) for each in value]
    if isinstance(value, dict):
        return {_whole(key): _all_whole(each) for key, each in value.items()}
    return value
