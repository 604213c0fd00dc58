"""The timber hitch and whipping; wax in its bath; a club's room and its board of samples."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw import FIRM, HAIR, LINE, Circle, CubicTo, Label, Line, Pen, Polyline, Shape
from calc.draw.cord import CordStation, Laid, Way, painted, served
from calc.draw.cord.arrows import arrow, straight, word
from calc.draw.cord.props import box, dashed, ground_line, jar
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.parts import eye, leg, plied, single, whole

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.draw import Point

_CORD = 5.0
_LIMB = 74.0


def _limb(x: float = _LIMB, half: float = 22.0) -> list[Shape]:
    """Draw a limb that stands across the string, seen from its belly, with both nock grooves."""
    body = (
        (x - half, -84.0),
        (x + half, -84.0),
        (x + half, -14.0),
        (x + half - 5.0, 0.0),
        (x + half, 14.0),
        (x + half, 84.0),
        (x - half, 84.0),
        (x - half, 14.0),
        (x - half + 5.0, 0.0),
        (x - half, -14.0),
    )
    return [Polyline(body, FIRM, "tint", closed=True)]


def _cord(
    b: Bench, way: Way, start: float | None = None, end: float | None = None, *, halo: bool = False
) -> list[Shape]:
    laid = Laid(way, (CordStation(0.0, _CORD, b.lay),), 2, b.names())
    return list(painted(laid, start, end, halo=halo, ends=start is None))


def _knot(b: Bench, points: Sequence[Point], overs: Sequence[Point]) -> list[Shape]:
    """Draw a cord through points; at each crossing named, the stretch that comes later in the cord lies on top.

    Parameters
    ----------
    points : sequence of Point
        Along the cord.
    overs : sequence of Point
        Where the later stretch passes over the earlier one.
    """
    way = Way.smooth(*points)
    shapes = _cord(b, way)
    for spot in overs:
        at = way.length - way.back().nearest(spot)
        shapes += _cord(b, way, at - 12.0, at + 12.0, halo=True)
    return shapes


def _round_limb(b: Bench, tail: Sequence[Point], overs: Sequence[Point]) -> list[Shape]:
    """Draw the standing part from the right, over the limb, behind it and back, then the end as given."""
    behind = Way.smooth((52.0, -10.0), (40.0, 0.0), (52.0, 12.0))
    front = [(354.0, -10.0), (220.0, -10.0), (96.0, -10.0), (52.0, -10.0)]
    shapes = [*_cord(b, behind), *_limb()]
    shapes += _cord(b, Way.smooth(*front))
    shapes += _knot(b, tail, overs)
    return shapes


def _hitch_round_limb(b: Bench) -> Sheet:
    """Draw the cord's end round the limb at its nock."""
    behind = Way.smooth((150.0, 40.0), (98.0, 16.0), (74.0, 6.0), (52.0, 6.0), (42.0, -2.0), (52.0, -10.0))
    front = _cord(b, Way.smooth((354.0, -10.0), (220.0, -10.0), (96.0, -10.0), (50.0, -10.0)))
    shapes: list[Shape] = [*_cord(b, behind), *_limb(), *front]
    shapes += arrow((158.0, 58.0), CubicTo((176.0, 66.0), (196.0, 70.0), (220.0, 70.0)), rim=False)
    words = [Label((300.0, -26.0), "string", 14.0, "middle"), word((190.0, 92.0), "round behind the limb")]
    return Sheet([*shapes, *words, Label((_LIMB, 104.0), "limb", 14.0, "middle")])


_WRAP: tuple[Point, ...] = ((52.0, 12.0), (98.0, 14.0), (128.0, 12.0), (150.0, -4.0), (144.0, -30.0), (122.0, -28.0))


def _hitch_own_part(b: Bench) -> Sheet:
    """Draw the end round its own standing part."""
    tail = (*_WRAP, (112.0, -6.0), (126.0, 30.0), (168.0, 54.0))
    shapes = _round_limb(b, tail, [(147.0, -12.0)])
    shapes += _cord(b, Way.smooth((96.0, -10.0), (124.0, -10.0)), halo=True)
    return Sheet(
        [
            *shapes,
            *arrow((176.0, 58.0), CubicTo((190.0, 62.0), (200.0, 66.0), (214.0, 68.0)), rim=False),
            word((226.0, 42.0), "round itself", "start"),
        ]
    )


_HITCH_TURNS = 5
"""As many as the step has for slick cord; linen and hemp hold with three."""


