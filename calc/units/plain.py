"""What is typed or pasted, folded to plain characters: digits, points, primes, hyphens, single spaces."""

from __future__ import annotations

import re
from unicodedata import category, decimal, normalize

_LOOKALIKES = str.maketrans(
    dict.fromkeys("′’‘‛ʹʼ`´＇", "'")
    | dict.fromkeys("″”“„‟ʺ˝〃＂", '"')
    | dict.fromkeys("−–—―‐‑‒﹣－", "-")
    | dict.fromkeys("º˚", "°")
    | dict.fromkeys("⋅•∙", "·")
    | {"∕": "/", "×": "x"}
)
_RAISED, _LOWERED = "⁰¹²³⁴-⁹", "₀-₉"
_FRACTION = re.compile(rf"[¼½¾⅐-⅞↉]|⅟\d+|[{_RAISED}]+ ?[⁄/] ?[{_LOWERED}\d]+")
_STRAY = re.compile(rf"[{_RAISED}{_LOWERED}]")
_FOLDS = tuple(
    (re.compile(pattern), plain_form)
    for pattern, plain_form in (
        (r"\s+", " "),
        (r"^ | $", ""),
        (r"''", '"'),
        (r"\bper ?cent\b", "%"),
        (r"\b(?:per|for|weighs?)(?![a-z])|=", "÷"),
        (r" ?([/÷]) ?", r"\1"),
        (r"(?<=\d)- ?(?=\d+/\d)", " "),
        (r"(?<![\d/.,])([1-9]\d{0,2}(?: \d{3})+)(?![\d/])", lambda found: found[1].replace(" ", "")),
        (r"(?<=\S) ?(?:\band\b|&) ?(?=\d)", " "),
    )
)
"""In this order: spaces, primes, words for a slash, a hyphen before a fraction, thousands parted by spaces, `and`."""


def plain(text: str) -> str:
    r"""Return typed text in lower case and plain characters.

    Parameters
    ----------
    text : str
        Anything.

    Returns
    -------
    str
        Fractions as ``1/2``, primes as ``'`` and ``"``, any space as one space, ``per`` as ``÷``, thousands
        parted by spaces put together; a digit raised or lowered outside a fraction becomes ``?``.

    Examples
    --------
    >>> plain("62½″"), plain("1 575 mm"), plain("5′ – 2 ¹¹⁄₁₆″"), plain("9000 m per kg")
    ('62 1/2 "', '1575 mm', '5\' - 2 11/16 "', '9000 m÷kg')
    """
    text = text.translate(_LOOKALIKES)
    text = _FRACTION.sub(lambda found: f" {normalize('NFKC', found[0])} ", text)
    text = normalize("NFKC", _STRAY.sub("?", text)).replace("⁄", "/").casefold()
    text = "".join(_folded(each) for each in text)
    for pattern, plain_form in _FOLDS:
        text = pattern.sub(plain_form, text)
    return text


def _folded(char: str) -> str:
    """Turn any script's digits into 0-9 and drop what has no width."""
    if char.isdecimal():
        return str(decimal(char))
    return "" if category(char) == "Cf" else char
