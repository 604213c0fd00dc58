"""Stages between the main moves: combing, rolling smooth, splices of three, the second loop, what is tied where."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw import FIRM, HAIR, Arc, Circle, CubicTo, Dim, Label, Line, Many, Path, Pen, Polyline, Shape, To
from calc.draw.cord import Way, served
from calc.draw.cord.arrows import arrow, letter, over, straight, word
from calc.draw.cord.props import box, ground_line, pin, wax
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.bows import bow
from calc.draw.figures.parts import Open, Ply, cut_short, eye, leg, plied, run, single, splice
from calc.draw.string import post

if TYPE_CHECKING:
    from calc.draw import Point

_INCH = 0.0254
_STRAND = Pen("a", 2.0, cap="butt")
_THREAD = Pen("accent", 2.5)


def _looped(b: Bench, zones: tuple[Ply | Open, ...], *, bundle: float = 7.0) -> list[Shape]:
    """Draw a first loop on its nail at the left with whatever follows to the right."""
    shapes: list[Shape] = [*plied(b, eye((82.0, 0.0), reach=74.0, half=24.0), bundle=bundle), *pin((34.0, 0.0), 8.0)]
    return [*shapes, *run(b, (78.0, 0.0), (350.0, 0.0), zones, bundle=bundle)]


def _body_combed(b: Bench) -> Sheet:
    """Draw the body combed: the loop on its nail, both bundles side by side, an arrow down between them."""
    shapes = _looped(b, (Ply(54.0, 2, 1.25), Open(218.0, 2.6)), bundle=8.0)
    shapes += straight((170.0, 0.0), (320.0, 0.0))
    return Sheet([*shapes, word((246.0, -30.0), "comb along")])


def _ply_to_end(b: Bench) -> Sheet:
    """Draw the rest plied from the splice to the very end."""
    shapes = _looped(b, (Ply(60.0, 3, 1.2), Ply(130.0, 7), Open(82.0, 3.2)), bundle=7.0)
    shapes += over((322.0, -30.0), (322.0, 30.0), 24.0)
    return Sheet([*shapes, letter((190.0, -34.0), b.hand, 28.0), Label((238.0, 46.0), "to the end", 14.0, "middle")])


def _second_splice(b: Bench) -> Sheet:
    """Draw the second loop closed and spliced towards the middle, the wrong-way stretch beyond it."""
    zones = (Ply(70.0, 4, 1.3), Open(44.0, 2.4), Ply(46.0, -2), Open(46.0, 2.4), Ply(66.0, 4, 1.3))
    shapes: list[Shape] = [*plied(b, eye((82.0, 0.0), reach=74.0, half=24.0), bundle=7.0)]
    shapes += run(b, (78.0, 0.0), (350.0, 0.0), zones, bundle=7.0)
    shapes += [letter((112.0, -34.0), b.hand, 24.0), letter((214.0, -34.0), b.other, 24.0)]
    shapes += [letter((316.0, -34.0), b.hand, 24.0), *straight((96.0, 34.0), (150.0, 34.0))]
    return Sheet([*shapes, Label((34.0, 48.0), "second loop", 13.0, "middle"), word((126.0, 54.0), "splice")])


def _two_loops_made(b: Bench) -> Sheet:
    """Draw the string with both loops and splices made, a wrong-way stretch between, one loop free to spin."""
    bundle = 6.0
    zones = (Ply(54.0, 3, 1.25), Open(34.0, 2.3), Ply(36.0, -2), Open(34.0, 2.3), Ply(54.0, 3, 1.25))
    back = eye((0.0, 0.0), reach=60.0, half=19.0)
    shapes: list[Shape] = [*plied(b, eye((66.0, 0.0), reach=60.0, half=19.0), bundle=bundle), *pin((27.0, 0.0), 7.0)]
    shapes += plied(b, Way([(270.0 - x, y) for x, y in back.points]), bundle=bundle)
    shapes += run(b, (62.0, 0.0), (274.0, 0.0), zones, bundle=bundle)
    shapes += arrow((346.0, -24.0), CubicTo((360.0, -12.0), (360.0, 12.0), (346.0, 24.0)), rim=False, both=True)
    shapes += [letter((88.0, -32.0), b.hand, 22.0), letter((168.0, -32.0), b.other, 22.0)]
    shapes += [letter((248.0, -32.0), b.hand, 22.0), Label((168.0, 42.0), "wrong way", 13.0, "middle")]
    return Sheet([*shapes, word((312.0, 44.0), "free to spin")])


def _twist_look(b: Bench) -> Sheet:
    """Draw where to look: beside the second splice the bundles cross the wrong way."""
    zones = (Ply(74.0, 3, 1.2), Open(46.0, 2.4), Ply(72.0, -3), Open(138.0, 2.6))
    shapes: list[Shape] = [*run(b, (16.0, 0.0), (346.0, 0.0), zones, bundle=9.0)]
    shapes += [letter((52.0, -44.0), b.hand, 28.0), letter((174.0, -44.0), b.other, 28.0)]
    shapes.append(
        Polyline(
            ((128.0, -24.0), (222.0, -24.0), (222.0, 24.0), (128.0, 24.0)), Pen("accent", 1.5, dash=True), closed=True
        )
    )
    return Sheet([*shapes, word((174.0, 46.0), "wrong way")])


def _roll_smooth(b: Bench) -> Sheet:
    """Draw a splice rolled between two boards."""
    shapes = [*splice(b, (8.0, 0.0), (352.0, 0.0), bundle=8.0, tapers=(90.0, 280.0))]
    shapes += [box(100.0, -34.0, 260.0, -13.0), box(84.0, 13.0, 276.0, 34.0)]
    shapes += straight((116.0, -48.0), (244.0, -48.0), both=True)
    return Sheet([], [*shapes, Label((180.0, -18.5), "board", 14.0, "middle"), word((180.0, -58.0), "roll")])


def _wax_taper(_: Bench) -> Sheet:
    """Draw wax rubbed through a tail to its very tip."""
    shapes: list[Shape] = [*single(leg((6.0, 0.0), (130.0, 0.0)), "a", bundle=20.0), cut_short(6.0, 14.0)]
    for index in range(7):
        y = -8.4 + 2.8 * index
        shapes.append(Line((129.0, y), (340.0 - 26.0 * abs(index - 3), y * 0.7), Pen("a", 2.4)))
    shapes += [*wax(150.0, -44.0, 70.0, 34.0), *straight((236.0, -30.0), (336.0, -30.0))]
    return Sheet([], [*shapes, word((288.0, -42.0), "to the tip")])


def _wax_wraps(_: Bench) -> Sheet:
    """Draw both sides of an endless ring waxed and pressed together."""
    lines = tuple(
        ((60.0, side * 20.0 + off), (To((300.0, side * 20.0 + off)),))
        for side in (-1.0, 1.0)
        for off in (-6.0, -2.0, 2.0, 6.0)
    )
    shapes: list[Shape] = [Many(lines, _STRAND)]
    for x, way in ((60.0, -1.0), (300.0, 1.0)):
        radii = (14.0, 18.0, 22.0, 26.0)
        shapes += [Path((x, -r), (Arc((x, r), r, clockwise=way > 0.0),), _STRAND) for r in radii]
    shapes += [*wax(86.0, -60.0, 60.0, 32.0), *straight((160.0, -46.0), (220.0, -46.0))]
    shapes += [*straight((260.0, -64.0), (260.0, -32.0)), *straight((260.0, 64.0), (260.0, 32.0))]
    return Sheet([], [*shapes, word((190.0, -58.0), "rub"), word((268.0, 60.0), "press", "start")])


def _endless_join(_: Bench) -> Sheet:
    """Draw both ends tied together close to a post."""
    x, reach = 70.0, 16.0
    shapes: list[Shape] = list(post((x, 0.0), 13.0))
    shapes += [
        Path((350.0, -off), (To((x, -off)), Arc((x, off), off, clockwise=False), To((350.0, off))), _STRAND)
        for off in (15.0, 19.0, 23.0)
    ]
    knot = (128.0, 23.0 + reach / 4.0)
    shapes += [Circle(knot, 6.5, Pen("a", 2.5), "ground"), Circle(knot, 2.0, Pen("a", 2.0))]
    shapes += [Path((knot[0] + 4.0, knot[1] + 5.0), (CubicTo((146.0, 36.0), (150.0, 44.0), (158.0, 48.0)),), _STRAND)]
    shapes += [Path((knot[0] - 4.0, knot[1] + 5.0), (CubicTo((116.0, 38.0), (112.0, 44.0), (108.0, 50.0)),), _STRAND)]
    return Sheet([], [*shapes, Label((168.0, 58.0), "knot by the post", 14.0)])


def _serving_way(b: Bench) -> Sheet:
    """Draw one turn of thread rolled under a finger: one way tightens, the other loosens."""
    shapes: list[Shape] = []
    for x, fits in ((88.0, True), (268.0, False)):
        way = leg((x - 80.0, 0.0), (x + 80.0, 0.0))
        shapes += plied(b, way, bundle=9.0)
        lean = b.sign * (1.0 if fits else -1.0)
        turn = Path((x - 10.0 * lean, -11.0), (To((x + 10.0 * lean, 11.0)),), _THREAD)
        ends = [
            Path(
                (x - 10.0 * lean, -11.0),
                (CubicTo((x - 14.0 * lean, -16.0), (x - 20.0 * lean, -22.0), (x - 34.0 * lean, -24.0)),),
                _THREAD,
            ),
            Path(
                (x + 10.0 * lean, 11.0),
                (CubicTo((x + 14.0 * lean, 16.0), (x + 20.0 * lean, 22.0), (x + 34.0 * lean, 24.0)),),
                _THREAD,
            ),
        ]
        shapes += [Path(turn.start, turn.steps, Pen("ground", 6.0)), turn, *ends]
        shapes += arrow((x + 44.0, -18.0), CubicTo((x + 62.0, -12.0), (x + 62.0, 12.0), (x + 44.0, 18.0)))
        shapes.append(Label((x, 54.0), "tightens" if fits else "loosens", 15.0, "middle", bold=fits))
    return Sheet([], [*shapes, word((178.0, -42.0), "roll both ways")])


def _served_string(b: Bench, x: float) -> list[Shape]:
    way = leg((x, -92.0), (x, 92.0))
    return [*plied(b, way, bundle=8.0), *served(way, 14.0, 170.0, width=24.0, pitch=6.0, hand=b.hand)]


def _bands(x: float, *, gap: float = 30.0) -> list[Shape]:
    return [
        shape
        for y in (-gap, gap)
        for shape in served(leg((x, y - 10.0), (x, y + 10.0)), 0.0, 20.0, width=34.0, pitch=4.5, ink="accent")
    ]


def _bands_moved(b: Bench) -> Sheet:
    """Draw both bands screwed along the serving, up or down."""
    x = 120.0
    shapes = [*_served_string(b, x), *_bands(x), *straight((x + 50.0, -58.0), (x + 50.0, 58.0), both=True)]
    shapes += arrow((x - 34.0, -20.0), CubicTo((x - 60.0, -10.0), (x - 60.0, 10.0), (x - 34.0, 20.0)), rim=False)
    return Sheet(
        [], [*shapes, word((x + 64.0, 5.0), "move both", "start"), Label((x - 68.0, 5.0), "screw", 14.0, "end")]
    )


def _nock_lock(b: Bench) -> Sheet:
    """Draw the bands locked with a drop of wax, and their height written down."""
    x = 120.0
    shapes = [*_served_string(b, x), *_bands(x)]
    for y in (-30.0, 30.0):
        drop = Path(
            (x + 24.0, y - 14.0),
            (
                CubicTo((x + 34.0, y), (x + 34.0, y + 8.0), (x + 24.0, y + 8.0)),
                CubicTo((x + 14.0, y + 8.0), (x + 14.0, y), (x + 24.0, y - 14.0)),
            ),
            FIRM,
            "b",
            closed=True,
        )
        shapes += [drop, Line((x + 34.0, y), (x + 64.0, 0.0), HAIR)]
    return Sheet([], [*shapes, Label((x + 70.0, 5.0), "a drop of wax", 15.0)])


def _bow_handle(b: Bench) -> Sheet:
    """Draw a bow bent a little on the floor, its stiff part dimensioned."""
    shapes, one, two = bow(-0.3)
    low = 40.0
    shapes = [*shapes, *straight((180.0, -50.0), (180.0, -14.0)), ground_line(20.0, 340.0, low)]
    shapes += [Line((x, -14.0), (x, 14.0), Pen("accent", 1.5, dash=True)) for x in (150.0, 210.0)]
    shapes.append(Dim((150.0, 8.0), (210.0, 8.0), b.said("handle", "stiff"), 12.0, size=14.0))
    ends: tuple[Point, ...] = (one, two)
    shapes += [box(x - 9.0, y + 4.0, x + 9.0, low) for x, y in ends]
    return Sheet(
        [],
        [
            *shapes,
            word((192.0, -36.0), "press", "start"),
            Label((96.0, 24.0), "bends", 13.0, "middle"),
            Label((266.0, 24.0), "bends", 13.0, "middle"),
        ],
    )


DRAWN = (
    _body_combed,
    _ply_to_end,
    _second_splice,
    _two_loops_made,
    _twist_look,
    _roll_smooth,
    _wax_taper,
    _wax_wraps,
    _endless_join,
    _serving_way,
    _bands_moved,
    _nock_lock,
    _bow_handle,
)
