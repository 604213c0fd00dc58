"""What is known of a bow: answers that carry the spread of what nobody has looked at or measured."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.data import practice
from calc.mechanics.brace import brace_after, brace_height, brace_per_length, string_length
from calc.mechanics.draw_force import draw_curve, static_tension
from calc.spread import Spread, combine

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from calc.mechanics.bow import Bow
    from calc.mechanics.limb import Shape

_EXACTLY = Spread.exactly(0.0)


@dataclass(frozen=True, slots=True)
class Known:
    """A bow with what is sure about it.

    Attributes
    ----------
    bow : Bow
        As well as it is known; `CENTRAL` is the shape to take when nobody has looked.
    shape_told : bool
        Whether somebody has seen how the limbs bend; they still stray from it by ``limb_told`` of the constants,
        where nobody has by ``limb_unknown``.
    handle_told : bool
        Whether the stiff middle was measured; ``handle_usual`` of the constants otherwise.
    """

    bow: Bow
    shape_told: bool = False
    handle_told: bool = True

    @property
    def limb(self) -> Spread:
        """How far the limbs may stray, as `strayed` takes it [-]."""
        return practice("limb_told" if self.shape_told else "limb_unknown").spread

    @property
    def causes(self) -> dict[str, Spread]:
        """Everything that is not sure: limb shape [-], tape and handle [m]."""
        usual = practice("handle_usual").spread
        handle = Spread(usual.low - usual.value, 0.0, usual.high - usual.value)
        return {
            "limb": self.limb,
            "tape": practice("tape_reading").spread,
            "handle": _EXACTLY if self.handle_told else handle,
        }

    def spread(self, answer: Callable[[Bow], float]) -> Spread:
        """Return an answer with the spread of all that is not sure.

        Parameters
        ----------
        answer : callable
            Takes a bow, gives one number.

        Notes
        -----
        Source: causes in quadrature (`combine`); limbs that stray are mixed from the answers for `tapered` and
        `uniform` (`strayed`). Leaves out that a handle that was not measured may be longer than a short bow allows:
        it is cut to nine tenths of it.

        Examples
        --------
        >>> from calc.mechanics.bow import CENTRAL, Bow
        >>> found = Known(Bow(1.6, 0.2, CENTRAL)).spread(lambda bow: string_length(bow, 0.16))
        >>> [round(each, 3) for each in (found.low, found.value, found.high)]
        [1.545, 1.55, 1.554]
        """

        def at(causes: Mapping[str, float]) -> dict[str, float]:
            long_m = self.bow.nock_to_nock_m + causes["tape"]
            handle_m = min(max(0.0, self.bow.handle_m + causes["handle"]), 0.9 * long_m)
            bow = replace(self.bow, nock_to_nock_m=long_m, handle_m=handle_m)
            return {"answer": strayed(answer, bow, causes["limb"])}

        return combine(at, self.causes)["answer"]


def strayed(answer: Callable[[Bow], float], bow: Bow, mix: float) -> float:
    """Return an answer for limbs that stray from their shape.

    Parameters
    ----------
    answer : callable
        Takes a bow, gives one number.
    bow : Bow
        With the shape that was told, or a middle one.
    mix : float
        0: just that shape. From a middle shape -1 leads to `tapered`, +1 to `uniform`; from one of these, as far as
        half the way between them.

    Examples
    --------
    >>> from calc.mechanics.bow import Bow
    >>> bow = Bow(60, 8, "arc")
    >>> round(strayed(lambda each: string_length(each, 6), bow, 1.0), 3)
    58.255
    """
    told = answer(bow)
    if mix == 0.0:
        return told
    ends = [(answer(replace(bow, shape=shape)), weight) for shape, weight in leanings(bow.shape, mix)]
    return told + sum(weight * (end - told) for end, weight in ends)


def leanings(shape: Shape, mix: float) -> tuple[tuple[Shape, float], ...]:
    """Return towards which shapes limbs that stray lean, and how far: weights of their difference from the told one."""
    if shape in {"tapered", "uniform"}:
        return ("uniform", mix / 2.0), ("tapered", -mix / 2.0)
    return (("uniform", mix),) if mix > 0.0 else (("tapered", -mix),)


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
    >>> from calc.mechanics.bow import CENTRAL, Bow
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
    >>> from calc.mechanics.bow import CENTRAL, Bow
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
    >>> from calc.mechanics.bow import CENTRAL, Bow
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
    >>> from calc.mechanics.bow import CENTRAL, Bow
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
    >>> from calc.mechanics.bow import CENTRAL, Bow
    >>> found = tension_range(Known(Bow(1.73, 0.2, CENTRAL)), 0.16, 0.7, 200.0)
    >>> round(found.brace_n.low), round(found.brace_n.value), round(found.brace_n.high)
    (310, 328, 347)
    """

    def of(name: str) -> Spread:
        return known.spread(lambda bow: float(getattr(static_tension(bow, brace_m, draw_m, draw_force_n), name)))

    return TensionRange(of("brace_n"), of("draw_n"), of("least_n"), of("energy_j"))


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
    >>> from calc.mechanics.bow import CENTRAL, Bow
    >>> found = draw_weight_from(Known(Bow(1.73, 0.2, CENTRAL)), 0.16, 0.5, 130.0, 0.7)
    >>> round(found.low), round(found.value), round(found.high)
    (203, 206, 209)
    """

    def braced_n(bow: Bow, to_m: float) -> float:
        return draw_curve(bow, brace_m, to_m, 1.0, steps=4).points[0].tension_n

    return known.spread(lambda bow: force_n * braced_n(bow, at_m) / braced_n(bow, draw_m))
