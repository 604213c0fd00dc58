"""What damp does to the length of a string of plant fibre or sinew."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import practice
from calc.geometry.lay import wet_length
from calc.making.string import body_lay
from calc.numerics import combine

if TYPE_CHECKING:
    from calc.data import Fibre
    from calc.numerics import Spread

_PLANT, _SINEW = ("swell_plant", "along_plant"), ("swell_sinew", "along_sinew")
_SOAKS = {"cotton": _PLANT, "hemp": _PLANT, "linen": _PLANT, "ramie": _PLANT, "sinew": _SINEW}


def soaks(fibre: Fibre) -> bool:
    """Return whether damp moves a fibre so much that a string is made with it in mind.

    Parameters
    ----------
    fibre : Fibre
        From the fibre table.
    """
    return fibre.id in _SOAKS


def wet_change(fibre: Fibre) -> Spread | None:
    """Return how much longer a slack string is soaked than dry, below 0 shorter; None where damp hardly moves it [-].

    Parameters
    ----------
    fibre : Fibre
        From the fibre table.

    Notes
    -----
    Source: `wet_length` at the middle lay of a body (``derived:wetting``), with ``swell_plant``, ``along_plant``,
    ``swell_sinew`` and ``along_sinew`` of the constants.
    """
    names = _SOAKS.get(fibre.id)
    if names is None:
        return None
    causes = {key: practice(name).spread for key, name in zip(("swell", "along"), names, strict=True)}
    return combine(lambda at: {"wet": wet_length(body_lay(), at["swell"], at["along"]) - 1.0}, causes)["wet"]
