"""Serving the string, and what the arrow's nock sits on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw import FIRM, HAIR, LINE, Arc, Circle, CubicTo, Dim, Label, Line, Path, PathStep, Pen, Polyline, Shape, To
from calc.draw.cord import Way, served
from calc.draw.cord.arrows import arrow, letter, straight, word
from calc.draw.cord.props import cross_out, tick_off
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.parts import leg, plied

if TYPE_CHECKING:
    from calc.draw import Point
    from calc.geometry.lay import Hand

_THREAD = Pen("accent", 2.5)
_RIM = Pen("ground", 6.0)
_WIDE, _PITCH = 26.0, 9.0
_STRING = leg((4.0, 0.0), (354.0, 0.0))


def _base(b: Bench) -> list[Shape]:
    return list(plied(b, _STRING, bundle=9.0))


def thread(start: Point, *steps: PathStep) -> list[Shape]:
    """Return loose thread over whatever lies beneath.

    Parameters
    ----------
    start : Point
        Where it begins.
    *steps : PathStep
        In order.
    """
    return [Path(start, steps, _RIM), Path(start, steps, _THREAD)]


def _coil(start: float, end: float, hand: Hand, width: float = _WIDE, pitch: float = _PITCH) -> list[Shape]:
    return list(served(_STRING, start, end, width=width, pitch=pitch, hand=hand))


def _serving_where(b: Bench) -> Sheet:
    """Draw where the serving begins and ends about the nocking point."""
    nock = 128.0
    per_inch = 26.0
    shapes = [*_base(b), *_coil(nock - 4.0 - 2.0 * per_inch, nock - 4.0 + 5.0 * per_inch, b.hand, 24.0, 4.0)]
    shapes.append(Line((nock, -15.0), (nock, 15.0), Pen("accent", 7.0, cap="butt")))
    up = b.said("serving_above", "50 mm" if b.system == "metric" else "2 in")
    down = b.said("serving_below", "125 mm" if b.system == "metric" else "5 in")
    shapes.append(Dim((nock - 2.0 * per_inch, 14.0), (nock, 14.0), f"{up} above", 40.0, size=14.0))
    shapes.append(Dim((nock, 14.0), (nock + 5.0 * per_inch, 14.0), f"{down} below", 16.0, size=14.0))
    shapes += [Label((nock, -28.0), "nocking point", 14.0, "middle"), Label((20.0, -28.0), "up", 13.0, ink="quiet")]
    return Sheet([], [*shapes, Label((340.0, -28.0), "down", 13.0, "end", "quiet")])


def _serving_start(b: Bench) -> Sheet:
    """Draw the thread's end laid along the string, with the first turns over it."""
    shapes: list[Shape] = _base(b)
    shapes += thread((70.0, 8.0), CubicTo((90.0, 2.0), (120.0, 0.0), (150.0, 0.0)), To((240.0, 0.0)))
    shapes += _coil(110.0, 164.0, "Z")
    shapes += thread((168.0, 12.0), CubicTo((176.0, 30.0), (190.0, 50.0), (204.0, 70.0)))
    shapes += arrow((222.0, -34.0), CubicTo((252.0, -34.0), (252.0, 34.0), (222.0, 34.0)))
    words = [Label((288.0, -14.0), "short end", 14.0, "middle", backed=True), word((248.0, -44.0), "wind over it")]
    return Sheet([*shapes, *words, letter((138.0, -36.0), b.hand, 26.0)])


