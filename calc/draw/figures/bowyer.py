"""What a bowyer does with cord: hears a string, tillers, braces with a stringer, splices short fibre in."""

from __future__ import annotations

from math import pi, sin
from typing import TYPE_CHECKING

from calc.draw import FIRM, HAIR, LINE, Arc, Circle, CubicTo, Dim, Label, Line, Many, Path, Pen, Polyline, To
from calc.draw.cord import CordStation, Laid, Way, painted
from calc.draw.cord.arrows import arrow, word
from calc.draw.cord.props import box, ground_line
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.bows import bow, limb_line
from calc.draw.figures.parts import leg, plied, vee

if TYPE_CHECKING:
    from calc.draw import Point, Shape
    from calc.draw.cord.laid import Name

_STRING = Pen("ink", 2.0)
_SWING = Pen("quiet", 1.0, dash=True)


def _swing(one: Point, two: Point, high: float) -> Path:
    """Return the shape of a string that swings as a whole: half a wave between its nocks."""
    wide = two[0] - one[0]
    slope = high * pi / wide
    points = [(one[0] + wide * k / 4.0, one[1] + high * sin(pi * k / 4.0)) for k in range(5)]
    slopes = [slope, slope * sin(pi / 4.0), 0.0, -slope * sin(pi / 4.0), -slope]
    third = wide / 12.0
    steps = tuple(
        CubicTo(
            (points[k][0] + third, points[k][1] + third * slopes[k]),
            (points[k + 1][0] - third, points[k + 1][1] - third * slopes[k + 1]),
            points[k + 1],
        )
        for k in range(4)
    )
    return Path(one, steps, _SWING)


def _pluck(b: Bench) -> Sheet:
    """Draw a braced bow as its archer sees it, the string in front, moved sideways: it swings as a whole."""
    one, two, middle = (20.0, 0.0), (340.0, 0.0), 180.0
    edge = ((20.0, -4.0), (90.0, -11.0), (150.0, -13.0), (210.0, -13.0), (270.0, -11.0), (340.0, -4.0))
    limbs = Polyline((*edge, *((x, -y) for x, y in reversed(edge))), LINE, "tint", closed=True)
    grip = Polyline(((156.0, -13.0), (204.0, -13.0), (204.0, 13.0), (156.0, 13.0)), LINE, "ground", closed=True)
    shapes: list[Shape] = [limbs, grip, _swing(one, two, 34.0), _swing(one, two, -34.0), Line(one, two, _STRING)]
    shapes += [Line((middle - 26.0, 0.0), (middle + 26.0, 0.0), Pen("ink", 4.0))]
    shapes += arrow((middle, 30.0), To((middle, -30.0)), both=True)
    words = [word((middle + 12.0, -42.0), "across the bow", "start")]
    words += [Label((middle, 62.0), b.said("note_wanted", "one low note"), 15.0, "middle", bold=True)]
    words.append(Label((20.0, 62.0), "no arrow", 14.0, ink="quiet"))
    words.append(Label((340.0, 62.0), "not drawn", 14.0, "end", "quiet"))
    return Sheet([], [*shapes, *words])


def _old_loop(b: Bench) -> Sheet:
    """Draw an old string: a loop pressed flat with its inside measured, and turns counted over a tape."""
    throat, end, half, wide = 150.0, 40.0, 5.0, 8.0
    sides: list[Shape] = [Line((throat, side * half), (end, side * half), Pen("a", wide)) for side in (-1.0, 1.0)]
    bend = Path((end, -half), (Arc((end, half), half, clockwise=False),), Pen("a", wide))
    body = plied(b, leg((throat - 2.0, 0.0), (348.0, 0.0)))
    mark = Line((throat, -22.0), (throat, 22.0), Pen("accent", 2.0))
    shapes: list[Shape] = [*sides, bend, *body, mark, Dim((end - half + wide / 2.0, -12.0), (throat, -12.0), "", -22.0)]
    shapes += [Line((190.0, 24.0), (340.0, 24.0), HAIR)]
    shapes += [Line((190.0 + 30.0 * k, 24.0), (190.0 + 30.0 * k, 32.0), HAIR) for k in range(6)]
    words = [Label((96.0, -44.0), b.said("loop_inside_upper", "inside"), 15.0, "middle", bold=True)]
    words.append(Label((throat + 6.0, -26.0), "pen line", 14.0, ink="quiet"))
    words.append(Label((265.0, 52.0), "count the turns", 14.0, "middle", bold=True))
    return Sheet([], [*shapes, *words])


