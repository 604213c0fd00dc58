"""Why a string or an arrow needs a caution on a bow."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from calc.data import practice
from calc.errors import require
from calc.units import GRAIN, POUND_FORCE

if TYPE_CHECKING:
    from calc.data import Fibre


@dataclass(frozen=True, slots=True)
class Reason:
    """Why an answer must not stand alone.

    Attributes
    ----------
    key : {"low_stretch", "arrow_light", "arrow_dry"}
        Which sentence: a fibre that hardly stretches on a bow not said to be made for it; an arrow lighter than the
        trade's least; one lighter than even machines are rated with, close to a shot without an arrow.
    value, limit : float
        What was found and what it was held against: stiffness [N/(kg/m)], or grains per pound [-].
    """

    key: Literal["low_stretch", "arrow_light", "arrow_dry"]
    value: float
    limit: float


def grains_per_pound(arrow_kg: float, draw_weight_n: float) -> float:
    """Return the arrow's mass for the bow's draw weight, as the trade tells it [grains per pound-force].

    Parameters
    ----------
    arrow_kg, draw_weight_n : float, > 0
        [kg], [N]

    Raises
    ------
    DomainError
        ``min`` or ``number``.

    Notes
    -----
    Source: definitions of the grain and the pound-force.

    Examples
    --------
    >>> round(grains_per_pound(0.025, 152.297), 2)
    11.27
    """
    require("arrow_kg", arrow_kg, low=0.0, open_=True)
    require("draw_weight_n", draw_weight_n, low=0.0, open_=True)
    pounds = draw_weight_n / POUND_FORCE
    require("draw_weight_n", pounds, low=0.0, open_=True)
    return (arrow_kg / GRAIN) / pounds


def reasons_for_care(
    fibre: Fibre | None,
    *,
    made_for_it: bool = False,
    arrow_kg: float | None = None,
    draw_weight_n: float = 0.0,
) -> tuple[Reason, ...]:
    """Return why a string or an arrow needs a caution on this bow.

    Parameters
    ----------
    fibre : Fibre or None
        Of the string; None where it is not known.
    made_for_it : bool
        Whether somebody who knows has said that the bow is built for low-stretch strings.
    arrow_kg, draw_weight_n : float, optional
        Both, to judge the arrow. [kg], [N]

    Raises
    ------
    DomainError
        As `grains_per_pound`.

    Notes
    -----
    Source: limits of the trade, ``low_stretch``, ``arrow_least`` and ``arrow_rating`` in the constants.

    Examples
    --------
    >>> from calc.data import fibre
    >>> [each.key for each in reasons_for_care(fibre("hmpe"), arrow_kg=0.010, draw_weight_n=200.0)]
    ['low_stretch', 'arrow_dry']
    """
    found = []
    stiff = practice("low_stretch").spread.value
    if fibre is not None and not made_for_it and fibre.modulus_n_per_kg_m.value > stiff:
        found.append(Reason("low_stretch", fibre.modulus_n_per_kg_m.value, stiff))
    if arrow_kg is not None:
        grains = grains_per_pound(arrow_kg, draw_weight_n)
        least, rated = practice("arrow_least").spread.low, practice("arrow_rating").spread.value
        if grains < rated:
            found.append(Reason("arrow_dry", grains, rated))
        elif grains < least:
            found.append(Reason("arrow_light", grains, least))
    return tuple(found)