def _turns_back(b: Bench, *, tight: bool) -> list[Shape]:
    """Draw the end wound back round its own leg on the near side of the limb, as often as a slick cord wants."""
    top, low, x = (-7.0, 9.0, 176.0) if tight else (-16.0, 22.0, 196.0)
    shapes = _cord(b, Way.smooth((52.0, top), (41.0, (top + low) / 2.0), (52.0, low)))
    turns = [x - 38.0 - 17.0 * index for index in range(_HITCH_TURNS)]
    down = Way.smooth(
        (x - 6.0, top - 13.0), (x - 20.0, top - 4.0), (x - 24.0, (top + low) / 2.0), (turns[0] + 8.0, low - 11.0)
    )
    shapes += [*_limb(), *_cord(b, down)]
    for at in turns[:-1]:
        shapes += _cord(b, Way.smooth((at - 6.0, low + 10.0), (at - 12.0, low), (at - 13.0, low - 10.0)))
    shapes += _cord(b, leg((354.0, top), (50.0, top)))
    shapes += _cord(
        b,
        Way.smooth(
            (50.0, low),
            (100.0, low),
            (x - 22.0, low),
            (x, (top + low) / 2.0),
            (x + 1.0, top - 6.0),
            (x - 6.0, top - 13.0),
        ),
        halo=True,
    )
    for at in turns:
        shapes += _cord(b, Way.smooth((at + 8.0, low - 11.0), (at + 1.0, low), (at - 6.0, low + 10.0)), halo=True)
    last = turns[-1]
    end = Way.smooth((last - 5.0, low + 9.0), (last - 8.0, low + 24.0), (last - 2.0, low + 46.0))
    shapes += _cord(b, end)
    return [*shapes, *(served(end, end.length - 18.0, end.length - 4.0, width=13.0, pitch=3.5) if tight else ())]


def _hitch_turns(b: Bench) -> Sheet:
    """Draw the turns back round the standing part, as the most slippery cord needs them."""
    shapes = _turns_back(b, tight=False)
    words: list[Shape] = [
        Line((142.0, 36.0), (166.0, 50.0), HAIR),
        word((170.0, 58.0), "five for slick cord,", "start"),
        word((170.0, 78.0), "three for linen", "start"),
    ]
    return Sheet([*shapes, *words])


def _hitch_pulled(b: Bench) -> Sheet:
    """Draw the hitch drawn up tight, its end whipped."""
    shapes = _turns_back(b, tight=True)
    shapes += straight((250.0, -26.0), (334.0, -26.0))
    return Sheet([*shapes, word((292.0, -38.0), "pull"), Label((112.0, 62.0), "whipped end", 14.0)])


def _whip_end(b: Bench) -> Sheet:
    """Draw a whipping at a cord's end."""
    shapes: list[Shape] = [*plied(b, leg((4.0, 0.0), (300.0, 0.0)), bundle=13.0)]
    shapes += served(leg((200.0, 0.0), (272.0, 0.0)), 0.0, 72.0, width=32.0, pitch=6.0, hand=b.hand)
    words: list[Shape] = [
        Line((236.0, 18.0), (236.0, 34.0), HAIR),
        Label((236.0, 50.0), "close thread", 14.0, "middle"),
    ]
    return Sheet([], [*shapes, *words, Label((310.0, 5.0), "end", 14.0)])


def _wax_bath(_: Bench) -> Sheet:
    """Draw a jar of wax in a pan of water, with a thermometer and no flame."""
    shapes: list[Shape] = [
        Polyline(((70.0, 20.0), (290.0, 20.0), (290.0, 108.0), (70.0, 108.0)), None, "tint", closed=True),
        jar(70.0, 290.0, -20.0, 110.0),
        Line((290.0, -8.0), (344.0, -18.0), Pen("ink", 4.0)),
        box(130.0, 14.0, 210.0, 94.0, pen=Pen("ground", 1.0), tint=False),
        Polyline(((132.0, 48.0), (208.0, 48.0), (208.0, 92.0), (132.0, 92.0)), None, "b", closed=True),
        jar(130.0, 210.0, -30.0, 96.0),
        Line((188.0, -66.0), (188.0, 70.0), Pen("ground", 9.0)),
        Line((188.0, -66.0), (188.0, 70.0), Pen("ink", 5.0)),
        Line((188.0, -20.0), (188.0, 70.0), Pen("accent", 2.0)),
        Circle((188.0, 72.0), 5.0, LINE, "accent"),
        ground_line(40.0, 330.0, 124.0),
    ]
    words: list[Shape] = [
        Label((250.0, 70.0), "water", 15.0, "middle"),
        Label((158.0, 76.0), "wax", 15.0, "middle", backed=True),
        Label((198.0, -56.0), "thermometer", 14.0),
        word((60.0, 70.0), "no", "end"),
        word((60.0, 86.0), "flame", "end"),
    ]
    return Sheet([], [*shapes, *words])