def _pocket(b: Bench) -> Sheet:
    """Draw the leather of a pocket, laid flat with its fold and seams, and the pocket folded over a tip."""
    left, right, top, low = 30.0, 110.0, -70.0, 70.0
    shapes: list[Shape] = [box(left, top, right, low), Line((left - 8.0, 0.0), (right + 8.0, 0.0), _SWING)]
    shapes += [Line((x, top + 4.0), (x, low - 4.0), _SWING) for x in (left + 8.0, right - 8.0)]
    shapes += [Dim((left, low), (right, low), "", 14.0), Dim((right, low), (right, top), "", 14.0)]
    tip = ((350.0, -12.0), (236.0, -9.0), (226.0, 0.0), (236.0, 9.0), (350.0, 12.0))
    shapes += [Polyline(tip, LINE, "ground"), box(216.0, -18.0, 286.0, 18.0)]
    shapes += [Line((222.0, y), (286.0, y), _SWING) for y in (-14.0, 14.0)]
    shapes += [Line((216.0, 0.0), (180.0, 44.0), Pen("ink", 3.0))]
    words = [Label(((left + right) / 2.0, low + 36.0), b.said("pocket_lower", "across"), 14.0, "middle", bold=True)]
    words += [Label((right + 28.0, 5.0), b.said("pocket_long", "along"), 14.0, bold=True)]
    words += [
        Label((left + 14.0, -6.0), "fold", 13.0, ink="quiet"),
        Label((250.0, -28.0), "sewn twice", 14.0, "middle"),
    ]
    words += [
        Label((172.0, 62.0), "cord", 14.0, "middle"),
        Label((330.0, 32.0), "tip and loop", 13.0, "middle", "quiet"),
    ]
    return Sheet([], [*shapes, *words])


def _stringer_ends(_: Bench) -> Sheet:
    """Draw both tips: a pocket over the lower one with its loop, a cap beyond the groove of the upper one."""
    shapes: list[Shape] = []
    for left, name in ((10.0, "lower"), (196.0, "upper")):
        limb = ((left, -10.0), (left + 120.0, -7.0), (left + 130.0, 0.0), (left + 120.0, 7.0), (left, 10.0))
        shapes.append(Polyline(limb, LINE, "tint", closed=True))
        groove = left + 92.0
        shapes += [Line((groove, -9.0), (groove + 6.0, 9.0), Pen("ink", 3.0))]
        if name == "lower":
            shapes += [Line((groove, 8.0), (left, 34.0), Pen("b", 4.0)), box(groove - 24.0, -14.0, left + 138.0, 14.0)]
        else:
            shapes += [
                box(groove + 14.0, -12.0, left + 138.0, 12.0),
                Line((left + 30.0, 14.0), (left, 26.0), Pen("b", 4.0)),
            ]
            shapes += [*arrow((left + 34.0, -24.0), To((groove - 6.0, -24.0)))]
        shapes.append(Line((left + 132.0, 12.0), (left + 96.0, 62.0), Pen("ink", 3.0)))
        shapes.append(Label((left + 70.0, 86.0), f"{name} tip", 14.0, "middle", bold=True))
    words = [Label((80.0, -26.0), "pocket", 14.0, "middle"), Label((318.0, -26.0), "cap", 14.0, "middle")]
    words += [word((226.0, -36.0), "loop slides", "start")]
    return Sheet([], [*shapes, *words])


