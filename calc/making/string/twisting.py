"""A cord twisted to a finished length: how much bundle goes in, how often it turns, how far the jam is."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi

from calc.geometry.lay import (
    Lay,
    balanced_twist,
    finger_turns,
    jam,
    jam_turns,
    lay,
    lay_of_cord_turns,
    retraction,
    surface_angle,
    torque_free_ratio,
)

_LOCKED_RAD = pi / 4.0


@dataclass(frozen=True, slots=True)
class Twisted:
    """A cord of a finished length.

    Attributes
    ----------
    shape : Lay
        Its lay.
    cord_m, bundle_m, flat_m : float
        Along the cord; along each bundle in it; along the bundle laid flat, before its own twist. [m]
    turns, jam_turns : float
        Turns of lay in it; the most that this length of bundle can make. [turn]
    counter_each, finger_each : float
        Counter-twist for each turn of lay; what of it fingers roll when the bundles are carried round. [-]
    """

    shape: Lay
    cord_m: float
    bundle_m: float
    flat_m: float
    turns: float
    jam_turns: float
    counter_each: float
    finger_each: float

    @property
    def counter(self) -> float:
        """Turns to roll into each bundle first, against the lay [turn]."""
        return self.turns * self.counter_each

    @property
    def take_up(self) -> float:
        """``1 - cord / bundle`` of the lay alone [-]."""
        return self.shape.take_up

    @property
    def own_take_up(self) -> float:
        """What the bundle gives up to the twist that plying leaves in it [-]."""
        return 1.0 - self.bundle_m / self.flat_m

    def turns_at(self, lay_rad: float) -> float:
        """Return the turns of this length of bundle at another lay angle. [turn]."""
        return self.bundle_m * lay(self.shape.diameter_m, self.shape.bundles, lay_rad).turns_per_strand_m


def widest_bundle(bundles: int, cord_m: float, turns: float) -> float:
    """Return the thickest bundle that can hold so many turns over a finished length. [m].

    Parameters
    ----------
    bundles : int
        2, 3 or 4.
    cord_m, turns : float, > 0
        [m], [turn]

    Notes
    -----
    Source: `jam`.

    Examples
    --------
    Two bundles, 185.4 turns over a metre of cord:

    >>> round(1000 * widest_bundle(2, 1.0, 185.41), 3)
    2.0
    """
    return jam(bundles).cord_turns_times_diameter * cord_m / turns


def twisted_to_turns(diameter_m: float, bundles: int, cord_m: float, turns: float, spring: float) -> Twisted:
    """Return a cord twisted with a count of turns that ends at a length.

    Parameters
    ----------
    diameter_m : float, > 0
        Of one bundle. [m]
    bundles : int, 2 to 4
        Laid together.
    cord_m : float, > 0
        Of the finished cord. [m]
    turns : float, > 0
        In the finished cord. [turn]
    spring : float, > 0
        Bending / torsion stiffness of a bundle. [-]

    Raises
    ------
    DomainError
        ``model`` with reason ``jam`` and the most turns over that cord; as `lay_of_cord_turns` otherwise.

    Examples
    --------
    Two 2 mm bundles, 50 turns in a metre of cord:

    >>> made = twisted_to_turns(0.002, 2, 1.0, 50.0, 1.0)
    >>> round(made.bundle_m, 5), round(made.take_up, 5), round(made.jam_turns, 1)
    (1.04819, 0.04597, 123.3)
    """
    shape = lay_of_cord_turns(diameter_m, bundles, turns, cord_m)
    bundle_m = cord_m / shape.ratio
    each = counter_at(shape, spring)
    left_per_m = (each - cos(shape.lay_rad)) * turns / bundle_m
    own = retraction(surface_angle(shape.diameter_m, left_per_m))
    most = jam_turns(shape.diameter_m, shape.bundles, bundle_m)
    return Twisted(shape, cord_m, bundle_m, bundle_m / (1.0 - own), turns, most, each, finger_turns(each))


def counter_at(shape: Lay, spring: float) -> float:
    """Return the counter-twist for each turn of lay that leaves a cord at rest, or its surface fibres straight. [-].

    Parameters
    ----------
    shape : Lay
        Of a cord with some lay.
    spring : float, > 0
        Bending / torsion stiffness of a bundle. [-]

    Notes
    -----
    Source: `torque_free_ratio` (``thompson2002``); where that asks for more than lays the surface fibres along
    the cord, as it does for a steep lay, `balanced_twist` (``derived:balance``). Leaves out friction.

    Examples
    --------
    >>> round(counter_at(lay(0.002, 2, 0.2), 1.0), 3), round(counter_at(lay(0.002, 2, 0.8), 1.0), 3)
    (1.064, 2.134)
    """
    fibres_along = balanced_twist(shape.bundles, shape.lay_rad)
    if shape.lay_rad >= _LOCKED_RAD:
        return fibres_along
    return min(fibres_along, 1.0 / torque_free_ratio(shape.lay_rad, spring))
