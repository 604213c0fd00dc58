"""What is known of a bow: answers that carry the spread of what nobody has looked at or measured."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.data import practice
from calc.numerics import Spread, combine

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from calc.mechanics.bow import Bow, LimbShape

LONGEST_HANDLE = 0.9
"""A handle that nobody measured is no longer than this share of a short bow."""
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
        >>> from calc.mechanics.bow.bow import CENTRAL, Bow
        >>> from calc.mechanics.bow.brace import string_length
        >>> found = Known(Bow(1.6, 0.2, CENTRAL)).spread(lambda bow: string_length(bow, 0.16))
        >>> [round(each, 3) for each in (found.low, found.value, found.high)]
        [1.545, 1.55, 1.554]
        """
        return self.spreads(lambda bow: {"answer": answer(bow)})["answer"]

    def spreads(self, answers: Callable[[Bow], Mapping[str, float]]) -> dict[str, Spread]:
        """Return several answers that come together, each as `spread` would.

        Parameters
        ----------
        answers : callable
            Takes a bow, gives one number a name.
        """

        def at(causes: Mapping[str, float]) -> dict[str, float]:
            long_m = self.bow.nock_to_nock_m + causes["tape"]
            handle_length_m = min(max(0.0, self.bow.handle_length_m + causes["handle"]), LONGEST_HANDLE * long_m)
            bow = replace(self.bow, nock_to_nock_m=long_m, handle_length_m=handle_length_m)
            told = answers(bow)
            if causes["limb"] == 0.0:
                return dict(told)
            ends = [(answers(replace(bow, shape=shape)), share) for shape, share in leanings(bow.shape, causes["limb"])]
            return {
                name: value + sum(share * (end[name] - value) for end, share in ends) for name, value in told.items()
            }

        return combine(at, self.causes)


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
    >>> from calc.mechanics.bow.bow import Bow
    >>> from calc.mechanics.bow.brace import string_length
    >>> bow = Bow(60, 8, "arc")
    >>> round(strayed(lambda each: string_length(each, 6), bow, 1.0), 3)
    58.255
    """
    told = answer(bow)
    if mix == 0.0:
        return told
    ends = [(answer(replace(bow, shape=shape)), weight) for shape, weight in leanings(bow.shape, mix)]
    return told + sum(weight * (end - told) for end, weight in ends)


def leanings(shape: LimbShape, mix: float) -> tuple[tuple[LimbShape, float], ...]:
    """Return towards which shapes limbs that stray lean, and how far: weights of their difference from the told one."""
    if shape in {"tapered", "uniform"}:
        return ("uniform", mix / 2.0), ("tapered", -mix / 2.0)
    return (("uniform", mix),) if mix > 0.0 else (("tapered", -mix),)
