"""What is looked at on bow and string: loops on their limbs, and one picture for each fault."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw import FIRM, HAIR, LINE, Circle, CubicTo, Dim, Label, Line, Path, Pen, Polyline, Shape
from calc.draw.cord import Way
from calc.draw.cord.arrows import straight, word
from calc.draw.cord.props import cross_out, dashed, tick_off
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.bows import bow, limb_line
from calc.draw.figures.parts import leg, plied
from calc.draw.figures.servings import nock_outline

if TYPE_CHECKING:
    from calc.draw import Point

_STRING = Pen("ink", 2.0)
_WANTED = Pen("accent", 1.5, dash=True)
_GHOST = Pen("quiet", 1.0, dash=True)


def _braced_at(bend: float, said: str, *, long: bool) -> Sheet:
    """Draw a braced bow and the height that was wanted, broken."""
    shapes, one, two = bow(bend)
    wanted = limb_line(0.6)[0][1]
    y = one[1]
    shapes += [Line(one, two, _STRING), Line((40.0, wanted), (320.0, wanted), _WANTED)]
    shapes += [Line((180.0, 3.0), (180.0, min(y, wanted) - 1.0), HAIR)]
    shapes += straight((230.0, wanted), (230.0, y))
    at = (44.0, wanted + 16.0) if long else (110.0, wanted - 6.0)
    return Sheet([], [*shapes, Label(at, "wanted", 13.0, ink="accent"), word((180.0, -24.0), said)])


def _string_too_long(_: Bench) -> Sheet:
    """Draw a braced bow whose string lies nearer to the grip than was wanted."""
    return _braced_at(0.34, "too long: braces low", long=True)


def _string_too_short(_: Bench) -> Sheet:
    """Draw a braced bow whose string stands further from the grip than was wanted."""
    return _braced_at(0.86, "too short: braces high", long=False)


def _height_creeps(_: Bench) -> Sheet:
    """Draw a brace height that falls from one session to the next and does not come to rest."""
    left, foot = 44.0, 70.0
    shapes: list[Shape] = [Line((left, foot), (344.0, foot), LINE), Line((left, foot), (left, -56.0), LINE)]
    points: tuple[Point, ...] = tuple((left + 20.0 + 56.0 * k, -40.0 + 19.0 * k) for k in range(5))
    shapes += [Polyline(points, Pen("a", 2.5)), *(Circle(at, 4.5, Pen("accent", 2.5), "ground") for at in points)]
    words = [
        Label((left + 8.0, -58.0), "brace height", 14.0, ink="quiet"),
        Label((344.0, foot + 18.0), "sessions", 14.0, "end"),
    ]
    return Sheet([], [*shapes, *words, word((250.0, -20.0), "goes on falling")])


def _nock(radius: float, at: float, said: str) -> Sheet:
    """Draw a nock from the side with the string before it or lost in it."""
    shapes: list[Shape] = [nock_outline(150.0, 0.0, 14.0, 12.0, 44.0), Circle((at, 0.0), radius, LINE, "ink")]
    shapes += [Line((236.0, 0.0), (350.0, 0.0), Pen("ink", 9.0, cap="butt")), *cross_out((60.0, 0.0))]
    return Sheet([], [*shapes, Label((180.0, 52.0), said, 15.0, "middle", bold=True)])


def _nock_too_tight(_: Bench) -> Sheet:
    """Draw a served string that is thicker than the throat of the nock."""
    return _nock(19.0, 130.0, "string thicker than nock")


def _nock_too_loose(_: Bench) -> Sheet:
    """Draw a served string with room round it in the throat of the nock."""
    return _nock(7.0, 184.0, "room round the string")


def _broken_strand(b: Bench) -> Sheet:
    """Draw one strand end standing out of the cord."""
    shapes: list[Shape] = [*plied(b, leg((4.0, 0.0), (354.0, 0.0)), bundle=12.0)]
    shapes.append(Path((160.0, -12.0), (CubicTo((172.0, -30.0), (190.0, -40.0), (206.0, -36.0)),), Pen("a", 2.5)))
    return Sheet([], [*shapes, word((190.0, -52.0), "broken strand", size=15.0)])


def _fuzz(b: Bench) -> Sheet:
    """Draw fuzz on the string just above the serving, where an arm guard touches."""
    shapes: list[Shape] = [*plied(b, leg((4.0, 0.0), (354.0, 0.0)), bundle=11.0)]
    for index in range(20):
        x, up = 92.0 + 5.4 * index, -14.0 - 3.0 * (index % 3)
        shapes.append(Path((x, -9.0), (CubicTo((x + 3.0, up), (x - 4.0, up), (x + 2.0, up - 3.0)),), Pen("quiet", 0.9)))
    shapes += [Polyline(((214.0, -14.0), (352.0, -14.0), (352.0, 14.0), (214.0, 14.0)), LINE, "ground", closed=True)]
    shapes += [Line((222.0 + 8.0 * k, -14.0), (218.0 + 8.0 * k, 14.0), HAIR) for k in range(17)]
    words = [
        word((146.0, -36.0), "fuzz"),
        Label((284.0, 36.0), "serving", 14.0, "middle"),
        Label((20.0, 36.0), "up", 13.0),
    ]
    return Sheet([], [*shapes, *words])


def _string_slaps(_: Bench) -> Sheet:
    """Draw a string that runs past its resting line towards the grip and the wrist."""
    shapes, one, two = bow(0.5)
    y = one[1]
    shapes += [Line(one, two, _STRING)]
    shapes += [Path(one, (CubicTo((130.0, y + off), (230.0, y + off), two),), _GHOST) for off in (-22.0, 22.0)]
    for x in (98.0, 107.0, 116.0, 244.0, 253.0, 262.0):
        bent = 5.0 if x > 180.0 else -5.0
        wave = CubicTo((x + bent, y - 6.0), (x + bent, y + 6.0), (x, y + 16.0))
        shapes.append(Path((x, y - 16.0), (wave,), Pen("accent", 1.5)))
    return Sheet([], [*shapes, word((180.0, y + 44.0), "slaps past its place")])


def _bow_cracks(_: Bench) -> Sheet:
    """Draw a resting bow with where to look for cracks: both limbs, grooves, the belly, and the string beside it."""
    shapes, one, two = bow(0.16)
    crack: tuple[Point, ...] = ((94.0, 4.0), (98.0, -2.0), (95.0, -5.0), (100.0, -9.0))
    shapes.append(Polyline(crack, Pen("accent", 3.0)))
    for at in ((97.0, -2.0), (264.0, -2.0), one, two):
        shapes.append(Circle(at, 17.0, Pen("accent", 2.0, dash=True)))
    shapes += [
        Line((30.0, 62.0), (330.0, 62.0), _STRING),
        Circle((30.0, 62.0), 6.0, FIRM),
        Circle((330.0, 62.0), 6.0, FIRM),
    ]
    shapes += [
        *cross_out((180.0, -44.0)),
        dashed(((118.0, 50.0), (240.0, 50.0), (240.0, 74.0), (118.0, 74.0), (118.0, 50.0))),
    ]
    words = [Label((198.0, -39.0), "do not draw", 15.0, bold=True), word((97.0, -34.0), "crack")]
    return Sheet([], [*shapes, *words, Label((180.0, 94.0), "look at the string", 14.0, "middle")])


_TIP, _TAPER = 12.0, 0.075


def _half(x: float) -> float:
    """Return half the limb's width, so far from its tip."""
    return _TIP + _TAPER * x