def _stringer_whole(b: Bench) -> Sheet:
    """Draw a whole stringer: its cord with a knotted loop through the pocket at one end and the cap at the other."""
    shapes: list[Shape] = [box(14.0, -20.0, 66.0, 20.0), box(302.0, -15.0, 342.0, 15.0)]
    shapes += [Line((66.0, 0.0), (302.0, 0.0), Pen("ink", 3.0))]
    shapes += [Circle((x, 0.0), 6.0, FIRM, "tint") for x in (82.0, 286.0)]
    shapes += [Dim((14.0, 26.0), (342.0, 26.0), "", 14.0)]
    words = [Label((178.0, 66.0), b.said("stringer_length", "length"), 15.0, "middle", bold=True)]
    words += [Label((40.0, -30.0), "pocket", 14.0, "middle"), Label((322.0, -30.0), "cap", 14.0, "middle")]
    words += [
        Label((82.0, -14.0), "knot", 13.0, "middle", "quiet"),
        Label((286.0, -14.0), "knot", 13.0, "end", "quiet"),
    ]
    return Sheet([], [*shapes, *words])


def _tillering_string(b: Bench) -> Sheet:
    """Draw a string with one long loop, a plied body and a whipped end, and the hitch that sets its length."""
    shapes: list[Shape] = [*plied(b, leg((108.0, 0.0), (300.0, 0.0)))]
    shapes += [Path((108.0, -4.0), (CubicTo((80.0, -26.0), (24.0, -24.0), (22.0, 0.0)),
                                    CubicTo((24.0, 24.0), (80.0, 26.0), (108.0, 4.0))), Pen("a", 7.0))]  # fmt: skip
    shapes += [Line((300.0, 0.0), (344.0, 0.0), Pen("a", 7.0)), box(330.0, -6.0, 346.0, 6.0)]
    shapes += [Dim((22.0, 26.0), (108.0, 26.0), "", 12.0)]
    words = [Label((65.0, 62.0), "long loop", 15.0, "middle", bold=True), Label((338.0, 30.0), "whipped", 14.0, "end")]
    words.append(Label((214.0, 44.0), "as your longest bow", 14.0, "middle", "quiet"))
    return Sheet([], [*shapes, *words])


def _tiller_tree(_: Bench) -> Sheet:
    """Draw a bow on a tillering tree: its grip in a cradle, a long string pulled down over a pulley, a scale."""
    belly = limb_line(0.4)
    shapes: list[Shape] = [*bow(0.4)[0], box(160.0, -8.0, 164.0, 12.0), box(196.0, -8.0, 200.0, 12.0)]
    shapes += [box(160.0, 6.0, 200.0, 14.0), box(172.0, 14.0, 188.0, 196.0)]
    low = 96.0
    shapes += [Polyline((belly[0], (180.0, low), belly[-1]), _STRING), Line((180.0, low), (180.0, 176.0), LINE)]
    shapes += [Circle((180.0, 182.0), 8.0, FIRM, "ground"), Line((188.0, 184.0), (330.0, 150.0), LINE)]
    shapes += [box(252.0, 156.0, 280.0, 176.0)]
    shapes += [Line((172.0, 30.0 + 22.0 * k), (188.0, 30.0 + 22.0 * k), HAIR) for k in range(6)]
    shapes.append(ground_line(120.0, 240.0, 196.0))
    words = [Label((266.0, 194.0), "scale", 14.0, "middle"), word((334.0, 138.0), "pull from here", "end")]
    words += [Label((150.0, 60.0), "marks", 14.0, "end"), Label((96.0, 96.0), "long string", 14.0, "middle")]
    return Sheet([], [*shapes, *words])


def _tapered(way: Way, name: Name, *, thick: float, thin: float, own: float, full: float) -> tuple[Shape, ...]:
    """Return a bundle that is thick as far as `full` of its length and runs out thin at its end."""
    length = way.length
    stations = (
        CordStation(0.0, thick, 0.0, 1.0, own),
        CordStation(full * length, thick, 0.0, 1.0, own),
        CordStation(length, thin, 0.0, 1.0, own),
    )
    return painted(Laid(way, stations, 1, (name,)))