def _serving_wind(b: Bench) -> Sheet:
    """Draw turns that touch, and a gap between two."""
    shapes: list[Shape] = []
    for y, wrong in ((-46.0, False), (50.0, True)):
        way = leg((4.0, y), (354.0, y))
        shapes += plied(b, way, bundle=9.0)
        if wrong:
            shapes += served(way, 40.0, 96.0, width=_WIDE, pitch=_PITCH, hand=b.hand)
            for index in range(5):
                shapes += served(
                    way, 104.0 + 19.0 * index, 112.0 + 19.0 * index, width=_WIDE, pitch=_PITCH, hand=b.hand
                )
            shapes += [*cross_out((342.0, y - 26.0)), Label((296.0, y - 22.0), "gaps", 15.0, "middle", backed=True)]
        else:
            shapes += served(way, 40.0, 200.0, width=_WIDE, pitch=_PITCH, hand=b.hand)
            shapes += thread(
                (200.0, y - 12.0 if b.hand == "S" else y + 12.0),
                To((214.0, y - 60.0) if b.hand == "S" else (232.0, y + 48.0)),
            )
            shapes += [tick_off((342.0, y - 26.0)), word((268.0, y - 22.0), "close and hard")]
    return Sheet([], shapes)


def _finish(b: Bench, *, pulled: bool) -> Sheet:
    shapes: list[Shape] = _base(b)
    shapes += _coil(40.0, 190.0, "Z")
    if pulled:
        shapes += thread((192.0, 10.0), CubicTo((206.0, 26.0), (222.0, 10.0), (192.0, 0.0)))
        shapes += thread((112.0, -6.0), CubicTo((100.0, -24.0), (84.0, -38.0), (62.0, -46.0)))
        shapes += straight((58.0, -48.0), (20.0, -64.0))
        shapes += [Line((122.0, -18.0), (100.0, -34.0), Pen("ink", 3.0)), Label((138.0, -32.0), "trim here", 14.0)]
        return Sheet([*shapes, word((66.0, -70.0), "pull")])
    loop = Pen("ink", 2.0)
    ring = Path(
        (40.0, -26.0),
        (
            CubicTo((120.0, -12.0), (190.0, -6.0), (226.0, -6.0)),
            Arc((226.0, 6.0), 6.0, clockwise=True),
            CubicTo((190.0, 6.0), (120.0, -2.0), (36.0, -18.0)),
        ),
        loop,
    )
    shapes = [*_base(b), *_coil(40.0, 120.0, "Z"), ring, *_coil(120.0, 190.0, "Z")]
    shapes += thread(
        (192.0, 12.0),
        CubicTo((206.0, 40.0), (244.0, 30.0), (238.0, 2.0)),
        CubicTo((236.0, -16.0), (226.0, -10.0), (222.0, -30.0)),
    )
    words = [Label((30.0, -36.0), "spare loop", 14.0, "start"), word((262.0, -36.0), "end through")]
    shapes.append(Dim((120.0, 15.0), (190.0, 15.0), "", 14.0))
    return Sheet([*shapes, *words, Label((155.0, 50.0), "last 10 turns", 14.0, "middle")])


def _serving_finish(b: Bench) -> Sheet:
    """Draw the last turns over a loop of spare thread, the end through the loop."""
    return _finish(b, pulled=False)


def _serving_pulled(b: Bench) -> Sheet:
    """Draw the end drawn back under the turns and trimmed."""
    return _finish(b, pulled=True)


def nock_outline(left: float, y: float, half: float, wall: float = 9.0, long: float = 34.0) -> Path:
    """Return a nock seen from the side, its throat open to the left.

    Parameters
    ----------
    left : float
        The x of the throat's mouth.
    y : float
        The throat's middle line.
    half : float
        Half the throat's width, in drawing units.
    wall : float
        Thickness of each side.
    long : float
        Length of its straight sides, from the mouth to the round floor.
    """
    out = half + wall
    steps = (
        To((left + long, y - half)),
        Arc((left + long, y + half), half, clockwise=True),
        To((left, y + half)),
        To((left, y + out)),
        To((left + long + 26.0, y + out)),
        To((left + long + 40.0, y + 6.0)),
        To((left + long + 40.0, y - 6.0)),
        To((left + long + 26.0, y - out)),
        To((left, y - out)),
    )
    return Path((left, y - half), steps, FIRM, "tint", closed=True)


