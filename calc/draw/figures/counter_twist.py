"""Rolling, plying and opening two bundles: the moves of the long string."""

from __future__ import annotations

from math import radians
from typing import TYPE_CHECKING

from calc.draw import FIRM, Circle, CubicTo, Frame, Label, Shape
from calc.draw.cord import CordStation, Laid, Way, painted
from calc.draw.cord.arrows import arrow, letter, over, roll, straight, word
from calc.draw.cord.paint import painted_layers
from calc.draw.cord.props import clip, mark, pin
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.parts import BUNDLE, Open, Ply, eye, leg, plied, run, single, vee

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.draw import Point

_X0, _X1 = 24.0, 346.0
_ROLLED = (0.0, 12.0, 24.0)


def _named(b: Bench, x: float, up: float, count: int = 2) -> list[Shape]:
    """Write A, B (C) at the right ends, far one first on the page."""
    order = b.names(count)
    lows = (-up, up) if count == 2 else (-up, 0.0, up)
    return [Label((x, y + 6.0), name.upper(), 17.0, "start", bold=True) for name, y in zip(order, lows, strict=True)]


def _two_bundle_roll(b: Bench) -> Sheet:
    """Draw both bundles rolled the same way."""
    frames = tuple(
        Frame(index, len(_ROLLED), (*vee(b, opens=44.0, own=-radians(turn)), *pin((_X0, 0.0))))
        for index, turn in enumerate(_ROLLED)
    )
    x = 222.0
    high = 46.0 * (x - 60.0) / (_X1 - 60.0) + 2.0
    arrows = [*roll((x, -high), BUNDLE / 2.0), *roll((x, high), BUNDLE / 2.0)]
    letters = [letter((292.0, -74.0), b.other), letter((292.0, 74.0), b.other)]
    words = [word((228.0, -70.0), "roll away" if b.hand == "Z" else "roll towards", "middle")]
    return Sheet([*frames, *arrows, *letters, *words, *_named(b, _X1 + 2.0, 46.0)])


def _two_bundle_ply(b: Bench) -> Sheet:
    """Draw the far bundle as it comes over the top."""
    stills = ((70.0, 0.0), (70.0, 0.55), (70.0, 1.0))
    frames = tuple(
        Frame(index, len(stills), (*vee(b, opens=opens, crossing=crossing), *pin((_X0, 0.0))))
        for index, (opens, crossing) in enumerate(stills)
    )
    arrows = over((196.0, -58.0), (196.0, 56.0), 46.0)
    words = [word((236.0, -64.0), "over the top")]
    big = letter((74.0, -52.0), b.hand, 34.0)
    return Sheet([*frames, *arrows, *words, big, *_named(b, _X1 + 2.0, 46.0)])


def _two_bundle_start(b: Bench) -> Sheet:
    """Draw the start: marks, the pin, the tails to the left."""
    shapes: list[Shape] = []
    pin_x = 104.0
    for side, name in zip((-1.0, 1.0), b.names(), strict=True):
        y = side * 12.0
        way = Way.smooth((4.0, y + side * 12.0), (pin_x - 40.0, y), (pin_x + 60.0, y), (330.0, y + side * 4.0))
        shapes += single(way, name)
        shapes += [one for at in (way.length * 0.305, way.length * 0.62) for one in mark(way, at, BUNDLE / 2.0)]
        shapes.append(Label((336.0, y + side * 4.0 + 6.0), name.upper(), 17.0, bold=True))
    shapes += pin((pin_x, 0.0), 8.0)
    words = [word((46.0, -46.0), "tail"), word((154.0, -46.0), "loop"), word((274.0, -46.0), "body")]
    words += [Label((pin_x, 48.0), "pin at the mark", 13.0, "middle")]
    return Sheet(shapes, words)


def _counter_twist(b: Bench) -> Sheet:
    """Draw the finished first loop on its nail, both body bundles open, rolled and clipped."""
    bundle = 11.0
    throat: Point = (96.0, 0.0)
    shapes: list[Shape] = [*plied(b, eye(throat, reach=80.0, half=26.0), bundle=bundle)]
    shapes += pin((44.0, 0.0), 8.0)
    stations = (
        CordStation(0.0, bundle * 1.35, b.lay),
        CordStation(40.0, bundle * 1.25, b.lay),
        CordStation(70.0, bundle, b.lay),
        CordStation(82.0, bundle, 0.0, 1.2),
        CordStation(130.0, bundle, 0.0, 4.2, -b.lay),
        CordStation(244.0, bundle, 0.0, 4.2, -b.lay),
    )
    way = leg((92.0, 0.0), (336.0, 0.0))
    shapes += painted(Laid(way, stations, 2, b.names(), 82.0), halo=True)
    for y in (-23.0, 23.0):
        shapes += [*clip((320.0, y), bundle / 2.0), *roll((252.0, y), bundle / 2.0)]
        shapes.append(letter((220.0, y * 2.2), b.other))
    return Sheet([*shapes, letter((110.0, -40.0), b.hand, 28.0)])


