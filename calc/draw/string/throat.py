"""The served string in the throat of an arrow's nock, cut across, to scale."""

from __future__ import annotations

from math import cos, pi, sin, sqrt
from typing import TYPE_CHECKING

from calc.draw import FIRM, HAIR, LINE, PHONE, Arc, Circle, Dim, Drawing, Group, Label, Line, Path, Pen, To, wrapped
from calc.draw.string.packing import packed

if TYPE_CHECKING:
    from calc.draw import Shape

_THROAT = 96.0
_WALL, _DEEP, _MOUTH = 46.0, 110.0, 14.0
_SMALL, _SIZE = 12.6, 13.0
_PART = 1e-9


def serving_in_throat(
    core_m: float,
    thread_m: float,
    throat_m: float,
    *,
    core_text: str,
    served_text: str,
    throat_text: str,
    verdict: str = "",
    strands: int = 0,
) -> Drawing:
    """Return a drawing of the string end on in its nock, to scale: what is too thick stays outside.

    Parameters
    ----------
    core_m, thread_m, throat_m : float, > 0
        Diameter of the bare string and of the serving thread; width of the throat between its walls. [m]
    core_text, served_text, throat_text : str
        What stands at the bare string, over the serving and at the throat.
    verdict : str
        One sentence beneath, on how it fits.
    strands : int, >= 0
        Strands to show in the core; 0 for a plain round.
    """
    scale = _THROAT / throat_m
    core, served, half = core_m * scale / 2.0, core_m * scale / 2.0 + thread_m * scale, _THROAT / 2.0
    at = -served if served <= half + _PART else _rest(served, half)
    shapes: list[Shape] = [Group("nock", (_nock(half),)), *_string(at, core, served, strands)]
    shapes += _words(at, core, served, half, (core_text, served_text, throat_text))
    bottom = max(each.box().bottom for each in shapes)
    shapes += [
        Label((0.0, bottom + 18.0 + 16.0 * index), line, _SIZE, "middle", bold=True)
        for index, line in enumerate(wrapped(verdict, PHONE - 60.0, _SIZE))
    ]
    said = "; ".join(each for each in (core_text, served_text, throat_text, verdict) if each)
    return Drawing(
        key="throat", title="The served string in the nock", desc=f"Seen along the string. {said}. To scale.",
        shapes=tuple(shapes),
    )  # fmt: skip


def _rest(served: float, half: float) -> float:
    """Return where a string too thick for the throat comes to rest on its rounded mouth."""
    top = -half - _DEEP + _MOUTH
    reach = served + _MOUTH
    return top - sqrt(max(0.0, reach**2 - (half + _MOUTH) ** 2))


def _nock(half: float) -> Path:
    """Draw the nock from the side: a round floor, straight walls, rounded lips."""
    out, lip = half + _WALL, -half - _DEEP
    steps = (
        To((-half, lip + _MOUTH)),
        Arc((-half - _MOUTH, lip), _MOUTH, clockwise=False),
        To((-out + _MOUTH, lip)),
        Arc((-out, lip + _MOUTH), _MOUTH, clockwise=False),
        To((-out, _WALL)),
        To((out, _WALL)),
        To((out, lip + _MOUTH)),
        Arc((out - _MOUTH, lip), _MOUTH, clockwise=False),
        To((half + _MOUTH, lip)),
        Arc((half, lip + _MOUTH), _MOUTH, clockwise=False),
        To((half, -half)),
        Arc((-half, -half), half, clockwise=True),
    )
    return Path((-half, -half), steps, FIRM, "tint", closed=True)


def _string(at: float, core: float, served: float, strands: int) -> list[Shape]:
    """Draw the serving as a ring of thread about the core."""
    thread = served - core
    ring = Circle((0.0, at), served, FIRM, "ground")
    turns = max(6, round(2.0 * pi * (core + thread / 2.0) / max(3.0, thread)))
    across = (core + thread / 2.0) * sin(pi / turns)
    coils = tuple(
        Circle(
            ((core + thread / 2.0) * sin(2.0 * pi * k / turns), at - (core + thread / 2.0) * cos(2.0 * pi * k / turns)),
            max(0.5, min(across, thread / 2.0) - 0.5),
            Pen("quiet", 1.0),
            "ground",
        )
        for k in range(turns)
    )
    inner: tuple[Shape, ...] = (Circle((0.0, at), core, LINE, "tint"),)
    if strands > 0:
        ratio, places = packed(strands)
        each = 2.0 * core / ratio
        dots = [Circle((x * each, at + y * each), max(0.5, each / 2.0 - 0.6), None, "a") for x, y in places]
        inner = (Circle((0.0, at), core, LINE, "ground"), *dots)
    return [Group("serving", (ring, *coils)), Group("core", inner)]


def _words(at: float, core: float, served: float, half: float, texts: tuple[str, str, str]) -> list[Shape]:
    """Name the core to the right, the serving above, the throat beneath."""
    core_text, served_text, throat_text = texts
    top = min(at - served, -half - _DEEP)
    shapes: list[Shape] = [Dim((-half, _WALL), (half, _WALL), throat_text, 16.0, size=_SIZE)]
    if served_text:
        shapes.append(Dim((-served, at), (served, at), "", -(at - top + 12.0)))
        shapes.append(Label((0.0, top - 18.0), served_text, _SIZE, "middle"))
    if core_text:
        end = half + _WALL + 8.0
        spot = core * 0.6, at + core * 0.4
        shapes += [Circle(spot, 1.8, None, "ink"), Line(spot, (end, spot[1]), HAIR)]
        room = (PHONE / 2.0 - 6.0) - end
        shapes += [
            Label((end + 4.0, spot[1] + 4.0 + 14.0 * index), line, _SMALL, backed=True)
            for index, line in enumerate(wrapped(core_text, room, _SMALL))
        ]
    return shapes
