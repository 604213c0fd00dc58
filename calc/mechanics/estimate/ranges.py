"""Brace, string, tension and draw weight with the spread of what is not known of a bow."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.mechanics.bow import brace_after, brace_height, brace_per_length, draw_curve, static_tension, string_length

if TYPE_CHECKING:
    from calc.mechanics.bow import Bow
    from calc.mechanics.estimate.known import Known
    from calc.numerics import Spread


def string_range(known: Known, brace_m: float) -> Spread:
    """Return the braced string's length for a brace height, low and high over what is not known of the bow [m].

    Parameters
    ----------
    known : Known
        The bow.
    brace_m : float
        As for `string_length`. [m]

    Raises
    ------
    DomainError
        As `string_length`.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import CENTRAL, Bow
    >>> from calc.mechanics.estimate.known import Known
    >>> found = string_range(Known(Bow(1.6, 0.2, CENTRAL)), 0.16)
    >>> found.low < string_length(Bow(1.6, 0.2, "tapered"), 0.16) < found.high
    True
    """
    return known.spread(lambda bow: string_length(bow, brace_m))


def brace_range(known: Known, string_m: float) -> Spread:
    """Return the brace height a string gives, low and high over what is not known of the bow [m].

    Parameters
    ----------
    known : Known
        The bow.
    string_m : float
        The whole string as it is on the braced bow. [m]

    Raises
    ------
    DomainError
        As `brace_height`.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import CENTRAL, Bow
    >>> from calc.mechanics.estimate.known import Known
    >>> found = brace_range(Known(Bow(1.6, 0.2, CENTRAL)), 1.55)
    >>> [round(each, 3) for each in (found.low, found.value, found.high)]
    [0.153, 0.16, 0.167]
    """
    return known.spread(lambda bow: brace_height(bow, string_m))


def slope_range(known: Known, brace_m: float) -> Spread:
    """Return the change of brace height for a change of string length, low and high over what is not known [-].

    Parameters
    ----------
    known, brace_m
        As for `string_range`.

    Raises
    ------
    DomainError
        As `string_length`.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import CENTRAL, Bow
    >>> from calc.mechanics.estimate.known import Known
    >>> round(slope_range(Known(Bow(1.6, 0.2, CENTRAL)), 0.16).value, 2)
    -1.56
    """
    return known.spread(lambda bow: brace_per_length(bow, brace_m))


def after_range(known: Known, brace_m: float, longer_m: float) -> Spread:
    """Return the brace height once the string of a braced bow is longer, or shorter when negative [m].

    Parameters
    ----------
    known, brace_m
        As for `string_range`.
    longer_m : float
        Change of the whole string. [m]

    Raises
    ------
    DomainError
        As `brace_after`.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import CENTRAL, Bow
    >>> from calc.mechanics.estimate.known import Known
    >>> found = after_range(Known(Bow(1.6, 0.2, CENTRAL)), 0.16, -0.01)
    >>> [round(each, 4) for each in (found.low, found.value, found.high)]
    [0.1737, 0.1748, 0.1761]
    """
    return known.spread(lambda bow: brace_after(bow, brace_m, longer_m))


@dataclass(frozen=True, slots=True)
class TensionRange:
    """The string's pull at rest, braced, drawn and least between [N], and stored energy [J]."""

    brace_n: Spread
    draw_n: Spread
    least_n: Spread
    energy_j: Spread


def tension_range(known: Known, brace_m: float, draw_m: float, draw_force_n: float) -> TensionRange:
    """Return string tension and stored energy, low and high over what is not known of the bow.

    Parameters
    ----------
    known : Known
        The bow.
    brace_m, draw_m, draw_force_n
        As for `static_tension`.

    Raises
    ------
    DomainError
        As `static_tension`.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import CENTRAL, Bow
    >>> from calc.mechanics.estimate.known import Known
    >>> found = tension_range(Known(Bow(1.73, 0.2, CENTRAL)), 0.16, 0.7, 200.0)
    >>> round(found.brace_n.low), round(found.brace_n.value), round(found.brace_n.high)
    (310, 328, 347)
    """

    def of(bow: Bow) -> dict[str, float]:
        at = static_tension(bow, brace_m, draw_m, draw_force_n)
        return {"brace_n": at.brace_n, "draw_n": at.draw_n, "least_n": at.least_n, "energy_j": at.energy_j}

    return TensionRange(**known.spreads(of))


def draw_weight_from(known: Known, brace_m: float, at_m: float, force_n: float, draw_m: float) -> Spread:
    """Return the draw weight at one draw from a force weighed at another [N].

    Parameters
    ----------
    known : Known
        The bow.
    brace_m : float
        As braced when it was weighed. [m]
    at_m, force_n : float
        The draw at which it was weighed, and the reading. [m, N]
    draw_m : float
        The draw asked about. [m]

    Raises
    ------
    DomainError
        As `static_tension`.

    Notes
    -----
    Source: the same limbs hold the braced string at both draws (``derived:statics``), so the tensions of the braced
    string, worked out from either force, must agree. Leaves out stacking of limbs that do more than bend.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import CENTRAL, Bow
    >>> from calc.mechanics.estimate.known import Known
    >>> found = draw_weight_from(Known(Bow(1.73, 0.2, CENTRAL)), 0.16, 0.5, 130.0, 0.7)
    >>> round(found.low), round(found.value), round(found.high)
    (203, 206, 209)
    """

    def braced_n(bow: Bow, to_m: float) -> float:
        return draw_curve(bow, brace_m, to_m, 1.0, steps=4).points[0].tension_n

    return known.spread(lambda bow: force_n * braced_n(bow, at_m) / braced_n(bow, draw_m))
