"""Axes of a chart: round ticks, and where a value stands."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import ceil, floor, log10

_ROUND = (1.0, 2.0, 2.5, 5.0, 10.0)
_CLOSE = 1e-9


@dataclass(frozen=True, slots=True)
class Axis:
    """One axis, in the reader's units.

    Parameters
    ----------
    words : str
        What runs along it, with its unit.
    low, high : float
        Its ends, low below high.
    ticks : tuple of (value, text)
        Own ticks; empty for round decimal ones.
    """

    words: str
    low: float
    high: float
    ticks: tuple[tuple[float, str], ...] = field(default=())

    def __post_init__(self) -> None:
        if not self.low < self.high:
            msg = f"Axis: got {self.low} to {self.high}, expected low < high"
            raise ValueError(msg)

    def share(self, value: float) -> float:
        """Return how far along a value stands, 0 to 1; beyond the ends it stands at an end."""
        return min(1.0, max(0.0, (value - self.low) / (self.high - self.low)))

    def marked(self, most: int) -> tuple[tuple[float, str], ...]:
        """Return the ticks to draw, about as many as there is room for."""
        return self.ticks or round_ticks(self.low, self.high, most)

    def text(self, value: float) -> str:
        """Print a value plainly, to a hundredth of the axis or finer.

        >>> Axis("turns", 0.0, 40.0).text(12.34567), Axis("speed", 0.0, 1.0).text(0.5)
        ('12.3', '0.50')
        """
        return _plain(value, max(0, 2 - floor(log10(self.high - self.low))))


def round_ticks(low: float, high: float, most: int) -> tuple[tuple[float, str], ...]:
    """Return ticks at round values from low to high.

    Parameters
    ----------
    low, high : float
        Ends of the axis.
    most : int, >= 2
        No more than these.

    Examples
    --------
    >>> round_ticks(0.0, 1.0, 6)
    ((0.0, '0.0'), (0.2, '0.2'), (0.4, '0.4'), (0.6, '0.6'), (0.8, '0.8'), (1.0, '1.0'))
    >>> [text for _, text in round_ticks(59.4, 61.9, 6)]
    ['59.5', '60.0', '60.5', '61.0', '61.5']
    """
    power = 10.0 ** floor(log10((high - low) / most))
    for step in (power * each for each in (*_ROUND, 20.0, 25.0, 50.0)):
        first, last = ceil(low / step - _CLOSE), floor(high / step + _CLOSE)
        if last - first + 1 <= most:
            break
    digits = _digits(step)
    return tuple((round(count * step, digits), _plain(count * step, digits)) for count in range(first, last + 1))


def _digits(step: float) -> int:
    """Return the decimals a step needs."""
    return next(digits for digits in range(16) if abs(round(step, digits) - step) <= _CLOSE * step)


def _plain(value: float, digits: int) -> str:
    text = f"{value:.{digits}f}"
    return text.removeprefix("-") if float(text) == 0.0 else text.replace("-", "−")