def _wrong_way_twist(b: Bench) -> Sheet:
    """Draw one stretch that crosses the wrong way, and fingers that part the bundles there."""
    zones = (Ply(76.0, 2, 1.15), Open(64.0, 2.8), Ply(70.0, -2), Open(120.0, 2.8))
    shapes: list[Shape] = [*run(b, (16.0, 0.0), (346.0, 0.0), zones, bundle=10.0)]
    shapes += [letter((54.0, -38.0), b.hand, 28.0), letter((192.0, -38.0), b.other, 28.0)]
    shapes += [*straight((124.0, -2.0), (124.0, -42.0)), *straight((124.0, 2.0), (124.0, 42.0))]
    return Sheet([*shapes, word((124.0, 64.0), "part here")])


def _barber_pole(b: Bench) -> Sheet:
    """Draw an even lay above, and one bundle wound round a straight one below."""
    good = plied(b, leg((16.0, -44.0), (290.0, -44.0)), bundle=12.0)
    core, wrap = b.names()
    bad: list[Shape] = [*single(leg((16.0, 36.0), (290.0, 36.0)), core, bundle=12.0)]
    wave = Laid(leg((16.0, 36.0), (290.0, 36.0)), (CordStation(0.0, 9.0, b.lay * 1.15, 1.9),), 2, (wrap, wrap))
    back, front = painted_layers(wave, 0.0, wave.way.length, only=0)
    bad = [*back, *bad, *front]
    return Sheet(
        [],
        [
            *good,
            *bad,
            Label((300.0, -39.0), "even", 15.0, bold=True),
            Label((300.0, 41.0), "uneven", 15.0, "start", "accent", bold=True),
        ],
    )


_LEFT, _RIGHT = 62.0, 284.0
_SPLICE = 46.0
_WRONG = 34.0


def _looped(b: Bench, between: tuple[Ply | Open, ...], *, bundle: float = 6.0, bundles: int = 2) -> list[Shape]:
    """Draw a string with a loop and a splice at each end, and what is asked for between the splices."""
    shapes: list[Shape] = []
    for x, way in ((_LEFT + 4.0, 1.0), (_RIGHT - 4.0, -1.0)):
        line = eye((0.0, 0.0), reach=56.0, half=18.0)
        turned = Way([(x + way * px, way * py) for px, py in line.points])
        shapes += plied(b, turned, bundle=bundle, bundles=bundles)
    splice = Ply(_SPLICE, 2 if bundles == 3 else 3, 1.25)
    zones = (splice, *between, splice)
    return [*shapes, *run(b, (_LEFT, 0.0), (_RIGHT, 0.0), zones, bundle=bundle, bundles=bundles)]


def _spins() -> list[Shape]:
    """Draw the arrow of a right-hand loop that may spin."""
    return arrow((346.0, -22.0), CubicTo((360.0, -10.0), (360.0, 10.0), (346.0, 22.0)), rim=False, both=True)


def _walked(b: Bench, bundles: int, spread: float) -> list[Frame]:
    """Draw the wrong-way stretch ahead of a finger, from beside the left splice to the middle; open behind it."""
    frames: list[Frame] = []
    for index in range(3):
        behind = 26.0 + 25.0 * index
        between = (Open(behind, spread), Ply(_WRONG, -2), Open(96.0 - behind, spread))
        finger = Circle((_LEFT + _SPLICE + behind - 9.0, 0.0), 6.0, FIRM, "ground")
        frames.append(Frame(index, 3, (*_looped(b, between, bundles=bundles), finger)))
    return frames


def _walk_twist(b: Bench) -> Sheet:
    """Draw both loops made, a finger behind the wrong-way stretch, and the bundles open behind the finger."""
    shapes: list[Shape] = [*_walked(b, 2, 2.6), *_spins(), letter((86.0, -32.0), b.hand, 20.0)]
    shapes += [letter((_LEFT + _SPLICE + 93.0, -32.0), b.other, 20.0), letter((260.0, -32.0), b.hand, 20.0)]
    shapes += straight((116.0, 38.0), (186.0, 38.0))
    words = [word((150.0, 60.0), "finger"), Label((4.0, 40.0), "second loop", 13.0)]
    return Sheet([*shapes, *words, Label((316.0, 44.0), "first, free", 13.0, "middle")])