def _limb(y: float, right: float = 352.0) -> Shape:
    """Draw a limb from its tip at the left, its groove at x = 40, wider towards the grip."""
    groove = 40.0
    upper: list[Point] = [(8.0, -_half(0.0) + 4.0), (groove - 8.0, -_half(groove)), (groove, -_half(groove) + 5.0)]
    upper += [(groove + 8.0, -_half(groove)), (right, -_half(right))]
    lower = [(x, -up) for x, up in reversed(upper)]
    return Polyline(tuple((x, y + up) for x, up in (*upper, *lower)), FIRM, "tint", closed=True)


def _round(b: Bench, x: float, y: float, half: float, throat: float) -> list[Shape]:
    """Draw a loop across a limb at x, as wide as told, closing at its throat further down the limb."""
    shapes: list[Shape] = []
    for side in (-1.0, 1.0):
        shapes += plied(
            b, Way.smooth((x, y + side * half), (x + 26.0, y + side * 0.62 * half), (throat, y)), bundle=4.5
        )
    shapes += plied(b, Way.smooth((x, y - half), (x - 5.0, y), (x, y + half)), bundle=4.5)
    return shapes


def _loop_slides(b: Bench) -> Sheet:
    """Draw one tip twice: its loop in the groove; its loop slid down the limb, which must fit round it there."""
    shapes: list[Shape] = [_limb(-52.0), *_round(b, 40.0, -52.0, 14.0, 96.0)]
    shapes += [*plied(b, leg((94.0, -52.0), (352.0, -52.0)), bundle=4.5)]
    low = 52.0
    shapes += [_limb(low), *_round(b, 176.0, low, _half(176.0) + 4.0, 246.0)]
    shapes += [*plied(b, Way.smooth((244.0, low), (300.0, low + 8.0), (352.0, low + 2.0)), bundle=4.5)]
    shapes += straight((58.0, low - 34.0), (160.0, low - 34.0))
    shapes.append(Dim((176.0, low - _half(176.0)), (176.0, low + _half(176.0)), "", -44.0))
    words = [Label((40.0, -20.0), "nocked: small", 14.0, "start"), word((108.0, low - 42.0), "slides down")]
    words += [Label((146.0, low + 46.0), "as wide as here", 14.0, "middle")]
    return Sheet([], [*shapes, *words])


