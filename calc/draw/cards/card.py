"""The card of one string: a whole page, or a quarter of one for the pocket."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.draw import FIRM, HAIR, Box, Circle, Drawing, Label, Line, Many, Polyline, To, text_width, wrapped
from calc.draw.cards.facts import BLANKS, CardFact
from calc.draw.cards.paper import Placed, cut_frame
from calc.draw.cord import Way, even, painted
from calc.draw.string import string_layout

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from calc.draw import Shape
    from calc.draw.cards.facts import CardFacts
    from calc.draw.cards.paper import Paper

SMALL = 12.6
"""The smallest words on a card: 9.4 points."""
_SIZE = 13.0
_HEAD = 15.0
_NAME = 24.0
_LINE = 16.0
_GAP = 18.0
_AIR = 8.0
_LABEL_SHARE = 0.42
_BOLD = 1.15
_BLANK = 30.0
_RIM = 4
"""Light modules round a square code, as its standard (ISO/IEC 18004) wants."""
_CODE = 118.0
"""Side of a square code with its rim: 31 mm, of which 25 mm are the code where it has 33 modules, more where longer."""
_POCKET_CODE = 103.0
"""27 mm, of which 25 mm are the code of a full bench sheet's link: 97 modules."""
_POCKET_BLANKS = ("Braced at", "Turns added", "Date")
_POCKET_CAUTION = "Eye protection on for the first draw. Never loose a bow without an arrow."
_STRENGTH_CAUTION = "Count on the low number. A string that holds less than 1 time the hardest pull breaks."
_EDGE = 2.0
"""Between a pocket card's cut edge and what is printed."""
_HOLE = 26.0
"""Kept free for the hole by which a pocket card hangs."""
_BUNDLES = ("A", "B", "C")


def full_card(facts: CardFacts, paper: Paper) -> tuple[Placed, ...]:
    """Return the drawings of a card that fills a page.

    Parameters
    ----------
    facts : CardFacts
    paper : Paper

    Raises
    ------
    ValueError
        Where there is more on it than the page holds, even with fewer places to write.
    """
    for blanks in (BLANKS, BLANKS[:8]):
        for count in range(len(facts.cautions), 0, -1):
            placed = _full(facts, paper.inner, blanks, count)
            if placed[-1].box.bottom <= paper.inner.bottom:
                return _framed(placed, paper.inner)
    return _framed(placed, paper.inner)


def _framed(placed: Sequence[Placed], inner: Box) -> tuple[Placed, ...]:
    """Return what lies on a page, with a line to cut along round it."""
    frame = cut_frame(Box(inner.left, inner.top, inner.right, placed[-1].box.bottom))
    return (Placed(frame, frame.frame.left, frame.frame.top), *_inside(placed, inner))


def _full(facts: CardFacts, inner: Box, blanks: Sequence[str], count: int) -> tuple[Placed, ...]:
    """Return a whole page with so many places to write and so many of the cautions."""
    half = (inner.width - _GAP) / 2.0
    code = _CODE if facts.code else 0.0
    top = _Column(inner.left, inner.top, inner.width)
    placed = [top.add(_heading(facts, inner.width - code, wide=True))]
    if facts.code:
        placed.append(Placed(_square(facts, _CODE), inner.right - code, inner.top))
        top.below(inner.top + _CODE)
    placed.append(top.add(_layout(facts, inner.width)))
    left = _Column(inner.left, top.y, half)
    right = _Column(inner.left + half + _GAP, top.y, half)
    placed += [
        left.add(_lay(facts, half)),
        left.add(_list("Turn", facts.turns, half)),
        left.add(_list("Made of", facts.cord, half)),
        left.add(_words("unsure", "What is not sure", facts.unsure, half)),
        right.add(_list("Use", facts.use, half)),
        right.add(_list("Holds", facts.strength, half)),
        right.add(_words("strength-care", "", (_STRENGTH_CAUTION,), half)),
    ]
    foot = _Column(inner.left, max(left.y, right.y), inner.width)
    placed.append(foot.add(_blanks("Write it down", blanks, inner.width, 4)))
    if facts.link and not facts.code:
        placed.append(foot.add(_words("link", "", _chopped(facts.link, inner.width - 12.0), inner.width)))
    said = facts.cautions[:count]
    placed.append(foot.add(_words("cautions", "Take care", (*said, *_left_out(facts, count)), inner.width)))
    return tuple(placed)


