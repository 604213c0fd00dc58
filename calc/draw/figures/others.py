"""Three bundles, and the endless string on its posts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw import HAIR, Arc, CubicTo, Dim, Frame, Label, Line, Many, Path, Pen, Scale, Shape, To, tape
from calc.draw.cord import CordStation, Laid, Way, painted, served
from calc.draw.cord.arrows import arrow, head, letter, over, roll, straight, word
from calc.draw.cord.props import clip, mark, pin
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.eyes import turned_in
from calc.draw.figures.parts import DOUBLED, eye, leg, plied, single
from calc.draw.figures.strings import hung
from calc.draw.string import post, racetrack

if TYPE_CHECKING:
    from calc.draw import PathStep, Point
    from calc.draw.cord.laid import Name

_INCH = 0.0254
_STRAND = Pen("a", 2.0, cap="butt")
_THIRD, _SLIM = 11.0, 9.6
_APART, _POST, _WRAPS = 4.0, 10.0, 4
_LEFT, _RIGHT = 40.0, 320.0


def _fan(b: Bench, order: tuple[Name, ...], *, opens: float, own: float, apart: float = 44.0) -> list[Shape]:
    """Draw three bundles open to the right from a plied start, in the order given, far one first."""
    shapes: list[Shape] = []
    for side, name in zip((-1.0, 0.0, 1.0), order, strict=True):
        way = Way.smooth((opens - 6.0, side * 5.0), (opens + 34.0, side * 12.0), (346.0, side * apart))
        shapes += single(way, name, bundle=_THIRD, own=own)
    if opens > 40.0:
        way = leg((22.0, 0.0), (opens + 6.0, 0.0))
        shapes += painted(Laid(way, (CordStation(0.0, _THIRD, b.lay),), 3, b.names(3), way.length), halo=True)
    return [*shapes, *pin((24.0, 0.0))]


def _three_bundle_roll(b: Bench) -> Sheet:
    """Draw three bundles at a pin, all rolled the same way."""
    order = b.names(3)
    shapes = _fan(b, order, opens=30.0, own=-b.lay, apart=58.0)
    for side, name in zip((-1.0, 0.0, 1.0), order, strict=True):
        shapes += roll((226.0, side * 39.0), _THIRD / 2.0)
        shapes.append(letter((292.0, side * 52.0 - 17.0), b.other, 17.0))
        shapes.append(Label((349.0, side * 58.0 + 6.0), name.upper(), 16.0, bold=True))
    return Sheet([*shapes, word((198.0, -66.0), "roll away" if b.hand == "Z" else "roll towards")])


def _three_bundle_ply(b: Bench) -> Sheet:
    """Draw the outermost bundle as it comes over both others to the near side."""
    far, middle, near = b.names(3)
    frames: list[Frame] = []
    for index, share in enumerate((0.0, 0.5, 1.0)):
        shapes: list[Shape] = []
        for height, name in ((-share, middle), (1.0 - share, near)):
            way = Way.smooth((70.0, height * 4.0), (118.0, height * 14.0), (346.0, height * 44.0))
            shapes += single(way, name, bundle=_SLIM, own=-b.lay)
        height = -1.0 + 2.0 * share
        bring = Way.smooth((66.0, -8.0), (84.0, -8.0 + 10.0 * share), (126.0, height * 16.0), (346.0, height * 44.0))
        shapes += single(bring, far, bundle=_SLIM, own=-b.lay)
        cord = Laid(leg((22.0, 0.0), (80.0, 0.0)), (CordStation(0.0, _SLIM, b.lay),), 3, b.names(3), 58.0)
        frames.append(Frame(index, 3, (*shapes, *painted(cord, halo=True), *pin((24.0, 0.0)))))
    moved: list[Shape] = [*frames, *over((196.0, -58.0), (196.0, 56.0), 46.0), letter((70.0, -46.0), b.hand, 30.0)]
    for side, name in zip((-1.0, 0.0, 1.0), (middle, near, far), strict=True):
        moved.append(Label((349.0, side * 44.0 + 6.0), name.upper(), 16.0, bold=True))
    return Sheet([*moved, word((222.0, -66.0), "over both others")])


def _posts(wraps: int = _WRAPS) -> list[Shape]:
    ends = ((_LEFT, 0.0), (_RIGHT, 0.0))
    rope = Many(racetrack(ends, _POST, wraps).parts, _STRAND)
    return [rope, *(shape for each in ends for shape in post(each, _POST))]


def _endless_posts(b: Bench) -> Sheet:
    """Draw two posts, their spacing, and one strand tied off."""
    reach = _POST + 2.0
    start: Point = (_LEFT + 34.0, reach)
    strand = Path(
        start,
        (
            To((_LEFT, reach)),
            Arc((_LEFT, -reach), reach, clockwise=True),
            To((_RIGHT, -reach)),
            Arc((_RIGHT, reach), reach, clockwise=True),
            To((_RIGHT - 70.0, reach)),
        ),
        _STRAND,
    )
    knot = [
        Path(
            (start[0], reach - 6.0),
            (CubicTo((start[0] + 14.0, reach - 10.0), (start[0] + 14.0, reach + 12.0), (start[0], reach + 6.0)),),
            _STRAND,
        )
    ]
    ends = ((_LEFT, 0.0), (_RIGHT, 0.0))
    shapes: list[Shape] = [*(each for end in ends for each in post(end, _POST)), strand, *knot]
    shapes.append(head((_RIGHT - 74.0, reach), (-1.0, 0.0)))
    shapes.append(
        Dim((_LEFT - _POST, 0.0), (_RIGHT + _POST, 0.0), b.said("post_spacing", "post spacing"), 52.0, size=15.0)
    )
    return Sheet(
        [],
        [
            *shapes,
            Label((_LEFT + 58.0, reach + 5.0), "tie off", 14.0),
            Label((180.0, -26.0), "outside to outside", 13.0, "middle"),
        ],
    )


def _endless_wind(_: Bench) -> Sheet:
    """Draw several wraps side by side, a winding arrow, the ends by a post."""
    reach = _POST + 2.6 * _WRAPS
    shapes = _posts()
    for off in (0.0, 9.0):
        x = _LEFT + 30.0 + off
        shapes.append(
            Path(
                (x, reach - 1.0),
                (CubicTo((x + 2.0, reach + 8.0), (x + 4.0, reach + 12.0), (x + 12.0, reach + 14.0)),),
                _STRAND,
            )
        )
    shapes += arrow((150.0, -40.0), CubicTo((190.0, -46.0), (220.0, -46.0), (256.0, -40.0)), rim=False)
    return Sheet(
        [], [*shapes, word((204.0, -54.0), "side by side"), Label((_LEFT + 62.0, reach + 24.0), "ends by a post", 14.0)]
    )


def _turned(*, coil: bool) -> list[Shape]:
    """Draw both pairs of posts turned crosswise, with the stretches between close posts bare or served."""
    arm = 40.0
    shapes: list[Shape] = []
    parts: list[tuple[Point, tuple[PathStep, ...]]] = []
    for index in range(_WRAPS):
        r = _POST + 2.6 * (index + 0.5)
        corners: tuple[PathStep, ...] = (
            To((_RIGHT, -arm - r)),
            Arc((_RIGHT + r, -arm), r, clockwise=True),
            To((_RIGHT + r, arm)),
            Arc((_RIGHT, arm + r), r, clockwise=True),
            To((_LEFT, arm + r)),
            Arc((_LEFT - r, arm), r, clockwise=True),
            To((_LEFT - r, -arm)),
            Arc((_LEFT, -arm - r), r, clockwise=True),
        )
        parts.append(((_LEFT, -arm - r), corners))
    shapes.append(Many(tuple(parts), _STRAND))
    for x, side in ((_LEFT, -1.0), (_RIGHT, 1.0)):
        shapes.append(Line((x, -arm + _POST), (x, arm - _POST), Pen("quiet", 4.0)))
        shapes += [each for up in (-arm, arm) for each in post((x, up), _POST)]
        if coil:
            middle = x + side * (_POST + 1.3 * _WRAPS)
            shapes += served(leg((middle, arm), (middle, -arm)), 3.0, 2.0 * arm - 3.0, width=16.0, pitch=4.0)
    return shapes


def _endless_turn_posts(_: Bench) -> Sheet:
    """Draw the posts turned crosswise."""
    shapes = _turned(coil=False)
    for x, side in ((_LEFT, 1.0), (_RIGHT, -1.0)):
        shapes += arrow(
            (x + side * 34.0, 0.0),
            CubicTo((x + side * 34.0, -24.0), (x + side * 28.0, -36.0), (x + side * 14.0, -44.0)),
        )
    return Sheet([], [*shapes, word((180.0, 5.0), "turn crosswise")])


def _endless_serve_loop(b: Bench) -> Sheet:
    """Draw the served stretch between the close posts."""
    shapes = _turned(coil=True)
    x = _LEFT + 22.0
    shapes.append(Dim((x, 37.0), (x, -37.0), "", 0.0))
    return Sheet([], [*shapes, Label((x + 10.0, 5.0), b.said("serve_length", "served stretch"), 15.0, bold=True)])


def _endless_close_loop(b: Bench) -> Sheet:
    """Draw the served stretch round a post, both legs served together."""
    x, r, wide = 56.0, 20.0, 11.0
    throat, half = 132.0, 5.5
    there = CubicTo((throat - 26.0, half), (x + 26.0, r), (x, r))
    home = CubicTo((x + 26.0, -r), (throat - 26.0, -half), (throat, -half))
    loop = Way.along((throat, half), there, Arc((x, -r), r, clockwise=True), home)
    end = throat + 110.0
    strands = tuple(((end - 6.0, off), (To((354.0, off * 1.6)),)) for off in (-7.0, -4.2, -1.4, 1.4, 4.2, 7.0))
    shapes: list[Shape] = [*post((x, 0.0), 13.0), Many(strands, _STRAND)]
    shapes += served(loop, 0.0, loop.length, width=wide, pitch=4.0)
    shapes += served(leg((throat - 6.0, 0.0), (end, 0.0)), 0.0, 116.0, width=2.0 * wide + 3.0, pitch=4.0)
    shapes.append(Dim((throat - 6.0, 15.0), (end, 15.0), b.said("bound_length", "both legs together"), 16.0, size=14.0))
    return Sheet([], [*shapes, Line((x, -26.0), (x, -36.0), HAIR), Label((x, -42.0), "served loop", 14.0, "middle")])


def _served_loops() -> list[Shape]:
    """Draw both served loops of an endless string, each with its legs served together."""
    shapes: list[Shape] = []
    for x, way in ((30.0, 1.0), (330.0, -1.0)):
        loop = Way.along(
            (x + way * 54.0, 5.0),
            CubicTo((x + way * 30.0, 5.0), (x + way * 16.0, 14.0), (x, 14.0)),
            Arc((x, -14.0), 14.0, clockwise=way > 0.0),
            CubicTo((x + way * 16.0, -14.0), (x + way * 30.0, -5.0), (x + way * 54.0, -5.0)),
        )
        shapes += served(loop, 0.0, loop.length, width=10.0, pitch=4.0)
        near, far = sorted((x + way * 50.0, x + way * 92.0))
        shapes += served(leg((near, 0.0), (far, 0.0)), 0.0, far - near, width=24.0, pitch=4.0)
    return shapes


def _endless_both_loops(_: Bench) -> Sheet:
    """Draw the ring off its posts, both loops served and closed, its wraps lying straight and untwisted between."""
    wraps = tuple(((100.0, off), (To((260.0, off)),)) for off in (-7.0, -4.2, -1.4, 1.4, 4.2, 7.0))
    words = [Label((30.0, -30.0), "first", 14.0, "middle"), word((330.0, -30.0), "second")]
    words.append(Label((180.0, 34.0), "off the posts", 14.0, "middle"))
    return Sheet([], [Many(wraps, _STRAND), *_served_loops(), *words])


def _endless_twist(b: Bench) -> Sheet:
    """Draw the endless string off its posts, with a few turns put in."""
    body = Laid(leg((96.0, 0.0), (264.0, 0.0)), (CordStation(0.0, 10.0, b.lay * 0.5),), 2, ("a", "a"))
    shapes: list[Shape] = [*painted(body), *_served_loops()]
    shapes += straight((180.0, 40.0), (180.0, 18.0))
    return Sheet([], [*shapes, word((180.0, 58.0), "a few turns"), letter((180.0, -30.0), b.hand, 24.0)])


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


def _three_bundle_hang(b: Bench) -> Sheet:
    """Draw a string of three under its weight."""
    return hung(b, 3)


DRAWN = (
    _three_bundle_order,
    _three_bundle_loop,
    _three_bundle_counter,
    _three_bundle_splice,
    _three_bundle_body,
    _three_bundle_hang,
    _three_bundle_roll,
    _three_bundle_ply,
    _endless_posts,
    _endless_wind,
    _endless_turn_posts,
    _endless_serve_loop,
    _endless_close_loop,
    _endless_both_loops,
    _endless_twist,
)
