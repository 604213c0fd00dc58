"""A limb of a bow that has no string: how hard a weight on its nock pulls for the drop it makes."""

from __future__ import annotations

from math import cos, sin
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem, require
from calc.mechanics.bow.draw_force import rest_angles
from calc.mechanics.bow.limb_model import limb
from calc.numerics import NoRootError, find_roots

if TYPE_CHECKING:
    from calc.mechanics.bow.bow import Bow
    from calc.numerics import Residual


def hung_limb(bow: Bow, drop_m: float, back_rad: float = 0.0) -> tuple[float, ...]:
    """Return a level limb that a weight pulls down so far by its nock: its angles, and the weight.

    Parameters
    ----------
    bow : Bow
        The bow; its handle is clamped level, belly down.
    drop_m : float
        From where the nock is with nothing on it, straight down. Above 0. [m]
    back_rad : float
        Slope of the bending limb's end at which a recurved tip lies along the string. [rad]

    Returns
    -------
    tuple of float
        Angles at the limb's places [rad], then weight x limb length^2 / bending stiffness at the handle. [-]

    Raises
    ------
    DomainError
        ``min`` or ``number``; ``model`` with reason ``drop_far`` for a drop that no weight gives.

    Notes
    -----
    Source: the bend of a limb at a place is the weight x its distance / the limb's stiffness there
    (``derived:limbs``), solved by Newton's method. Leaves out the limb's own weight, which bends it before and after.

    Examples
    --------
    A cantilever alike all along that drops little: 3 x drop / length.

    >>> from calc.mechanics.bow.bow import Bow
    >>> round(hung_limb(Bow(2.0, 0.0, "uniform"), 0.001)[-1], 6)
    0.003
    """
    require("drop_m", drop_m, low=0.0, open_=True)
    bent, rest, lever = limb(bow.shape, 4), rest_angles(bow), bow.contact_m / bow.limb_m
    drop = drop_m / bow.limb_m

    def equations(at: list[float]) -> Residual:
        angles, load = at[:-1], at[-1]
        arm = [each * cos(angle) for each, angle in zip(bent.reach, angles, strict=True)]
        sink = [each * sin(angle) for each, angle in zip(bent.reach, angles, strict=True)]
        arm[-1] += lever * cos(angles[-1] - back_rad)
        sink[-1] += lever * sin(angles[-1] - back_rad)
        off = [angle - free for angle, free in zip(angles, rest, strict=True)]
        wrong = [
            sum(k * each for k, each in zip(row, off, strict=True)) - load * pull
            for row, pull in zip(bent.stiffness, arm, strict=True)
        ]
        slopes = [[*row, -pull] for row, pull in zip(bent.stiffness, arm, strict=True)]
        for i, each in enumerate(sink):
            slopes[i][i] += load * each
        return [*wrong, sum(sink) - start - drop], [*slopes, [*arm, 0.0]]

    start = sum(each * sin(free) for each, free in zip(bent.reach, rest, strict=True))
    start += lever * sin(rest[-1] - back_rad)
    guess = [*(free + drop * place for free, place in zip(rest, bent.positions, strict=True)), 3.0 * drop]
    try:
        return tuple(find_roots(equations, guess))
    except NoRootError:
        raise DomainError(Problem(field="drop_m", code="model", reason="drop_far")) from None