def _left_out(facts: CardFacts, count: int) -> tuple[str, ...]:
    """Say how many cautions a page has no room for."""
    more = len(facts.cautions) - count
    return (f"{more} more {'caution stands' if more == 1 else 'cautions stand'} on the sheet.",) if more else ()


def pocket_card(facts: CardFacts, place: Box) -> tuple[Placed, ...]:
    """Return the drawings of a card for the pocket, inside a place on a page.

    Parameters
    ----------
    facts : CardFacts
    place : Box
        Where it goes, see `pocket_places`.

    Raises
    ------
    ValueError
        Where there is more on it than the place holds.
    """
    inner = place.grown(-_EDGE)
    code = _POCKET_CODE if facts.code else 0.0
    column = _Column(inner.left, inner.top, inner.width)
    marks = tuple(replace(each, length_text="") for each in facts.zones)
    placed = [
        column.add(_heading(facts, inner.width - _HOLE, wide=False)),
        column.add(_layout(replace(facts, tail_m=0.0, zones=marks), inner.width)),
        column.add(
            _grid(
                "turns",
                "Turns",
                (CardFact(f"Roll first, {facts.other}", facts.turns[0].value), *facts.turns[1:]),
                inner.width,
                3,
            )
        ),
        column.add(_grid("use", "Use", facts.short, inner.width, 2)),
    ]
    low = column.y
    beside = _Column(inner.left, low, inner.width - code)
    caution = _words("cautions", "", (_POCKET_CAUTION,), beside.width)
    blanks = _blanks("", _POCKET_BLANKS[: 2 if code else 3], beside.width, 2 if code else 3)
    if low + blanks.frame.height + caution.frame.height <= place.bottom:
        placed.append(beside.add(blanks))
    placed.append(beside.add(caution))
    if facts.code:
        placed.append(Placed(_square(facts, code), inner.right - code, low))
    return _inside(placed, place)


class _Column:
    """Drawings placed one below the other."""

    def __init__(self, left: float, top: float, width: float) -> None:
        self.left, self.y, self.width = left, top, width

    def add(self, drawing: Drawing) -> Placed:
        """Place a drawing next."""
        placed = Placed(drawing, self.left, self.y)
        self.y = placed.box.bottom
        return placed

    def below(self, level: float) -> None:
        """Go on no higher than a level."""
        self.y = max(self.y, level)


def _inside(placed: Sequence[Placed], place: Box) -> tuple[Placed, ...]:
    for each in placed:
        if not place.holds(each.box, 0.5):
            msg = f"String card: {each.drawing.key} reaches {each.box}, beyond its place {place}"
            raise ValueError(msg)
    return tuple(placed)


def _block(key: str, title: str, desc: str, shapes: Iterable[Shape], size: tuple[float, float]) -> Drawing:
    """Return a drawing that takes just the room it is given, from its left upper corner."""
    wide, tall = size
    ground = Polyline(((4.0, 4.0), (wide - 4.0, 4.0), (wide - 4.0, tall - 4.0), (4.0, tall - 4.0)), None, closed=True)
    return Drawing(key=key, title=title, desc=desc, shapes=(ground, *shapes), width=wide)


