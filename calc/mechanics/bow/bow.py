"""A bow as a tape measure and an eye find it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, get_args

from calc.errors import DomainError, Problem, require
from calc.mechanics.bow.limb_model import LimbShape
from calc.numerics import Spread

if TYPE_CHECKING:
    from collections.abc import Callable

SHAPES: tuple[LimbShape, ...] = get_args(LimbShape)
CENTRAL: LimbShape = "arc"
"""What to take for limbs nobody has looked at: between `tapered` and `uniform`, and within a tenth of an inch of
`hinged` in string length."""
HIGHEST = 0.6
"""Highest brace height the limb shapes are worked out for, in working limb lengths. [-]"""
MOST_FOLLOW = 0.3


@dataclass(frozen=True, slots=True)
class Bow:
    """A bow whose two limbs are alike.

    Parameters
    ----------
    nock_to_nock_m : float, > 0
        Along the belly. [m]
    handle_length_m : float, >= 0
        Whole stiff length in the middle. [m]
    shape : LimbShape
        How the limbs bend: ``hinged`` by the handle; as stiffness falling evenly to nothing at the tip
        (``tapered``) or the same all along (``uniform``) makes them; between these two as an ``arc``.
    handle_proud_m : float
        How far the handle, where brace height and draw are measured from, stands out from the line of the limbs'
        belly towards the string; negative where it is cut in. [m]
    string_follow_m : float
        Set: how far the tips of the unstrung bow stand off towards the string; negative for reflex. [m]
    contact_m : float, >= 0
        Length of the string that lies against each recurved tip of the braced bow. [m]

    Attributes
    ----------
    limb_m : float
        Working length of one limb, from the handle to where the braced string lifts off. [m]
    follow : float
        Set in working limb lengths, negative for reflex. [-]

    Raises
    ------
    DomainError
        ``min`` or ``number``; ``pair`` with reason ``handle_long``, ``contact_long``, ``proud_deep`` or
        ``follow_large`` for measures that leave no limb to work.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.
    """

    nock_to_nock_m: float
    handle_length_m: float
    shape: LimbShape
    handle_proud_m: float = 0.0
    string_follow_m: float = 0.0
    contact_m: float = 0.0
    limb_m: float = field(init=False, repr=False, compare=False)
    follow: float = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        require("nock_to_nock_m", self.nock_to_nock_m, low=0.0, open_=True)
        require("handle_length_m", self.handle_length_m, low=0.0)
        require("handle_proud_m", self.handle_proud_m)
        require("string_follow_m", self.string_follow_m)
        require("contact_m", self.contact_m, low=0.0)
        object.__setattr__(self, "limb_m", (self.nock_to_nock_m - self.handle_length_m) / 2.0 - self.contact_m)
        self._refuse("handle_length_m", "handle_long", self.handle_length_m, self.nock_to_nock_m)
        self._refuse("contact_m", "contact_long", self.contact_m, self.limb_m + self.contact_m)
        self._refuse("handle_proud_m", "proud_deep", abs(self.handle_proud_m), HIGHEST * self.limb_m)
        self._refuse("string_follow_m", "follow_large", abs(self.string_follow_m), MOST_FOLLOW * self.limb_m)
        object.__setattr__(self, "follow", self.string_follow_m / self.limb_m)

    def _refuse(self, field: str, reason: str, value_m: float, limit_m: float) -> None:
        if value_m >= limit_m:
            raise DomainError(Problem(field=field, code="pair", limit=limit_m, other="nock_to_nock_m", reason=reason))


def over_shapes(answer: Callable[[Bow], float], bow: Bow) -> Spread:
    """Return an answer for a bow, low and high over all limb shapes.

    Parameters
    ----------
    answer : callable
        Takes a bow, gives one number.
    bow : Bow
        Its own shape gives the value; `CENTRAL` is the one to take when nobody has looked.

    Notes
    -----
    Source: own rule: real limbs bend within what the shapes span (``derived:limbs``).

    Examples
    --------
    >>> over_shapes(lambda bow: bow.limb_m, Bow(1.5, 0.5, CENTRAL))
    Spread(low=0.5, value=0.5, high=0.5)
    """
    found = {shape: answer(replace(bow, shape=shape)) for shape in SHAPES}
    return Spread(min(found.values()), found[bow.shape], max(found.values()))
