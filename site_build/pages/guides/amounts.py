"""Amounts in guides: written once as the trade says them, shown in both systems, each with where it comes from."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from calc.data import practice, practices, rules, source, sources

_AMOUNT = re.compile(r"(?P<numbers>[\d /.-]+?) ?(?P<unit>[A-Za-z]+)?")
_FRACTIONS = {"1/2": "½", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "1/16": "¹⁄₁₆", "5/64": "⁵⁄₆₄"}
PRACTICE = "common-practice"

_LENGTH_UNITS = {"in": Fraction(254, 10), "mm": Fraction(1)}
_FOOT_M = Fraction(3048, 10_000)
_METRIC = {"lb": ("kg", Fraction("0.45359237"))}
_PLAIN = {"": "", "turns": " turns", "min": " minutes", "h": " hours", "shots": " shots", "strands": " strands"}


@dataclass(frozen=True, slots=True)
class GuideAmount:
    """An amount in both systems (the same text where there is only one) and the key of its source."""

    inch: str
    metric: str
    source: str

    @property
    def both(self) -> str:
        """Both at once, `8 in (200 mm)`."""
        return self.inch if self.inch == self.metric else f"{self.inch} ({self.metric})"


def amount(text: str) -> GuideAmount:
    """Read an amount as a guide has it: ``8 in``, ``6-7 in``, ``50 lb``, ``10-12 turns``, ``1/2 in @strand_step``.

    Lengths are rounded as a maker would say them: below 30 mm to 1 mm, below 100 mm to 5 mm, above to 10 mm; feet
    to one figure; forces and weights to two figures, temperatures to one degree.

    Parameters
    ----------
    text : str
        A number or a range, its unit, and after ``@`` a working constant, a rule of the trade or a source of
        `calc.data`; without one it is common practice.

    Raises
    ------
    ValueError
        For what cannot be read, and for a source that nobody knows.

    Examples
    --------
    >>> amount("8 in").both, amount("6-7 in").both, amount("50 lb").metric
    ('8 in (200 mm)', '6 to 7 in (150 to 180 mm)', '23 kg')
    >>> amount("1/2 in @strand_step").source, amount("10-12 turns").both
    ('pope1923hunting', '10 to 12 turns')
    """
    body, _, key = (part.strip() for part in text.partition("@"))
    match = _AMOUNT.fullmatch(body)
    if match is None:
        msg = f"{body!r} is no amount: expected a number or a range and a unit, like 6-7 in"
        raise ValueError(msg)
    numbers = [part.strip() for part in match["numbers"].split("-")]
    unit = match["unit"] or ""
    inch, metric = _amount_words(numbers, unit)
    return GuideAmount(inch, metric, source_of(key) if key else PRACTICE)


def source_of(key: str) -> str:
    """Return the source a key stands for: of a working constant, of a rule, or the source itself.

    Raises
    ------
    ValueError
        When it is none of them.
    """
    if key in practices():
        return practice(key).source
    for each in rules():
        if each.id == key:
            return each.source
    if key in {each.key for each in sources()}:
        return source(key).key
    msg = f"{key} is no working constant, rule or source of calc/data"
    raise ValueError(msg)


def values(text: str) -> list[float]:
    """Return the numbers of an amount, in its own unit.

    >>> values("1 1/2-2 in @tails")
    [1.5, 2.0]
    """
    match = _AMOUNT.fullmatch(text.partition("@")[0].strip())
    assert match
    return [float(_number(part.strip())) for part in match["numbers"].split("-")]


def _amount_words(numbers: list[str], unit: str) -> tuple[str, str]:
    if unit in _PLAIN:
        said = " to ".join(_fraction(each) for each in numbers) + _PLAIN[unit]
        if numbers == ["1"]:
            said = said.removesuffix("s")
        return said, said
    if unit == "ft":
        return _said(numbers, "ft"), _said([f"{float(_number(each) * _FOOT_M):.1g}" for each in numbers], "m")
    if unit in _LENGTH_UNITS:
        metric = [_millimetres(_number(each) * _LENGTH_UNITS[unit]) for each in numbers]
        own = " to ".join(_fraction(each) for each in numbers)
        return (f"{own} {unit}" if unit != "mm" else _said(metric, "mm"), _said(metric, "mm"))
    if unit in _METRIC:
        name, factor = _METRIC[unit]
        metric = [_two_figures(_number(each) * factor) for each in numbers]
        return f"{' to '.join(numbers)} {unit}", _said(metric, name)
    if unit == "degC":
        hot = [f"{round(_number(each) * Fraction(9, 5) + 32)}" for each in numbers]
        return _said(hot, "°F"), _said(numbers, "°C")
    msg = f"{unit} is no unit of the guides"
    raise ValueError(msg)


def _number(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def _fraction(text: str) -> str:
    whole, _, rest = text.rpartition(" ")
    shown = _FRACTIONS.get(rest, rest)
    joint = "" if len(shown) == 1 and shown in _FRACTIONS.values() else " "
    return f"{whole}{joint}{shown}" if whole else shown


def _millimetres(length: Fraction) -> str:
    step = 1 if length < 30 else 5 if length < 100 else 10
    return str(_rounded(length / step) * step)


def _two_figures(value: Fraction) -> str:
    step = 1 if value < 100 else 10
    return str(_rounded(value / step) * step)


def _rounded(value: Fraction) -> int:
    """Round halves up."""
    return int(Decimal(value.numerator / value.denominator).quantize(Decimal(1), rounding=ROUND_HALF_UP))


def _said(numbers: list[str], unit: str) -> str:
    together = numbers[:1] if len(set(numbers)) == 1 else numbers
    return f"{' to '.join(together)} {unit}"
