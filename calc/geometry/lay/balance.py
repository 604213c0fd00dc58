"""What plying does to the bundles' own twist, and how much to put in first."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin

from calc.errors import require
from calc.geometry.lay.approach import radius_ratio
from calc.geometry.lay.jam_limit import jam
from calc.numerics import Spread


def residual_twist(counter: float, turns: float, lay_rad: float) -> float:
    """Return the twist left in a bundle after it was plied by turning the whole end.

    Parameters
    ----------
    counter : float
        Turns put in beforehand, counted against the lay. [turn]
    turns : float
        Turns of lay. [turn]
    lay_rad : float, >= 0
        Helix angle. [rad]

    Returns
    -------
    float
        ``counter - turns x cos(lay)``, positive while it still runs against the lay. [turn]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> residual_twist(30.0, 10.0, 0.0)
    20.0
    """
    require("counter", counter)
    require("turns", turns)
    require("lay_rad", lay_rad, low=0.0, high=pi / 2.0)
    return counter - turns * cos(lay_rad)


def counter_twist(turns: float, lay_rad: float, residual: float) -> float:
    """Return the turns to put into a bundle beforehand so that a chosen twist is left after plying.

    Parameters
    ----------
    turns : float
        Turns of lay. [turn]
    lay_rad : float, >= 0
        Helix angle. [rad]
    residual : float
        To be left, counted against the lay. [turn]

    Returns
    -------
    float
        Counted against the lay. [turn]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> counter_twist(10.0, 0.0, 20.0)
    30.0
    """
    require("turns", turns)
    require("lay_rad", lay_rad, low=0.0, high=pi / 2.0)
    require("residual", residual)
    return residual + turns * cos(lay_rad)


def finger_turns(counter_per_turn: float) -> float:
    """Return the turns to roll each bundle for every turn of lay when bundles are carried round by hand.

    Parameters
    ----------
    counter_per_turn : float
        Counter-twist per turn of lay, as `counter_twist` or `balanced_twist` count it. [-]

    Returns
    -------
    float
        One less: a bundle carried round without turning in the hand gains a turn against the lay. [-]

    Raises
    ------
    DomainError
        ``number`` when not finite.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> finger_turns(2.0)
    1.0
    """
    require("counter_per_turn", counter_per_turn)
    return counter_per_turn - 1.0


def balanced_twist(bundles: int, lay_rad: float) -> float:
    """Return the counter-twist for each turn of lay that leaves surface fibres lying along the cord.

    Parameters
    ----------
    bundles : int
        2, 3 or 4.
    lay_rad : float
        Helix angle, from 0 to the jam. [rad]

    Returns
    -------
    float
        Turns into each bundle, before plying, per turn of lay. [-]

    Raises
    ------
    DomainError
        ``choice`` for the bundles; ``number``, ``min`` or ``max`` for the angle.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from math import radians
    >>> round(balanced_twist(2, radians(20)), 4)
    2.0039
    """
    require("lay_rad", lay_rad, low=0.0, high=jam(bundles).lay_rad)
    return 2.0 * radius_ratio(bundles, lay_rad) / cos(lay_rad) + cos(lay_rad)


def torque_free_ratio(lay_rad: float, stiffness_ratio: float) -> float:
    """Return turns of lay per turn of counter-twist at which an elastic two-ply is at rest.

    Parameters
    ----------
    lay_rad : float, > 0 and below 45 degrees
        Helix angle. [rad]
    stiffness_ratio : float, > 0
        Bending / torsion stiffness of a bundle: 0.5 to 1.5. [-]

    Returns
    -------
    float
        [-]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from math import radians
    >>> round(torque_free_ratio(radians(20), 1.0), 4)
    0.8152
    """
    require("lay_rad", lay_rad, low=0.0, high=pi / 4.0, open_=True)
    require("stiffness_ratio", stiffness_ratio, low=0.0, open_=True)
    left = 2.0 * stiffness_ratio * sin(lay_rad) ** 2 / cos(2.0 * lay_rad)
    return 1.0 / (cos(lay_rad) * (1.0 + left))


def torque_free_band(lay_rad: float, stiffness: Spread) -> Spread:
    """Return `torque_free_ratio` over all stiffness ratios that a bundle may have.

    Parameters
    ----------
    lay_rad
        As for `torque_free_ratio`.
    stiffness : Spread
        Bending / torsion stiffness. [-]

    Returns
    -------
    Spread
        The stiffest in bending gives the low end. [-]

    Raises
    ------
    DomainError
        As `torque_free_ratio`.

    Notes
    -----
    Source: `torque_free_ratio` at both ends, between which it only falls.

    Examples
    --------
    >>> from math import radians
    >>> band = torque_free_band(radians(25), Spread(0.5, 1.0, 1.5))
    >>> round(band.low, 4), round(band.value, 4), round(band.high, 4)
    (0.6018, 0.7092, 0.8635)
    """
    return Spread(
        torque_free_ratio(lay_rad, stiffness.high),
        torque_free_ratio(lay_rad, stiffness.value),
        torque_free_ratio(lay_rad, stiffness.low),
    )


@dataclass(frozen=True, slots=True)
class Transfer:
    """What making the second splice does to the body, held fast at the first.

    Attributes
    ----------
    body_turns : float
        Turns of lay pushed into the body: as many as the splice took, the wrong way. [turn]
    own_lost : float
        Counter-twist that rolling the bundles at the splice takes out of each bundle of the body. [turn]
    to_turn : float
        Turns to give the finished loop so that the body ends with the lay wanted. [turn]
    """

    body_turns: float
    own_lost: float
    to_turn: float


def transferred(splice_turns: float, counter_per_turn: float, body_turns: float) -> Transfer:
    """Return the twist that the second splice pushes along the body, and the turns that set it right.

    Parameters
    ----------
    splice_turns : float
        Turns of lay in the second splice. [turn]
    counter_per_turn : float
        Counter-twist per turn of lay in the splice, as `balanced_twist` counts it. [-]
    body_turns : float
        Turns of lay wanted in the body, of the splice's hand. [turn]

    Returns
    -------
    Transfer
        All of one sign convention: the splice's own hand is positive.

    Raises
    ------
    DomainError
        ``number`` when not finite.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> transferred(12.0, 2.0, 20.0)
    Transfer(body_turns=-12.0, own_lost=12.0, to_turn=32.0)
    """
    require("splice_turns", splice_turns)
    require("body_turns", body_turns)
    own_lost = splice_turns * finger_turns(counter_per_turn)
    return Transfer(-splice_turns, own_lost, body_turns + splice_turns)