def _three_bundle_walk(b: Bench) -> Sheet:
    """Draw fingers behind the wrong-way stretch of three, open behind them, the bundles in their order ahead."""
    frames = []
    for index in range(3):
        behind = 44.0 + 42.0 * index
        zones = (Ply(56.0, 2), Open(behind, 4.2), Ply(58.0, -2), Open(206.0 - behind, 4.6))
        fingers = [Circle((16.0 + 44.0 + behind, y), 5.0, FIRM, "ground") for y in (-8.0, 8.0)]
        cord = run(b, (16.0, 0.0), (336.0, 0.0), zones, bundle=8.0, bundles=3)
        frames.append(Frame(index, 3, (*cord, *fingers)))
    shapes: list[Shape] = [*frames, letter((42.0, -36.0), b.hand, 28.0), letter((258.0, -36.0), b.other, 22.0)]
    for side, name in zip((-1.0, 0.0, 1.0), b.names(3), strict=True):
        shapes.append(Label((343.0, side * 18.4 + 6.0), name.upper(), 16.0, bold=True))
    return Sheet([*shapes, *straight((90.0, 44.0), (196.0, 44.0)), word((142.0, 66.0), "fingers")])


def _walk_other_end(b: Bench) -> Sheet:
    """Draw what is left of the wrong-way stretch in the middle, the bundles open from both splices to it."""
    shapes = _looped(b, (Open(52.0, 2.6), Ply(26.0, -2), Open(52.0, 2.6)))
    shapes += [*straight((104.0, 36.0), (154.0, 36.0)), *straight((242.0, 36.0), (192.0, 36.0)), *_spins()]
    shapes += [letter((86.0, -32.0), b.hand, 20.0), letter((260.0, -32.0), b.hand, 20.0)]
    words = [word((173.0, 58.0), "to the middle"), Label((4.0, 40.0), "first loop", 13.0)]
    return Sheet([*shapes, *words])


def _spread_twist(b: Bench) -> Sheet:
    """Draw both loops made, the bundles open between the splices, each rolled along to even out its own twist."""
    shapes = _looped(b, (Open(130.0, 4.4),), bundle=7.0)
    for y in (-15.4, 15.4):
        shapes += roll((173.0, y), 3.5)
        shapes += straight((194.0, 1.8 * y), (222.0, 1.8 * y), both=True)
        shapes.append(letter((148.0, 2.3 * y), b.other, 16.0))
    return Sheet([*shapes, Label((172.0, 66.0), "hard places to soft", 13.0, "middle")])


def _three_bundle_second(b: Bench) -> Sheet:
    """Draw three bundles with the first loop at the right on a nail, the second being plied at the left."""
    bundle = 7.0
    line = eye((0.0, 0.0), reach=64.0, half=20.0)
    shapes: list[Shape] = list(plied(b, Way([(286.0 - x, y) for x, y in line.points]), bundle=bundle, bundles=3))
    shapes += pin((330.0, 0.0), 8.0)
    for side, name in zip((-1.0, 0.0, 1.0), b.names(3), strict=True):
        way = Way.smooth((6.0, side * 20.0), (26.0, side * 10.0), (50.0, side * 4.0))
        shapes += single(way, name, bundle=bundle)
    zones: Sequence[Ply | Open] = (Open(60.0, 3.6), Ply(44.0, -2), Open(40.0, 3.6), Ply(56.0, 2, 1.2))
    shapes += run(b, (92.0, 0.0), (292.0, 0.0), tuple(zones), bundle=bundle, bundles=3)
    cord = Laid(leg((44.0, 0.0), (98.0, 0.0)), (CordStation(0.0, bundle, b.lay),), 3, b.names(3))
    shapes += [*painted(cord, halo=True), *pin((48.0, 0.0))]
    shapes += [letter((74.0, -34.0), b.hand, 22.0), letter((174.0, -34.0), b.other, 22.0)]
    words = [Label((60.0, 50.0), "second loop", 13.0, "middle"), Label((174.0, 50.0), "wrong way", 13.0, "middle")]
    return Sheet([*shapes, *words, Label((312.0, 50.0), "first loop", 13.0, "middle")])


DRAWN = (
    _two_bundle_roll,
    _two_bundle_ply,
    _two_bundle_start,
    _counter_twist,
    _wrong_way_twist,
    _barber_pole,
    _walk_twist,
    _walk_other_end,
    _spread_twist,
    _three_bundle_walk,
    _three_bundle_second,
)