def _pinch(left: float, right: float, y: float, *, drawn: bool = True, name: Name = "a") -> list[Shape]:
    """Draw a pinch of fibres: cut level, or its ends drawn out so that they stop one after the other."""
    lines = []
    for k in range(13):
        at = y - 12.0 + 2.0 * k
        short = 7.0 * abs(k - 6) if drawn else 0.0
        middle = (left + right) / 2.0
        lean = (y - at) * (0.7 if drawn else 0.0)
        lines.append(((left + short, at + lean), (To((middle, at)), To((right - short, at + lean)))))
    return [Many(tuple(lines), Pen(name, 1.4))]


def _short_pinch(_: Bench) -> Sheet:
    """Draw a pinch of fibres with level ends, and the same pinch with its ends drawn out to points."""
    shapes: list[Shape] = [*_pinch(30.0, 180.0, -44.0, drawn=False), *_pinch(20.0, 340.0, 38.0)]
    shapes += [*arrow((80.0, 68.0), To((34.0, 68.0))), *arrow((280.0, 68.0), To((326.0, 68.0)))]
    words = [Label((196.0, -39.0), "level ends: no", 14.0), word((180.0, 73.0), "draw out")]
    words.append(Label((180.0, 14.0), "ends run out", 14.0, "middle", bold=True))
    return Sheet([], [*shapes, *words])


def _short_damp(_: Bench) -> Sheet:
    """Draw a hank of fibre on a damp cloth, and a drop that is wrung out of it."""
    cloth = ((30.0, 30.0), (180.0, 46.0), (330.0, 30.0), (310.0, -6.0), (180.0, 8.0), (50.0, -6.0))
    shapes: list[Shape] = [Polyline(cloth, FIRM, "tint", closed=True), *_pinch(70.0, 290.0, 6.0)]
    drop = Path((180.0, 62.0), (CubicTo((190.0, 76.0), (188.0, 86.0), (180.0, 86.0)),
                                CubicTo((172.0, 86.0), (170.0, 76.0), (180.0, 62.0))), FIRM)  # fmt: skip
    words = [word((180.0, -34.0), "damp, not dripping"), Label((206.0, 80.0), "wring it out", 14.0)]
    words.append(Label((322.0, 58.0), "cloth", 14.0, "end", "quiet"))
    return Sheet([], [*shapes, drop, *words])


def _short_start(b: Bench) -> Sheet:
    """Draw a hank folded off its middle over a pin: one leg is longer than the other."""
    far, near = b.names()
    own = -b.lay
    shapes: list[Shape] = [Circle((30.0, 0.0), 9.0, FIRM, "tint")]
    shapes.append(Path((52.0, -16.0), (CubicTo((8.0, -16.0), (8.0, 16.0), (52.0, 16.0)),), Pen("a", 12.0, cap="butt")))
    shapes += _tapered(leg((52.0, -16.0), (340.0, -34.0)), far, thick=12.0, thin=2.5, own=own, full=0.75)
    shapes += _tapered(leg((52.0, 16.0), (226.0, 28.0)), near, thick=12.0, thin=2.5, own=own, full=0.6)
    words = [Label((330.0, -50.0), "long leg", 14.0, "end"), Label((222.0, 54.0), "short leg", 14.0, "end")]
    words.append(word((40.0, -40.0), "fold off centre", "start"))
    return Sheet([], [*shapes, *words])


def _open_legs(b: Bench, *, thin_near: bool) -> list[Shape]:
    """Draw a plied cord that opens, with its near leg run out thin or not."""
    far, near = b.names()
    shapes: list[Shape] = [*plied(b, leg((8.0, 0.0), (132.0, 0.0)), bundle=12.0)]
    shapes += _tapered(Way.smooth((126.0, -5.0), (170.0, -18.0), (350.0, -40.0)), far, thick=12.0, thin=10.0,
                       own=-b.lay, full=0.8)  # fmt: skip
    end = 250.0 if thin_near else 350.0
    shapes += _tapered(Way.smooth((126.0, 5.0), (170.0, 18.0), (end, 30.0 if thin_near else 40.0)), near, thick=12.0,
                       thin=2.5 if thin_near else 10.0, own=-b.lay, full=0.4)  # fmt: skip
    return shapes


