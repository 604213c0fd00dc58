"""Three bundles: named, plied, counter-twisted, spliced."""

from __future__ import annotations

from calc.draw import Label, Scale, Shape, tape
from calc.draw.cord import CordStation, Laid, Way, painted, served
from calc.draw.cord.arrows import letter, roll, word
from calc.draw.cord.props import clip, mark, pin
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.eyes import turned_in
from calc.draw.figures.parts import DOUBLED, eye, leg, plied, single

_INCH = 0.0254


def _three_bundle_order(b: Bench) -> Sheet:
    """Draw three bundles side by side, named, the coloured thread round C."""
    shapes: list[Shape] = []
    for side, name in zip((-1.0, 0.0, 1.0), b.names(3), strict=True):
        y = side * 24.0
        shapes += single(leg((16.0, y), (330.0, y)), name, bundle=13.0)
        shapes += [*mark(leg((100.0, y), (102.0, y)), 1.0, 6.5), *mark(leg((190.0, y), (192.0, y)), 1.0, 6.5)]
        shapes.append(Label((338.0, y + 6.0), name.upper(), 17.0, bold=True))
        if name == "c":
            shapes += served(leg((266.0, y), (286.0, y)), 0.0, 20.0, width=18.0, pitch=4.0, ink="accent")
    return Sheet(shapes, [word((276.0, 54.0), "coloured thread")])


def _three_bundle_loop(b: Bench) -> Sheet:
    """Draw the loop of three bundles plied from mark to mark over a tape."""
    first, last = 60.0, 250.0
    cord = Laid(leg((first - 6.0, 0.0), (last, 0.0)), (CordStation(0.0, 10.0, b.lay),), 3, b.names(3))
    shapes: list[Shape] = []
    for side, name in zip((-1.0, 0.0, 1.0), b.names(3), strict=True):
        shapes += single(
            Way.smooth((last - 8.0, side * 5.0), (last + 26.0, side * 11.0), (346.0, side * 34.0)), name, bundle=10.0
        )
        shapes += single(
            Way.smooth((first + 2.0, side * 5.0), (first - 20.0, side * 9.0), (6.0, side * 22.0)), name, bundle=10.0
        )
    shapes += [
        *painted(cord, halo=True),
        *mark(cord.way, 4.0, 13.0),
        *mark(cord.way, cord.way.length - 2.0, 13.0),
        *pin((first, 0.0)),
    ]
    loop_m = b.length("loop_cord", 4.0 * _INCH)
    per_m = (last - first) / loop_m
    rule = tape(Scale(0.0, 286.0 / per_m, first, per_m), 46.0, b.system)
    return Sheet(shapes, [*rule, letter((154.0, -36.0), b.hand, 28.0)])


def _three_bundle_counter(b: Bench) -> Sheet:
    """Draw three body bundles open from the first loop, each rolled and clipped."""
    bundle = 9.0
    shapes: list[Shape] = [
        *plied(b, eye((80.0, 0.0), reach=70.0, half=24.0), bundle=5.5, bundles=3),
        *pin((34.0, 0.0), 8.0),
    ]
    for side, name in zip((-1.0, 0.0, 1.0), b.names(3), strict=True):
        way = Way.smooth((104.0, side * 5.0), (140.0, side * 14.0), (190.0, side * 40.0), (336.0, side * 40.0))
        shapes += single(way, name, bundle=bundle, own=-b.lay)
        shapes += [*clip((320.0, side * 40.0), bundle / 2.0), *roll((244.0, side * 40.0), bundle / 2.0)]
        shapes.append(letter((212.0, side * 40.0 - 16.5), b.other, 16.0))
    cord = Laid(leg((76.0, 0.0), (114.0, 0.0)), (CordStation(0.0, 8.0, b.lay),), 3, b.names(3))
    return Sheet([*shapes, *painted(cord, halo=True)])


def _three_bundle_splice(b: Bench) -> Sheet:
    """Draw the splice of three pairs, thinning to the three bundles alone."""
    way = eye((86.0, 0.0), reach=78.0, half=28.0, gap=12.0)
    shapes: list[Shape] = [*plied(b, way, bundle=6.0, bundles=3)]
    stations = (
        CordStation(0.0, 7.0 * DOUBLED, b.lay),
        CordStation(70.0, 7.0 * DOUBLED, b.lay),
        CordStation(190.0, 7.0, b.lay),
        CordStation(266.0, 7.0, b.lay),
    )
    shapes += painted(Laid(leg((84.0, 0.0), (350.0, 0.0)), stations, 3, b.names(3)), halo=True)
    words = [
        Label((112.0, 46.0), "all tails in", 13.0, "middle"),
        Label((308.0, 46.0), "bundles alone", 13.0, "middle"),
    ]
    return Sheet(shapes, [*words, letter((190.0, -32.0), b.hand, 28.0)])


def _three_bundle_body(b: Bench) -> Sheet:
    """Draw a string of three as its near loop is turned."""
    return turned_in(b, 3)


DRAWN = (
    _three_bundle_order,
    _three_bundle_loop,
    _three_bundle_counter,
    _three_bundle_splice,
    _three_bundle_body,
)