def _nock_fit(_: Bench) -> Sheet:
    """Draw an arrow that hangs by its nock and is tapped, and nocks that are too tight and too loose."""
    string = [Line((4.0, -30.0), (120.0, -30.0), Pen("ink", 2.0)), Line((34.0, -30.0), (90.0, -30.0), Pen("ink", 8.0))]
    down = Path(
        (56.0, -40.0),
        (
            To((56.0, -30.0)),
            Arc((68.0, -30.0), 6.0, clockwise=True),
            To((68.0, -40.0)),
            To((74.0, -40.0)),
            To((74.0, -14.0)),
            To((66.0, -4.0)),
            To((66.0, 84.0)),
            To((58.0, 84.0)),
            To((58.0, -4.0)),
            To((50.0, -14.0)),
            To((50.0, -40.0)),
        ),
        FIRM,
        "ground",
        closed=True,
    )
    shapes: list[Shape] = [
        *string,
        down,
        Circle((62.0, -30.0), 4.5, None, "ink"),
        *straight((110.0, -70.0), (96.0, -42.0)),
    ]
    shapes += [word((116.0, -76.0), "tap")]
    for y, radius, text in ((-34.0, 15.0, "too tight"), (52.0, 6.0, "too loose")):
        shapes += [nock_outline(214.0, y, 11.0), Circle((204.0 if radius > 11.0 else 240.0, y), radius, LINE, "ink")]
        shapes += [*cross_out((318.0, y), 7.0), Label((260.0, y + 38.0), text, 14.0, "middle")]
    return Sheet([], [*shapes, Label((62.0, 104.0), "just holds", 14.0, "middle"), tick_off((100.0, 60.0))])


def _nock_find_square(b: Bench) -> Sheet:
    """Draw a square along the string, its arm on the arrow rest, and the mark where it meets the string."""
    x = 60.0
    shapes: list[Shape] = [*plied(b, leg((x, -84.0), (x, 84.0)), bundle=5.0)]
    shapes += served(leg((x, -70.0), (x, 70.0)), 0.0, 140.0, width=14.0, pitch=4.0, hand=b.hand)
    arm = ((x + 9.0, -56.0), (x + 20.0, -56.0), (x + 20.0, -5.0), (336.0, -5.0), (336.0, 4.0), (x + 9.0, 4.0))
    shapes += [Polyline(arm, LINE, "tint", closed=True), Line((x - 12.0, 0.0), (x + 9.0, 0.0), Pen("accent", 3.0))]
    shelf = (CubicTo((318.0, 40.0), (322.0, 20.0), (310.0, 6.0)), To((352.0, 6.0)), To((352.0, 60.0)))
    shapes.append(Path((330.0, 60.0), shelf, LINE, "tint", closed=True))
    words = [word((x - 18.0, 5.0), "mark", "end"), Label((180.0, -16.0), "square", 15.0, "middle")]
    return Sheet([], [*shapes, *words, Label((306.0, 46.0), "arrow rest", 14.0, "end")])


def _nock_square(b: Bench) -> Sheet:
    """Draw the string upright and the arrow level, the nocking point a little above square."""
    x = 60.0
    shapes: list[Shape] = [*plied(b, leg((x, -108.0), (x, 96.0)), bundle=5.0)]
    shapes += served(leg((x, -84.0), (x, 76.0)), 0.0, 160.0, width=14.0, pitch=4.0, hand=b.hand)
    shapes += [Line((x + 10.0, 0.0), (346.0, 0.0), Pen("quiet", 1.0, dash=True))]
    shapes += [Polyline(((x + 8.0, -4.0), (346.0, -4.0), (346.0, 4.0), (x + 8.0, 4.0)), LINE, "tint", closed=True)]
    arrow_y = -26.0
    shapes += [
        Line((x + 8.0, arrow_y), (346.0, arrow_y + 14.0), Pen("ink", 5.0)),
        nock_outline(x - 8.0, arrow_y, 8.0, 5.0, 12.0),
    ]
    shapes.append(Line((x - 9.0, arrow_y - 17.0), (x + 9.0, arrow_y - 17.0), Pen("accent", 5.0, cap="butt")))
    said = b.said("nocking_point", "a little above")
    shapes.append(Dim((x - 10.0, 0.0), (x - 10.0, arrow_y), "", -14.0))
    words: list[Shape] = [Label((150.0, 24.0), "square to the string", 14.0), Label((200.0, -44.0), "arrow", 14.0)]
    words += [
        Polyline(((36.0, 0.0), (36.0, 46.0), (72.0, 46.0)), HAIR),
        Label((78.0, 51.0), said, 14.0, bold=True),
        Label((x + 20.0, -62.0), "nocking point", 14.0),
    ]
    return Sheet([], [*shapes, *words, Line((x + 12.0, arrow_y - 17.0), (x + 30.0, -58.0), HAIR)])


