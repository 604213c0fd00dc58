"""One number as typed: fractions, decimal points and commas, thousands; sometimes with two readings."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TypeAlias

ReadNumber: TypeAlias = tuple[Fraction, str]
"""A value and the same in words that have one reading only."""

PATTERN = r"(?:\d[\d,]* )?\d+/\d+(?![\d.,])|(?:\d+(?:[.,]\d+)*\.?|[.,]\d+)(?:e[+-]?\d+)?"
_GROUPS = re.compile(r"[1-9]\d{0,2}(?:([.,])\d{3})(?:\1\d{3})*")
_LARGEST_EXPONENT = 400
_LONGEST_BOTTOM = 3


def numbers(text: str) -> list[ReadNumber]:
    """Return every reading of one number, none where it has no sense.

    Parameters
    ----------
    text : str
        A match of `PATTERN`.

    Examples
    --------
    >>> [words for _, words in numbers("62 1/2")], [words for _, words in numbers("1,575")]
    (['62 1/2'], ['1.575', '1575'])
    >>> [words for _, words in numbers("621/2")], numbers("1/0")
    (['621/2', '62 1/2'], [])
    """
    if "/" in text:
        return _fractions(*text.rpartition(" ")[::2])
    body, _, exponent = text.partition("e")
    power = int(exponent or 0)
    if abs(power) > _LARGEST_EXPONENT:
        return []
    written = f"e{power}" if power else ""
    return [(Fraction(each) * Fraction(10) ** power, each + written) for each in _decimals(body.rstrip("."))]


def _fractions(whole: str, fraction: str) -> list[ReadNumber]:
    """Read a fraction; one above 1 may be a mixed number typed without its space, `621/2`."""
    top, bottom = fraction.split("/")
    if not int(bottom) or (whole and int(top) >= int(bottom)):
        return []
    if whole:
        return [(int(each) + Fraction(int(top), int(bottom)), f"{each} {fraction}") for each in _whole(whole)]
    found = [(Fraction(int(top), int(bottom)), fraction)]
    if int(top) > int(bottom) and len(bottom) <= _LONGEST_BOTTOM:
        for cut in range(1, len(top)):
            if top[cut] != "0":
                found += _fractions(top[:cut], f"{top[cut:]}/{bottom}")
    return found


def _whole(text: str) -> list[str]:
    return [text.replace(",", "")] if text.isdecimal() or _GROUPS.fullmatch(text) else []


def _decimals(text: str) -> list[str]:
    """Return the readings of points and commas: two where one comma may part decimals or thousands."""
    marks = [each for each in text if each in ".,"]
    grouped = [re.sub("[.,]", "", text)] if _GROUPS.fullmatch(text) else []
    if not marks:
        return [text]
    if len(marks) == 1:
        return [text.replace(",", ".")] + (grouped if marks == [","] else [])
    head, tail = text[: text.rindex(marks[-1])], text[text.rindex(marks[-1]) + 1 :]
    if marks[-1] not in head and _GROUPS.fullmatch(head):
        return [f"{re.sub('[.,]', '', head)}.{tail}"]
    return grouped