def _club_table(_: Bench) -> Sheet:
    """Draw the plan of a room: places for makers, cutting, wax, nails, bracing, and a roped-off row to settle in."""
    shapes: list[Shape] = [box(4.0, -100.0, 356.0, 112.0, pen=LINE, tint=False)]
    for left in (36.0, 206.0):
        shapes.append(box(left, -22.0, left + 118.0, 26.0))
        for index in range(4):
            x = left + 16.0 + 29.0 * index
            shapes += [Circle((x, -36.0), 8.0, LINE, "ground"), Circle((x, 40.0), 8.0, LINE, "ground")]
        shapes.append(Label((left + 59.0, 8.0), "makers", 14.0, "middle"))
    rooms = (
        ((16.0, -92.0, 106.0, -62.0), "cutting"),
        ((136.0, -92.0, 226.0, -62.0), "cold wax"),
        ((256.0, -92.0, 346.0, -62.0), "samples"),
    )
    for (left, top, right, bottom), text in rooms:
        shapes += [box(left, top, right, bottom), Label(((left + right) / 2.0, top + 20.0), text, 13.0, "middle")]
    shapes += [Circle((24.0 + 22.0 * index, 92.0), 4.0, FIRM, "ground") for index in range(4)]
    shapes += [
        Label((106.0, 97.0), "nails", 14.0),
        dashed(((152.0, 66.0), (262.0, 66.0), (262.0, 104.0), (152.0, 104.0), (152.0, 66.0))),
        Label((207.0, 90.0), "settling", 13.0, "middle"),
        box(272.0, 66.0, 346.0, 104.0),
        Label((309.0, 90.0), "bracing", 13.0, "middle"),
    ]
    return Sheet([], shapes)


def _club_samples(b: Bench) -> Sheet:
    """Draw a board with a string at each stage."""
    shapes: list[Shape] = [box(4.0, -104.0, 356.0, 118.0, pen=LINE, tint=False)]
    rows = ("cut and waxed", "first loop", "splice", "second loop", "served")
    for index, text in enumerate(rows):
        y = -82.0 + 42.0 * index
        if index == 0:
            for off, name in zip((-5.0, 5.0), b.names(), strict=True):
                shapes += single(leg((16.0, y + off), (218.0, y + off)), name, bundle=6.0)
        elif index in {1, 2}:
            line = eye((0.0, 0.0), reach=38.0, half=12.0)
            shapes += plied(b, Way([(54.0 + px, y + py) for px, py in line.points]), bundle=4.0)
            thick, plies = (6.0, 120.0) if index == 2 else (4.0, 20.0)
            parts = 48.0 + plies
            ways = (
                Way.smooth((parts, y + side * 2.0), (parts + 20.0, y + side * 5.0), (218.0, y + side * 7.0))
                for side in (-1.0, 1.0)
            )
            for way, name in zip(ways, b.names(), strict=True):
                shapes += single(way, name, bundle=4.0)
            shapes += painted(
                Laid(
                    leg((52.0, y), (52.0 + plies, y)),
                    (CordStation(0.0, thick, b.lay), CordStation(plies, 4.0, b.lay)),
                    2,
                    b.names(),
                ),
                halo=True,
            )
        else:
            shapes += whole(b, left=16.0, right=218.0, y=y, bundle=3.6, eyes=24.0)
            if index == 4:
                shapes += served(leg((104.0, y), (160.0, y)), 0.0, 56.0, width=11.0, pitch=4.0, hand=b.hand)
        shapes += [
            Circle((238.0, y), 10.0, LINE, "ground"),
            Label((238.0, y + 4.6), str(index + 1), 13.0, "middle", bold=True),
        ]
        shapes.append(Label((252.0, y + 4.6), text, 13.0))
    return Sheet([], shapes)


DRAWN = (
    _hitch_round_limb,
    _hitch_own_part,
    _hitch_turns,
    _hitch_pulled,
    _whip_end,
    _wax_bath,
    _club_table,
    _club_samples,
)
