"""What is seen when a string is not as it should be: one picture for each fault."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw import Circle, Curve, FIRM, HAIR, LINE, Label, Line, Path, Pen, Polyline, Shape
from calc.draw.cord.arrows import straight, word
from calc.draw.cord.props import cross_out, dashed
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


def string_too_long(_: Bench) -> Sheet:
    """Draw a braced bow whose string lies nearer to the grip than was wanted."""
    return _braced_at(0.34, "too long: braces low", long=True)


def string_too_short(_: Bench) -> Sheet:
    """Draw a braced bow whose string stands further from the grip than was wanted."""
    return _braced_at(0.86, "too short: braces high", long=False)


def height_creeps(_: Bench) -> Sheet:
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


def nock_too_tight(_: Bench) -> Sheet:
    """Draw a served string that is thicker than the throat of the nock."""
    return _nock(19.0, 130.0, "string thicker than nock")


def nock_too_loose(_: Bench) -> Sheet:
    """Draw a served string with room round it in the throat of the nock."""
    return _nock(7.0, 184.0, "room round the string")


def broken_strand(b: Bench) -> Sheet:
    """Draw one strand end standing out of the cord."""
    shapes: list[Shape] = [*plied(b, leg((4.0, 0.0), (354.0, 0.0)), bundle=12.0)]
    shapes.append(Path((160.0, -12.0), (Curve((172.0, -30.0), (190.0, -40.0), (206.0, -36.0)),), Pen("a", 2.5)))
    return Sheet([], [*shapes, word((190.0, -52.0), "broken strand", size=15.0)])


def fuzz(b: Bench) -> Sheet:
    """Draw fuzz on the string just above the serving, where an arm guard touches."""
    shapes: list[Shape] = [*plied(b, leg((4.0, 0.0), (354.0, 0.0)), bundle=11.0)]
    for index in range(20):
        x, up = 92.0 + 5.4 * index, -14.0 - 3.0 * (index % 3)
        shapes.append(Path((x, -9.0), (Curve((x + 3.0, up), (x - 4.0, up), (x + 2.0, up - 3.0)),), Pen("quiet", 0.9)))
    shapes += [Polyline(((214.0, -14.0), (352.0, -14.0), (352.0, 14.0), (214.0, 14.0)), LINE, "ground", closed=True)]
    shapes += [Line((222.0 + 8.0 * k, -14.0), (218.0 + 8.0 * k, 14.0), HAIR) for k in range(17)]
    words = [
        word((146.0, -36.0), "fuzz"),
        Label((284.0, 36.0), "serving", 14.0, "middle"),
        Label((20.0, 36.0), "up", 13.0),
    ]
    return Sheet([], [*shapes, *words])


def string_slaps(_: Bench) -> Sheet:
    """Draw a string that runs past its resting line towards the grip and the wrist."""
    shapes, one, two = bow(0.5)
    y = one[1]
    shapes += [Line(one, two, _STRING)]
    shapes += [Path(one, (Curve((130.0, y + off), (230.0, y + off), two),), _GHOST) for off in (-22.0, 22.0)]
    for x in (98.0, 107.0, 116.0, 244.0, 253.0, 262.0):
        bent = 5.0 if x > 180.0 else -5.0
        wave = Curve((x + bent, y - 6.0), (x + bent, y + 6.0), (x, y + 16.0))
        shapes.append(Path((x, y - 16.0), (wave,), Pen("accent", 1.5)))
    return Sheet([], [*shapes, word((180.0, y + 44.0), "slaps past its place")])


def bow_cracks(_: Bench) -> Sheet:
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


DRAWN = (
    string_too_long,
    string_too_short,
    height_creeps,
    nock_too_tight,
    nock_too_loose,
    broken_strand,
    fuzz,
    string_slaps,
    bow_cracks,
)