def _short_thin(b: Bench) -> Sheet:
    """Draw the ply with one leg run thin: the place where new fibre is due."""
    shapes = _open_legs(b, thin_near=True)
    shapes += [Circle((206.0, 26.0), 22.0, Pen("accent", 2.0, dash=True))]
    words = [word((206.0, 66.0), "half as thick: now"), Label((346.0, -56.0), "still full", 14.0, "end")]
    return Sheet([], [*shapes, *words])


def _short_lay_in(b: Bench) -> Sheet:
    """Draw a new pinch laid along the thin leg, half its length over it, its point reaching into the ply."""
    shapes = [*_open_legs(b, thin_near=True), *_pinch(136.0, 356.0, 40.0, name="b")]
    shapes += [Dim((140.0, 60.0), (250.0, 60.0), "", 14.0), *arrow((104.0, 56.0), To((140.0, 26.0)))]
    words = [Label((196.0, 94.0), "half over the old", 14.0, "middle"), word((98.0, 72.0), "thumb here", "middle")]
    return Sheet([], [*shapes, *words])


def _short_roll_in(b: Bench) -> Sheet:
    """Draw the thin leg and its new pinch rolled into one leg as thick as the other, and plied on."""
    shapes: list[Shape] = [*vee(b, start=8.0, opens=150.0, end=346.0, apart=44.0, bundle=12.0)]
    shapes += [Line((238.0 + 4.0 * k, 30.0 + 0.5 * k), (246.0 + 6.0 * k, 42.0 + 4.0 * k), HAIR) for k in range(4)]
    shapes += arrow((300.0, 58.0), CubicTo((322.0, 62.0), (326.0, 24.0), (306.0, 14.0)))
    words = [word((316.0, 82.0), "roll both as one", "end"), Label((238.0, 70.0), "stray ends", 14.0, "end", "quiet")]
    return Sheet([], [*shapes, *words])


def _short_stagger(b: Bench) -> Sheet:
    """Draw a cord with the places of its splices, now in one bundle and now in the other, never side by side."""
    shapes: list[Shape] = [*plied(b, leg((8.0, 0.0), (352.0, 0.0)), bundle=12.0)]
    for k, x in enumerate((50.0, 120.0, 190.0, 260.0, 330.0)):
        side = -1.0 if k % 2 else 1.0
        shapes += [Line((x, side * 16.0), (x, side * 34.0), Pen("accent", 3.0))]
        shapes.append(Label((x, side * 46.0 + 5.0), "B" if k % 2 else "A", 15.0, "middle", bold=True))
    return Sheet([], [*shapes, Dim((50.0, 62.0), (120.0, 62.0), "", 14.0), word((196.0, 84.0), "never side by side")])


def _short_trim(b: Bench) -> Sheet:
    """Draw the dry cord with stray ends, one of them cut close, and the same cord waxed smooth."""
    shapes: list[Shape] = [*plied(b, leg((8.0, -34.0), (352.0, -34.0)), bundle=10.0)]
    shapes += [Line((x, -40.0), (x + 12.0, -58.0), Pen("a", 1.4)) for x in (60.0, 148.0, 288.0)]
    shapes += [
        Line((206.0, -46.0), (240.0, -70.0), Pen("ink", 3.0)),
        Line((206.0, -62.0), (240.0, -44.0), Pen("ink", 3.0)),
    ]
    shapes += [*plied(b, leg((8.0, 40.0), (352.0, 40.0)), bundle=10.0)]
    words = [word((180.0, 2.0), "dry first, then trim"), Label((180.0, 74.0), "waxed and rubbed", 14.0, "middle")]
    return Sheet([], [*shapes, *words])


DRAWN = (
    _short_pinch, _short_damp, _short_start, _short_thin, _short_lay_in, _short_roll_in, _short_stagger, _short_trim,
    _pluck, _old_loop, _pocket, _stringer_ends, _stringer_whole, _tillering_string, _tiller_tree,
)  # fmt: skip