def _loop_slid_down(b: Bench) -> Sheet:
    """Draw the resting bow: the lower loop in its groove, the upper one slid down the limb, the string slack."""
    limb = Pen("ink", 6.0)
    shapes: list[Shape] = [Path((20.0, 0.0), (CubicTo((120.0, -22.0), (240.0, -22.0), (340.0, 0.0)),), limb)]
    shapes.append(Line((164.0, -17.0), (196.0, -17.0), Pen("ink", 12.0, cap="butt")))
    shapes += [Line((x, -9.0), (x, 9.0), Pen("ink", 2.0)) for x in (28.0, 332.0)]
    slack = Way.smooth((338.0, 3.0), (250.0, 34.0), (150.0, 30.0), (86.0, -2.0))
    shapes += plied(b, slack, bundle=3.6)
    shapes += [Circle((330.0, 0.0), 7.0, Pen("a", 3.0)), Circle((80.0, -9.0), 11.0, Pen("a", 3.0))]
    shapes += straight((34.0, -40.0), (76.0, -34.0))
    words = [word((24.0, -50.0), "slid down", "start"), Label((20.0, 26.0), "upper tip", 13.0)]
    words += [
        Label((356.0, 54.0), "in its groove", 14.0, "end", bold=True),
        Label((160.0, 54.0), "string slack", 14.0, "middle"),
    ]
    return Sheet([], [*shapes, *words, Line((330.0, 10.0), (322.0, 40.0), HAIR)])


def _loop_too_small(b: Bench) -> Sheet:
    """Draw a loop that sticks on the limb before it is down where it must lie."""
    shapes: list[Shape] = [_limb(0.0), *_round(b, 96.0, 0.0, _half(96.0) + 1.0, 156.0)]
    shapes += plied(b, Way.smooth((154.0, 0.0), (260.0, 10.0), (352.0, 4.0)), bundle=4.5)
    shapes += [*straight((110.0, -42.0), (196.0, -42.0)), *cross_out((212.0, -42.0))]
    shapes.append(Dim((236.0, -_half(236.0)), (236.0, _half(236.0)), "", 0.0))
    return Sheet(
        [], [*shapes, word((150.0, -54.0), "sticks here"), Label((236.0, 52.0), "must pass here", 14.0, "middle")]
    )


def _loop_off_centre(b: Bench) -> Sheet:
    """Draw the belly of a braced bow with its string over the middle, and with the string to one side."""
    shapes: list[Shape] = []
    for y, off in ((-40.0, 0.0), (44.0, 13.0)):
        body = ((10.0, y - 5.0), (140.0, y - 15.0), (220.0, y - 15.0), (350.0, y - 5.0))
        under = tuple((x, 2.0 * y - up) for x, up in reversed(body))
        shapes.append(Polyline((*body, *under), FIRM, "tint", closed=True))
        shapes.append(Line((180.0, y - 15.0), (180.0, y + 15.0), HAIR))
        shapes += plied(b, Way.smooth((18.0, y + 0.3 * off), (180.0, y + 0.7 * off), (342.0, y)), bundle=3.6)
        if off:
            shapes += [*cross_out((180.0, y + 34.0)), Label((198.0, y + 39.0), "to one side", 14.0)]
        else:
            shapes += [tick_off((180.0, y + 30.0)), Label((198.0, y + 35.0), "over the middle", 14.0)]
    return Sheet([], [*shapes, word((180.0, -66.0), "look along it")])


DRAWN = (
    _string_too_long,
    _string_too_short,
    _height_creeps,
    _nock_too_tight,
    _nock_too_loose,
    _broken_strand,
    _fuzz,
    _string_slaps,
    _bow_cracks,
    _loop_slides,
    _loop_slid_down,
    _loop_too_small,
    _loop_off_centre,
)
