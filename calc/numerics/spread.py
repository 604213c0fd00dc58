"""A number with its low and high."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Spread:
    """A typical value between a low and a high; the unit is that of its owner.

    Attributes
    ----------
    low, value, high : float
        In this order, or two of them alike.

    Examples
    --------
    >>> Spread(1.0, 2.0, 4.0).value
    2.0
    >>> Spread(3.0, 2.0, 4.0)
    Traceback (most recent call last):
        ...
    ValueError: Spread: got 3.0, 2.0, 4.0, expected low <= value <= high
    """

    low: float
    value: float
    high: float

    def __post_init__(self) -> None:
        if not self.low <= self.value <= self.high:
            msg = f"Spread: got {self.low}, {self.value}, {self.high}, expected low <= value <= high"
            raise ValueError(msg)

    @classmethod
    def exactly(cls, value: float) -> Spread:
        """Return a value with no spread."""
        return cls(value, value, value)

    def shifted(self, by: float) -> Spread:
        """Return the spread with a number added.

        >>> Spread(-1.0, 0.0, 2.0).shifted(10.0)
        Spread(low=9.0, value=10.0, high=12.0)
        """
        return Spread(self.low + by, self.value + by, self.high + by)

    def scaled(self, factor: float) -> Spread:
        """Return the spread times a factor that is not negative.

        >>> Spread(1.0, 2.0, 4.0).scaled(2.0)
        Spread(low=2.0, value=4.0, high=8.0)
        """
        return Spread(self.low * factor, self.value * factor, self.high * factor)