def _heading(facts: CardFacts, width: float, *, wide: bool) -> Drawing:
    """Name the string and its bow."""
    size = _NAME if wide else _NAME - 6.0
    top = 8.0 if wide else 2.0
    shapes: list[Shape] = []
    y = top + size
    if facts.name:
        name = _cut_short(wrapped(facts.name, width - 12.0, size)[0], width - 12.0, size)
        shapes.append(Label((6.0, y), name, size, bold=True))
    else:
        shapes += [Label((6.0, y), "For", size, bold=True), Line((60.0, y + 3.0), (min(width, 330.0), y + 3.0), FIRM)]
    y += 4.0
    bow = ", ".join(f"{each.label} {each.value}" for each in facts.bow)
    cord = "" if wide else f"; {facts.cord[0].value}, {facts.cord[1].value}"
    for line in wrapped(f"{bow}{cord}", width - 12.0, _SIZE):
        y += _LINE
        shapes.append(Label((6.0, y), line, _SIZE))
    y += 2.0
    cut = f"Cut {facts.strands} strands, {facts.bundles} bundles of {facts.strands // facts.bundles}, each"
    for line in wrapped(f"{cut} {facts.cut.value} ({facts.cut.range})", width - 12.0, _SIZE * _BOLD):
        y += _LINE
        shapes.append(Label((6.0, y), line, _SIZE, bold=True))
    said = "; ".join(f"{one.label} {one.value}" for one in facts.bow)
    return _block("heading", facts.title, said, shapes, (width, y + top))


def _layout(facts: CardFacts, width: float) -> Drawing:
    return string_layout(
        facts.zones, facts.step_m, facts.strands // facts.bundles, facts.tail_m,
        system=facts.system, rows=1, width=width, caption=False,
    )  # fmt: skip


def _list(title: str, facts: Sequence[CardFact], width: float) -> Drawing:
    """Return facts one below the other: what it is on the left, how much beside it."""
    shapes, y = _title(title, width)
    middle = 6.0 + _LABEL_SHARE * width
    for each in facts:
        left = wrapped(each.label, middle - 12.0, SMALL)
        right = [Label((middle, 0.0), each.value, _SIZE, bold=True)]
        lines = [*wrapped(each.value, width - middle - 6.0, _SIZE * _BOLD)]
        right = [Label((middle, 0.0), line, _SIZE, bold=True) for line in lines]
        room = width - middle - 12.0 - text_width(lines[-1] if lines else "", _SIZE, bold=True)
        span = f"({each.range})" if each.range else ""
        beside = bool(span) and text_width(span, SMALL) <= room
        below = () if beside or not span else wrapped(span, width - middle - 6.0, SMALL)
        right += [Label((middle, 0.0), line, SMALL, ink="quiet") for line in below]
        for index in range(max(len(left), len(right))):
            y += _LINE
            if index < len(left):
                shapes.append(Label((6.0, y), left[index], SMALL, ink="quiet"))
            if index < len(right):
                shapes.append(replace(right[index], at=(middle, y)))
        if beside:
            at = middle + text_width(lines[-1], _SIZE, bold=True) + 6.0
            row = y - _LINE * (max(len(left), len(right)) - len(lines))
            shapes.append(Label((at, row), span, SMALL, ink="quiet"))
        y += 2.0
    said = "; ".join(f"{each.label} {each.value}" for each in facts)
    return _block(f"list-{title.lower() or 'all'}", title or "In short", f"{said}.", shapes, (width, y + _AIR))


def _grid(key: str, title: str, facts: Sequence[CardFact], width: float, columns: int) -> Drawing:
    """Return facts side by side, each value under its label."""
    each = (width - 12.0) / columns
    shapes: list[Shape] = []
    y = 0.0
    for start in range(0, len(facts), columns):
        tall = 0
        for index, fact in enumerate(facts[start : start + columns]):
            x = 6.0 + index * each
            lines = wrapped(fact.value, each - 4.0, _SIZE * _BOLD)
            shapes.append(Label((x, y + 13.0), fact.label, SMALL, ink="quiet"))
            shapes += [
                Label((x, y + 13.0 + 15.0 * (row + 1)), line, _SIZE, bold=True) for row, line in enumerate(lines)
            ]
            tall = max(tall, len(lines))
        y += 13.0 + 15.0 * tall + 3.0
    said = "; ".join(f"{fact.label} {fact.value}" for fact in facts)
    return _block(key, title, f"{said}.", shapes, (width, y + 3.0))