def _upright(b: Bench, x: float, tall: float, width: float = 26.0) -> list[Shape]:
    """Draw a served string that stands upright."""
    way = leg((x, -tall), (x, tall))
    return [*plied(b, way, bundle=8.0), *served(way, 16.0, 2.0 * tall - 16.0, width=width, pitch=6.0, hand=b.hand)]


def _band(x: float, y: float, tall: float, wide: float) -> list[Shape]:
    """Draw a tied thread band on an upright string."""
    way = Way([(x, y - tall / 2.0), (x, y + tall / 2.0)])
    return list(served(way, 0.0, tall, width=wide, pitch=4.5, ink="accent"))


def _nock_bands(b: Bench) -> Sheet:
    """Draw two tied bands with the nock between them, and a paper's thickness of play."""
    x = 120.0
    shapes = _upright(b, x, 100.0)
    shapes += [nock_outline(x - 26.0, 0.0, 13.5, 12.0, 34.0), Line((x + 46.0, 0.0), (346.0, 0.0), Pen("ink", 9.0))]
    shapes += _upright_short(b, x)
    shapes += [*_band(x, -40.0, 20.0, 36.0), *_band(x, 41.0, 20.0, 36.0)]
    shapes += [Line((x + 24.0, -28.0), (x + 90.0, -52.0), HAIR), Label((x + 94.0, -50.0), "paper's play", 14.0)]
    words = [Label((x - 30.0, -36.0), "band", 14.0, "end"), Label((x - 30.0, 46.0), "band", 14.0, "end")]
    return Sheet([], [*shapes, *words, Label((300.0, 24.0), "arrow", 14.0, "middle", "quiet")])


def _upright_short(b: Bench, x: float) -> list[Shape]:
    """Draw the served string once more where it lies in the throat."""
    way = leg((x, -13.0), (x, 13.0))
    return list(served(way, 0.0, 26.0, width=26.0, pitch=6.0, hand=b.hand))


def _nock_tie(b: Bench) -> Sheet:
    """Draw one band: half knots in front and behind by turns."""
    x = 150.0
    shapes = _upright(b, x, 96.0)
    for index in range(4):
        y = -36.0 + 20.0 * index
        shapes += thread((x - 17.0, y + 4.0), CubicTo((x - 8.0, y - 6.0), (x + 8.0, y + 10.0), (x + 17.0, y)))
        if index % 2 == 0:
            shapes += [Circle((x, y + 2.0), 5.0, Pen("accent", 2.5), "ground")]
    shapes += thread((x - 17.0, 30.0), CubicTo((x - 40.0, 36.0), (x - 60.0, 52.0), (x - 84.0, 56.0)))
    shapes += thread((x + 17.0, 26.0), CubicTo((x + 40.0, 32.0), (x + 60.0, 50.0), (x + 84.0, 54.0)))
    words: list[Shape] = [
        Line((x + 8.0, -34.0), (x + 56.0, -44.0), HAIR),
        Label((x + 60.0, -40.0), "knot in front", 14.0),
    ]
    words += [Line((x + 18.0, -14.0), (x + 56.0, -14.0), HAIR), Label((x + 60.0, -9.0), "knot behind", 14.0)]
    return Sheet([], [*shapes, *words])


DRAWN = (
    _serving_where,
    _serving_start,
    _serving_wind,
    _serving_finish,
    _serving_pulled,
    _nock_fit,
    _nock_find_square,
    _nock_square,
    _nock_bands,
    _nock_tie,
)
