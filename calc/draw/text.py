"""How wide and high words are, estimated without knowing their typeface."""

from __future__ import annotations

from functools import lru_cache

ASCENT = 0.82
"""Above the baseline, in sizes: figures, capitals and set fractions of any usual sans face. [-]"""
DESCENT = 0.25
"""Below the baseline. [-]"""
_NARROW = frozenset(" .,:;'|!/\\-()[]·‘’′⁄ijlIftr¹²³⁰⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉\u00a0\u202f")
_BROAD = frozenset("mwMW%@#^~—…½¼¾⅛⅜⅝⅞+<=>±×÷−≈≤≥→←↑↓")
_BOLDER = 1.15


@lru_cache(maxsize=1024)
def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Return more room than a line of text will need [unit of `size`].

    Parameters
    ----------
    text : str
        One line.
    size : float, > 0
        Font size; the answer is in the same unit.
    bold : bool
        Whether it is set in the heavier weight.

    Notes
    -----
    Source: own upper bounds a character over the advance widths of two common sans faces, a broad one and a
    usual one. Leaves out kerning, which only narrows.

    Examples
    --------
    >>> round(text_width("8 in", 10.0), 2), round(text_width("8 in", 10.0, bold=True), 2)
    (21.8, 25.07)
    """
    return size * (_BOLDER if bold else 1.0) * sum(_advance(each) for each in text)


def _advance(char: str) -> float:
    if char in _NARROW:
        return 0.43
    if char in _BROAD or not char.isascii():
        return 1.0
    return 0.8 if char.isupper() or char == "&" else 0.66


def wrapped(text: str, width: float, size: float) -> tuple[str, ...]:
    """Return words broken at spaces into lines that fit a width; a word that is wider stands alone.

    Parameters
    ----------
    text : str
        Parted by single spaces.
    width : float
        Room for a line, in the unit of `size`.
    size : float
        Font size.

    Examples
    --------
    >>> wrapped("one two three", 50.0, 10.0)
    ('one two', 'three')
    """
    lines: list[str] = []
    for word in text.split(" ") if text else ():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)
