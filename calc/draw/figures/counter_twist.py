"""Rolling, plying and opening two bundles: the moves of the long string."""

from __future__ import annotations

from math import radians
from typing import TYPE_CHECKING

from calc.draw import Frame, Label, Shape
from calc.draw.cord import Laid, Station, Way, painted
from calc.draw.cord.arrows import letter, over, roll, straight, word
from calc.draw.cord.paint import painted_layers
from calc.draw.cord.props import clip, mark, pin
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.parts import BUNDLE, Open, Ply, eye, leg, plied, run, single, vee

if TYPE_CHECKING:
    from calc.draw import Point

_X0, _X1 = 24.0, 346.0
_ROLLED = (0.0, 12.0, 24.0)


def _named(b: Bench, x: float, up: float, count: int = 2) -> list[Shape]:
    """Write A, B (C) at the right ends, far one first on the page."""
    order = b.names(count)
    lows = (-up, up) if count == 2 else (-up, 0.0, up)
    return [Label((x, y + 6.0), name.upper(), 17.0, "start", bold=True) for name, y in zip(order, lows, strict=True)]


def two_bundle_roll(b: Bench) -> Sheet:
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


def two_bundle_ply(b: Bench) -> Sheet:
    """Draw the far bundle comes over the top."""
    stills = ((70.0, 0.0), (70.0, 0.55), (70.0, 1.0))
    frames = tuple(
        Frame(index, len(stills), (*vee(b, opens=opens, crossing=crossing), *pin((_X0, 0.0))))
        for index, (opens, crossing) in enumerate(stills)
    )
    arrows = over((196.0, -58.0), (196.0, 56.0), 46.0)
    words = [word((236.0, -64.0), "over the top")]
    big = letter((74.0, -52.0), b.hand, 34.0)
    return Sheet([*frames, *arrows, *words, big, *_named(b, _X1 + 2.0, 46.0)])


def two_bundle_start(b: Bench) -> Sheet:
    """Draw marks, pin, tails to the left."""
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


def counter_twist(b: Bench) -> Sheet:
    """Draw finished first loop on its nail, both body bundles open, rolled and clipped."""
    bundle = 11.0
    throat: Point = (96.0, 0.0)
    shapes: list[Shape] = [*plied(b, eye(throat, reach=80.0, half=26.0), bundle=bundle)]
    shapes += pin((44.0, 0.0), 8.0)
    stations = (
        Station(0.0, bundle * 1.35, b.lay),
        Station(40.0, bundle * 1.25, b.lay),
        Station(70.0, bundle, b.lay),
        Station(82.0, bundle, 0.0, 1.2),
        Station(130.0, bundle, 0.0, 4.2, -b.lay),
        Station(244.0, bundle, 0.0, 4.2, -b.lay),
    )
    way = leg((92.0, 0.0), (336.0, 0.0))
    shapes += painted(Laid(way, stations, 2, b.names(), 82.0), halo=True)
    for y in (-23.0, 23.0):
        shapes += [*clip((320.0, y), bundle / 2.0), *roll((252.0, y), bundle / 2.0)]
        shapes.append(letter((220.0, y * 2.2), b.other))
    return Sheet([*shapes, letter((110.0, -40.0), b.hand, 28.0)])


def wrong_way_twist(b: Bench) -> Sheet:
    """Draw one stretch crosses the wrong way; fingers part the bundles there."""
    zones = (Ply(76.0, 2, 1.15), Open(64.0, 2.8), Ply(70.0, -2), Open(120.0, 2.8))
    shapes: list[Shape] = [*run(b, (16.0, 0.0), (346.0, 0.0), zones, bundle=10.0)]
    shapes += [letter((54.0, -38.0), b.hand, 28.0), letter((192.0, -38.0), b.other, 28.0)]
    shapes += [*straight((124.0, -2.0), (124.0, -42.0)), *straight((124.0, 2.0), (124.0, 42.0))]
    return Sheet([*shapes, word((124.0, 64.0), "part here")])


def barber_pole(b: Bench) -> Sheet:
    """Draw even lay above, one bundle round a straight one below."""
    good = plied(b, leg((16.0, -44.0), (290.0, -44.0)), bundle=12.0)
    core, wrap = b.names()
    bad: list[Shape] = [*single(leg((16.0, 36.0), (290.0, 36.0)), core, bundle=12.0)]
    wave = Laid(leg((16.0, 36.0), (290.0, 36.0)), (Station(0.0, 9.0, b.lay * 1.15, 1.9),), 2, (wrap, wrap))
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


DRAWN = (two_bundle_roll, two_bundle_ply, two_bundle_start, counter_twist, wrong_way_twist, barber_pole)