def _title(text: str, width: float) -> tuple[list[Shape], float]:
    if not text:
        return [], 2.0
    y = 4.0 + _HEAD
    return [Label((6.0, y), text, _HEAD, bold=True), Line((6.0, y + 5.0), (width - 6.0, y + 5.0), HAIR)], y + 7.0


def _words(key: str, title: str, sentences: Sequence[str], width: float) -> Drawing:
    shapes, y = _title(title, width)
    for each in sentences:
        for line in wrapped(each, width - 12.0, SMALL):
            y += _LINE
            shapes.append(Label((6.0, y), line, SMALL))
        y += 3.0
    return _block(key, title or key.capitalize(), " ".join(sentences), shapes, (width, y + (_AIR if title else 2.0)))


def _cut_short(text: str, width: float, size: float) -> str:
    """Return bold words that fit a width: as much as fits and three dots, where all does not."""
    if text_width(text, size, bold=True) <= width:
        return text
    while text and text_width(f"{text}…", size, bold=True) > width:
        text = text[:-1]
    return f"{text}…"


def _chopped(text: str, width: float) -> tuple[str, ...]:
    """Cut a text without spaces into lines of a width."""
    lines = [""]
    for letter in text:
        if text_width(lines[-1] + letter, SMALL) > width:
            lines.append("")
        lines[-1] += letter
    return tuple(lines)


def _lay(facts: CardFacts, width: float) -> Drawing:
    """Draw the cord as it is laid, beside the letter whose middle stroke slants the same way."""
    shapes, y = _title(f"{facts.hand} lay", width)
    turn = facts.lay_rad if facts.hand == "Z" else -facts.lay_rad
    level = y + 24.0
    cord = even(Way(((64.0, level), (width - 110.0, level))), 15.0, turn, bundles=facts.bundles)
    shapes += [Label((10.0, level + 13.0), facts.hand, 38.0, bold=True), *painted(cord)]
    for index, (name, fill) in enumerate(zip(_BUNDLES[: facts.bundles], ("a", "b", "c"), strict=False)):
        x = width - 92.0 + 30.0 * index
        shapes += [
            Circle((x, level), 9.0, HAIR, fill),  # type: ignore[arg-type]
            Label((x, level + 24.0), name, SMALL, "middle"),
        ]
    desc = f"The bundles run like the middle stroke of the letter {facts.hand}."
    return _block("lay", f"{facts.hand} lay", desc, shapes, (width, level + 32.0))


def _blanks(title: str, names: Sequence[str], width: float, columns: int) -> Drawing:
    """Return places to write while making and after."""
    shapes, y = _title(title, width)
    each = (width - 12.0) / columns
    for index, name in enumerate(names):
        x, row = 6.0 + each * (index % columns), y + _BLANK * 1.35 * (index // columns)
        shapes += [
            Label((x, row + 16.0), name, SMALL, ink="quiet"),
            Line((x, row + _BLANK + 6.0), (x + each - 10.0, row + _BLANK + 6.0), HAIR),
        ]
    rows = -(-len(names) // columns)
    return _block(
        "blanks",
        "Places to write",
        ", ".join(names),
        shapes,
        (width, y + 1.35 * _BLANK * rows + (_AIR if title else 1.0)),
    )


def _square(facts: CardFacts, side: float) -> Drawing:
    """Draw the link as a square code, with the light rim that its standard wants."""
    count = len(facts.code)
    one = side / (count + 2 * _RIM)
    parts = []
    for row, modules in enumerate(facts.code):
        start = 0
        while start < count:
            if not modules[start]:
                start += 1
                continue
            end = start
            while end < count and modules[end]:
                end += 1
            left, right, top = (start + _RIM) * one, (end + _RIM) * one, (row + _RIM) * one
            parts.append(((left, top), (To((right, top)), To((right, top + one)), To((left, top + one)))))
            start = end
    dark = Many(tuple(parts), None, "ink", closed=True, role="code", digits=2)
    return _block("code", "Square code of the link", "Leads back to the live sheet.", (dark,), (side, side))
