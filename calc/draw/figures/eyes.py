"""Eyes and their splices: turning back, laying in the tails, closing the throat, tapering."""

from __future__ import annotations

from math import atan, pi, radians, tan
from typing import TYPE_CHECKING

from calc.draw import HAIR, CubicTo, Frame, Label, Line, Pen, Scale, Shape, tape
from calc.draw.cord import CordStation, Laid, Way, painted
from calc.draw.cord.arrows import arrow, end_view, letter, word
from calc.draw.cord.props import MARKED, mark, marked, pin
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.parts import DOUBLED, Open, Ply, cut_short, eye, leg, plied, run, single, splice

if TYPE_CHECKING:
    from calc.draw import Point
    from calc.draw.cord.laid import Name

_INCH = 0.0254
_LOOSE = Pen("a", 2.0)
_EYE: tuple[Point, ...] = (
    (344.0, -46.0),
    (250.0, -40.0),
    (176.0, -26.0),
    (136.0, -14.0),
    (86.0, -32.0),
    (40.0, -28.0),
    (18.0, 0.0),
    (40.0, 28.0),
    (86.0, 32.0),
    (136.0, 14.0),
    (176.0, 26.0),
    (250.0, 40.0),
    (344.0, 46.0),
)
_FIRST_MARK, _LAST_MARK = 3, 9


def whole_half_turns(lay_rad: float, length: float, radius: float) -> float:
    """Return the lay nearest to a wanted one that ends a stretch as it began, or half a turn on [rad].

    Parameters
    ----------
    lay_rad : float
        The one wanted; its sign is kept. [rad]
    length : float
        Of the stretch, in drawing units.
    radius : float
        From the cord's axis to a bundle's.
    """
    halves = max(1, round(length * abs(tan(lay_rad)) / (pi * radius)))
    return atan(halves * pi * radius / length) * (1.0 if lay_rad >= 0.0 else -1.0)


def turned_back(b: Bench, tall: float, bundle: float = 10.0, tails: float = 210.0) -> list[Shape]:
    """Return a plied loop length bent round, its bundles open at both ends, with its two marks.

    Parameters
    ----------
    b : Bench
        The hand and the measures.
    tall : float
        How far open it is: 1 where both marks meet.
    bundle : float
        Diameter of one bundle, in drawing units.
    tails : float
        Length of the open bundles beyond the last mark.
    """
    way = Way.smooth(*((x, y * tall) for x, y in _EYE))
    first, last = (way.nearest((_EYE[at][0], _EYE[at][1] * tall)) for at in (_FIRST_MARK, _LAST_MARK))
    lay = whole_half_turns(b.lay, last - first, bundle / 2.0)
    stations = (
        CordStation(0.0, bundle, 0.0, 2.0),
        CordStation(first - 50.0, bundle, 0.0, 1.8),
        CordStation(first - 6.0, bundle, 0.0, 1.06),
        CordStation(first, bundle, lay),
        CordStation(last, bundle, lay),
        CordStation(last + 6.0, bundle, 0.0, 1.06),
        CordStation(last + 50.0, bundle, 0.0, 1.8),
        CordStation(way.length, bundle, 0.0, 2.0),
    )
    cord = Laid(way, stations, 2, b.names(), first - 3.0)
    begin = way.length - last - tails
    return [*painted(cord, max(0.0, begin)), *mark(way, first, bundle + 1.0), *mark(way, last, bundle + 1.0)]


def _two_bundle_turn_back(b: Bench) -> Sheet:
    """Draw the plied length bent round until its two marks meet."""
    frames = tuple(Frame(index, 3, tuple(turned_back(b, tall, 8.0))) for index, tall in enumerate((2.3, 1.7, 1.0)))
    arrows = arrow((196.0, 96.0), CubicTo((166.0, 96.0), (150.0, 74.0), (146.0, 40.0)))
    return Sheet(
        [*frames, *arrows, word((202.0, 101.0), "marks meet", "start"), letter((84.0, -72.0), b.hand, 28.0)],
        [
            Label((322.0, -72.0), "tails" if b.hand == "Z" else "body", 14.0, "middle"),
            Label((322.0, 84.0), "body" if b.hand == "Z" else "tails", 14.0, "middle"),
        ],
    )


def closed_eye(b: Bench, throat: Point, bundle: float, *, reach: float = 112.0, half: float = 34.0) -> list[Shape]:
    """Return the plied part of an eye, both legs side by side at its throat.

    Parameters
    ----------
    b : Bench
        The hand and the measures.
    throat : Point
        Its middle.
    bundle : float
        Diameter of one bundle, in drawing units.
    reach, half : float
        As for `eye`.
    """
    way = eye(throat, reach=reach, half=half, gap=2.0 * bundle + 1.0)
    lay = whole_half_turns(b.lay, way.length, bundle / 2.0)
    return list(painted(Laid(way, (CordStation(0.0, bundle, lay),), 2, b.names())))


