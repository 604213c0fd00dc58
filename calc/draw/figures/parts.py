"""Parts of a string that many figures share: open bundles, a plied start, eyes, splices, whole strings."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, pi
from typing import TYPE_CHECKING

from calc.draw import LINE, Arc, CubicTo, Path, Pen, Shape, To
from calc.draw.cord import CordStation, Laid, Way, painted
from calc.geometry.lay import radius_ratio
from calc.numerics import fixed_point

if TYPE_CHECKING:
    from calc.draw import Point
    from calc.draw.cord.laid import Name
    from calc.draw.figures.bench import Bench

BUNDLE = 14.0
"""Diameter of a bundle in figures that show its strands."""
THIN = 4.5
DOUBLED = 2.0**0.5
"""How much thicker a bundle is with its tail laid in: twice the strands in the same round."""
MARKED = Pen("accent", 3.0, cap="butt")


def single(way: Way, name: Name, *, bundle: float = BUNDLE, own: float = 0.0) -> tuple[Shape, ...]:
    """Return one bundle by itself.

    Parameters
    ----------
    way : Way
        Its middle line.
    name : Name
        Its look.
    bundle : float
        Its diameter, in drawing units.
    own : float
        Angle of its strands, in radians; positive is Z.
    """
    return painted(Laid(way, (CordStation(0.0, bundle, 0.0, 1.0, own),), 1, (name,)))


def plied(b: Bench, way: Way, *, bundle: float = BUNDLE, bundles: int = 2, zero_at: float = 0.0) -> tuple[Shape, ...]:
    """Return a cord that is alike all along, with the lay of the figure.

    Parameters
    ----------
    b : Bench
        The hand and the measures.
    way : Way
        The cord's axis.
    bundle : float
        Diameter of one bundle, in drawing units.
    bundles : int, 1 to 3
        How many are laid together.
    zero_at : float
        As for `Laid`.
    """
    return painted(Laid(way, (CordStation(0.0, bundle, b.lay),), bundles, b.names(bundles), zero_at))


def vee(
    b: Bench,
    *,
    start: float = 20.0,
    opens: float = 60.0,
    end: float = 346.0,
    apart: float = 46.0,
    bundle: float = BUNDLE,
    own: float | None = None,
    crossing: float = 0.0,
    straight: bool = False,
) -> tuple[Shape, ...]:
    """Return a cord plied from the left that opens into two bundles, the far one upper.

    Parameters
    ----------
    b : Bench
        The hand and the measures.
    start, opens, end : float
        Where the cord begins, opens and ends, from left to right.
    apart : float
        From the middle line to each bundle at the right end.
    bundle : float
        Diameter of one bundle, in drawing units.
    own : float or None
        Strand angle in the open bundles; None for the twist they were given. [rad]
    crossing : float
        How much of a next half turn is already laid beyond the opening, 0 to 1.
    straight : bool
        Whether the bundles come level at the end.
    """
    own = -b.lay if own is None else own
    loose = 56.0 * crossing
    stations = [CordStation(0.0, bundle, b.lay), CordStation(max(0.0, opens - start - 8.0), bundle, b.lay)]
    at = opens - start
    if crossing:
        mid = b.lay * 0.62
        stations += [CordStation(at + 8.0, bundle, mid, 1.25, own), CordStation(at + loose, bundle, mid, 1.5, own)]
        at += loose
    level = apart / (bundle / 2.0)
    stations.append(CordStation(at + 10.0, bundle, 0.0, 1.6 if crossing else 1.1, own))
    far = end - start
    if straight:
        stations.append(CordStation(at + 0.45 * (far - at), bundle, 0.0, level, own))
    stations.append(CordStation(far, bundle, 0.0, level, own))
    return painted(Laid(Way([(start, 0.0), (end, 0.0)]), tuple(stations), 2, b.names(), at + 10.0))


def eye(throat: Point, *, reach: float, half: float, gap: float = 0.0) -> Way:
    """Return the line of an eye: from the throat's near side round the left and back to its far side.

    Parameters
    ----------
    throat : Point
        Its middle.
    reach : float
        From the throat to the far end of the eye, to the left.
    half : float
        Half of the eye's width.
    gap : float
        Between both legs at the throat.
    """
    x, y = throat
    left = x - reach + half
    lean = 0.42 * (x - left)
    near, far = y + gap / 2.0, y - gap / 2.0
    return Way.along(
        (x, near),
        CubicTo((x - lean, near), (left + lean, y + half), (left, y + half)),
        Arc((left, y - half), half, clockwise=True),
        CubicTo((left + lean, y - half), (x - lean, far), (x, far)),
    )


def splice(
    b: Bench, start: Point, end: Point, *, bundle: float, tapers: tuple[float, float], zero_at: float = 0.0
) -> tuple[Shape, ...]:
    """Return tails laid in with their bundles, thick at first, down to the bundles alone.

    Parameters
    ----------
    b : Bench
        The hand and the measures.
    start, end : Point
        From the throat to where the drawing ends.
    bundle : float
        Diameter of a bundle alone.
    tapers : (float, float)
        Running lengths between which the tails run out.
    zero_at : float
        As for `Laid`.
    """
    steps = 7
    first, last = tapers
    thick = bundle * DOUBLED
    stations = [CordStation(0.0, thick, b.lay)]
    for index in range(steps):
        at = first + (last - first) * index / steps
        left = 1.0 - index / steps
        after = 1.0 - (index + 1) / steps
        stations += [
            CordStation(at, bundle * (1.0 + left) ** 0.5, b.lay),
            CordStation(at + 2.0, bundle * (1.0 + after) ** 0.5, b.lay),
        ]
    way = Way([start, end])
    return painted(Laid(way, (*stations, CordStation(way.length, bundle, b.lay)), 2, b.names(), zero_at))


def whole(
    b: Bench, *, left: float = 6.0, right: float = 346.0, y: float = 0.0, bundle: float = THIN, eyes: float = 30.0
) -> tuple[Shape, ...]:
    """Return a finished string with both its loops.

    Parameters
    ----------
    b : Bench
        The hand and the measures.
    left, right : float
        Ends of the string, outside its loops.
    y : float
        Height of its middle line on the page.
    bundle : float
        Diameter of one bundle, in drawing units.
    eyes : float
        Length of each loop.
    """
    half, throat = 0.3 * eyes + bundle, eyes + 2.0 * bundle
    shapes: list[Shape] = []
    for x, way in ((left, 1.0), (right, -1.0)):
        line = eye((0.0, 0.0), reach=throat, half=half)
        turned = Way([(x + way * (throat + px), y + way * py) for px, py in line.points])
        shapes += plied(b, turned, bundle=bundle)
    x1, x2 = left + throat, right - throat
    thick, run = bundle * DOUBLED, min(60.0, 0.22 * (x2 - x1))
    length = x2 - x1 + 6.0
    stations = (
        CordStation(0.0, thick, b.lay),
        CordStation(0.3 * run, thick, b.lay),
        CordStation(run, bundle, b.lay),
        CordStation(length - run, bundle, b.lay),
        CordStation(length - 0.3 * run, thick, b.lay),
        CordStation(length, thick, b.lay),
    )
    body = Laid(Way([(x1 - 3.0, y), (x2 + 3.0, y)]), stations, 2, b.names())
    return (*shapes, *painted(body, halo=True))


@dataclass(frozen=True, slots=True)
class Ply:
    """A plied stretch of a cord.

    Parameters
    ----------
    length : float
        In drawing units.
    halves : int
        Half turns of lay in it; negative ones go the wrong way.
    grow : float
        How many times as thick the bundles are, for tails laid in.
    """

    length: float
    halves: int
    grow: float = 1.0


@dataclass(frozen=True, slots=True)
class Open:
    """A stretch in which the bundles lie apart.

    Parameters
    ----------
    length : float
        In drawing units.
    spread : float
        How many times as far apart as when they touch.
    """

    length: float
    spread: float = 3.0


_EASE, _FADE = 11.0, 3.0
_SAME_RAD = 1e-12


def run(
    b: Bench, start: Point, end: Point, zones: tuple[Ply | Open, ...], *, bundle: float, bundles: int = 2
) -> tuple[Shape, ...]:
    """Return a cord of plied and open stretches; open ones lie flat because lays are whole half turns.

    Parameters
    ----------
    b : Bench
        The hand and the measures.
    start, end : Point
        The last stretch ends where the line does, whatever its own length.
    zones : tuple of Ply or Open
        In order.
    bundle : float
        Diameter; ``grow`` of a ply makes it thicker, for tails laid in.
    bundles : int
        2 or 3; open ones lie far, (middle,) near.
    """
    stations: list[CordStation] = []
    at, flat = 0.0, None
    for index, zone in enumerate(zones):
        stop = at + zone.length
        first, last = index == 0, index == len(zones) - 1
        begin, finish = at + (0.0 if first else _FADE), stop - (0.0 if last else _FADE)
        if isinstance(zone, Ply):
            lay = b.sign * _whole_lay(zone, bundle, bundles)
            stations += [CordStation(begin, bundle * zone.grow, lay), CordStation(finish, bundle * zone.grow, lay)]
        else:
            own = -b.lay * 0.8
            wide = min(_EASE * zone.spread, zone.length / 2.0 - _FADE)
            stops = [
                (begin, zone.spread if first else 1.08),
                (begin if first else at + wide, zone.spread),
                (finish if last else stop - wide, zone.spread),
                (finish, zone.spread if last else 1.08),
            ]
            stations += [
                CordStation(place, bundle, 0.0, spread, own, eased=True) for place, spread in dict(stops).items()
            ]
            flat = at + zone.length / 2.0 if flat is None else flat
        at = stop
    names = b.names(bundles)
    names, quarter = (names, 0.0) if bundles == 2 else ((*names[1:], names[0]), pi / 2.0)
    return painted(Laid(leg(start, end), tuple(stations), bundles, names, flat or 0.0, quarter))


def _whole_lay(zone: Ply, bundle: float, bundles: int) -> float:
    """Return the lay of so many half turns over a stretch, whose radius depends on it again [rad]."""

    def laid_rad(lay_rad: float) -> float:
        radius = bundle * zone.grow * radius_ratio(bundles, abs(lay_rad))
        return atan(zone.halves * pi * radius / zone.length)

    return fixed_point(laid_rad, 0.0, within=_SAME_RAD)


def cut_short(x: float, half: float, y: float = 0.0) -> Shape:
    """Return the wavy line at which a cord goes on unseen.

    Parameters
    ----------
    x : float
        Where it is cut.
    half : float
        Half the length of the line, in drawing units.
    y : float
        The middle of the line.
    """
    return Path((x, y - half), (CubicTo((x - 5.0, y - half / 3.0), (x + 5.0, y + half / 3.0), (x, y + half)),), LINE)


def leg(start: Point, end: Point) -> Way:
    """Return a straight way.

    Parameters
    ----------
    start, end : Point
        In drawing units.
    """
    return Way.along(start, To(end))