def _pair(b: Bench, x: float, side: float, name: Name, *, off: float, end: float) -> list[Shape]:
    """Draw a tail beside its bundle, or still on its way there."""
    bundle = 11.0
    y = side * 8.0
    body = Way.smooth((x - 8.0, y), (x + 60.0, side * 18.0), (346.0, side * 30.0))
    stops = [4.0 * index for index in range(1 + int((end - x) / 4.0))]
    tail = Way([body.aside(at, -side * bundle * (0.6 + (off - 0.6) * min(1.0, at / 60.0))) for at in stops])
    own = -b.lay * 0.5
    return [*single(tail, name, bundle=bundle, own=own), *single(body, name, bundle=bundle, own=own)]


def _two_bundle_pair_tails(b: Bench) -> Sheet:
    """Draw tail A beside body A, and tail B beside body B."""
    frames = []
    throat = (136.0, 0.0)
    for index, off in enumerate((4.4, 2.6, 1.0)):
        pairs = [
            shape
            for side, name in zip((-1.0, 1.0), b.names(), strict=True)
            for shape in _pair(b, throat[0], side, name, off=off, end=262.0)
        ]
        frames.append(Frame(index, 3, tuple(pairs)))
    shapes: list[Shape] = [*frames, *closed_eye(b, throat, 8.0), *marked((136.0, -19.0), (136.0, 19.0))]
    upper, lower = (each.upper() for each in b.names())
    words = [
        Label((268.0, -40.0), f"tail {upper}", 14.0),
        Label((348.0, -24.0), upper, 16.0, bold=True),
        Label((268.0, 50.0), f"tail {lower}", 14.0),
        Label((348.0, 36.0), lower, 16.0, bold=True),
    ]
    return Sheet([*shapes, *words])


def _throat_plied(b: Bench) -> Sheet:
    """Draw the eye closed, and the first hard turns of the two pairs."""
    bundle = 9.0
    throat = (128.0, 0.0)
    thick = bundle * DOUBLED
    hard = b.lay * 1.2
    stations = (
        CordStation(0.0, thick, hard),
        CordStation(86.0, thick, hard),
        CordStation(96.0, thick, 0.0, 1.2),
        CordStation(222.0, thick, 0.0, 4.6, -b.lay * 0.4),
    )
    cord = Laid(leg((124.0, 0.0), (346.0, 0.0)), stations, 2, b.names(), 96.0)
    shapes = [*closed_eye(b, throat, bundle), *painted(cord, halo=True), *marked((128.0, -20.0), (128.0, 20.0))]
    return Sheet([*shapes, letter((186.0, -44.0), b.hand, 30.0)], [Label((112.0, 60.0), "throat", 14.0, "middle")])


def _splice_tapered(b: Bench) -> Sheet:
    """Draw the whole splice, thick at the throat, thinning to the bundles alone."""
    bundle = 10.0
    shapes = [*closed_eye(b, (84.0, 0.0), bundle, reach=80.0, half=28.0)]
    shapes += splice(b, (82.0, 0.0), (350.0, 0.0), bundle=bundle, tapers=(66.0, 196.0))
    ends = [148.0 + 130.0 * index / 7.0 for index in range(8)]
    ticks = [Line((x, 16.0), (x, 24.0), HAIR) for x in ends]
    words = [
        Label((98.0, 44.0), "all tails in", 13.0, "middle"),
        Label((206.0, 44.0), "strand ends", 13.0, "middle"),
        Label((310.0, 44.0), "bundles alone", 13.0, "middle"),
    ]
    return Sheet(shapes, [*ticks, *words])


def _two_bundle_loop_plied(b: Bench) -> Sheet:
    """Draw the loop's whole length plied, against a tape."""
    bundle = 12.0
    first, last = 74.0, 262.0
    lay = whole_half_turns(b.lay, last - first - 8.0, bundle / 2.0)
    stations = (
        CordStation(0.0, bundle, 0.0, 2.6),
        CordStation(first - 14.0, bundle, 0.0, 1.1),
        CordStation(first - 4.0, bundle, lay),
        CordStation(last - 12.0, bundle, lay),
        CordStation(last - 4.0, bundle, 0.0, 1.1),
        CordStation(346.0, bundle, 0.0, 3.0),
    )
    way = leg((2.0, 0.0), (348.0, 0.0))
    shapes = [*painted(Laid(way, stations, 2, b.names(), last - 4.0))]
    shapes += [*mark(way, first - 2.0, bundle + 2.0), *mark(way, last - 2.0, bundle + 2.0), *pin((first, 0.0))]
    loop_m = b.length("loop_cord", 4.0 * _INCH)
    scale = Scale(0.0, loop_m * (346.0 - first) / (last - first), first, (last - first) / loop_m)
    words = [
        Label((26.0, -36.0), "tails", 13.0, "middle"),
        Label((322.0, -36.0), "body", 13.0, "middle"),
        *tape(scale, 34.0, b.system),
    ]
    return Sheet(shapes, [*words, letter((168.0, -40.0), b.hand, 30.0)])


def _second_loop(b: Bench) -> Sheet:
    """Draw the second loop's stretch plied at the left, the first loop on its nail, wrong-way twist in the body."""
    bundle = 7.0
    zones = (Open(36.0), Ply(60.0, 3), Open(44.0, 2.6), Ply(34.0, -2), Open(44.0, 2.6), Ply(46.0, 2, 1.3))
    back = eye((0.0, 0.0), reach=74.0, half=24.0)
    last = Way([(266.0 - x, y) for x, y in back.points])
    shapes: list[Shape] = [*plied(b, last, bundle=bundle), *pin((314.0, 0.0), 8.0)]
    shapes += run(b, (4.0, 0.0), (268.0, 0.0), zones, bundle=bundle)
    shapes += [*pin((40.0, 0.0)), letter((72.0, -34.0), b.hand, 24.0), letter((162.0, -34.0), b.other, 24.0)]
    shapes += [letter((246.0, -34.0), b.hand, 24.0), Label((66.0, 44.0), "second loop", 13.0, "middle")]
    shapes += [Label((162.0, 44.0), "wrong way", 13.0, "middle"), Label((300.0, 52.0), "first loop", 13.0, "middle")]
    return Sheet(shapes)


def _body_turns(b: Bench) -> Sheet:
    """Draw the far loop on a nail and the near loop in the hand, seen from that end as it is turned."""
    return turned_in(b, 2)


def turned_in(b: Bench, bundles: int) -> Sheet:
    """Return the shapes of turns going into the body of a string.

    Parameters
    ----------
    b : Bench
        The hand and the measures.
    bundles : int, 2 or 3
        Of the string.
    """
    bundle = 5.5 if bundles == 2 else 5.0
    near = eye((62.0, 0.0), reach=58.0, half=20.0)
    shapes: list[Shape] = [*plied(b, near, bundle=bundle, bundles=bundles), *pin((24.0, 0.0), 7.0)]
    back = eye((0.0, 0.0), reach=58.0, half=20.0)
    shapes += plied(b, Way([(224.0 - x, y) for x, y in back.points]), bundle=bundle, bundles=bundles)
    shapes += plied(b, leg((58.0, 0.0), (228.0, 0.0)), bundle=bundle * 1.1, bundles=bundles)
    clockwise = b.hand == "S"
    turns = b.said("turns_body")
    said = f"{turns} turns" if turns else "count the turns"
    fixed: list[Shape] = [
        *shapes,
        *end_view((318.0, 0.0), 24.0, clockwise=clockwise),
        letter((318.0, 0.0), b.hand, 22.0),
        Label((318.0, 50.0), "end view", 13.0, "middle"),
        word((143.0, 40.0), said),
    ]
    return Sheet([], fixed)


def _taper_comb(_: Bench) -> Sheet:
    """Draw a tail combed out to a taper."""
    name: Name = "a"
    way = leg((8.0, 0.0), (190.0, 0.0))
    shapes: list[Shape] = [*single(way, name, bundle=26.0, own=radians(3.0))]
    shapes += [cut_short(8.0, 15.0)]
    for index in range(7):
        y = -11.0 + 22.0 * index / 6.0
        end = 338.0 - 20.0 * abs(index - 3) - 6.0 * (index % 2)
        shapes.append(Line((189.0, y), (end, y * 0.55), _LOOSE))
    teeth = [Line((226.0 + 8.0 * at, -26.0), (226.0 + 8.0 * at, 24.0), HAIR) for at in range(6)]
    bar = [Line((220.0, -28.0), (272.0, -28.0), MARKED)]
    return Sheet(
        [*shapes, *teeth, *bar, *arrow((282.0, -40.0), CubicTo((300.0, -40.0), (320.0, -40.0), (342.0, -40.0)))]
    )


def _three_bundle_throat(b: Bench) -> Sheet:
    """Draw the eye of three bundles closed, each tail beside its own bundle."""
    bundle = 6.0
    throat = (116.0, 0.0)
    way = eye(throat, reach=104.0, half=34.0, gap=14.0)
    shapes = [*plied(b, way, bundle=bundle, bundles=3)]
    pairs: list[Shape] = []
    for side, name in zip((-1.0, 0.0, 1.0), b.names(3), strict=True):
        lean = side * 30.0
        body = Way.smooth((108.0, side * 6.0), (190.0, side * 26.0), (346.0, lean * 1.6))
        tail = body.part(0.0, 170.0).shifted(-10.5 if side > 0.0 else 10.5)
        pairs += [*single(tail, name, bundle=10.0), *single(body, name, bundle=10.0)]
        pairs.append(Label((348.0, lean * 1.6 + 5.5), name.upper(), 16.0, bold=True))
    return Sheet([*pairs, *shapes, *marked((116.0, -20.0), (116.0, 20.0))])


DRAWN = (
    _two_bundle_turn_back,
    _two_bundle_pair_tails,
    _throat_plied,
    _splice_tapered,
    _two_bundle_loop_plied,
    _second_loop,
    _body_turns,
    _taper_comb,
    _three_bundle_throat,
)
