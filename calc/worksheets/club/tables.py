"""What a club list is answered with: lists to buy and to cut from, a card for each bow, the same as files."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from calc import units
from calc.draw.charts import Axis, Series, line_chart
from calc.worksheets.club.lines import OWN
from calc.worksheets.core import File, Table, cautions, harmless, verdict, write_line

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from calc.draw import Drawing
    from calc.making.club import Club, Slot
    from calc.making.strands import StringStrength
    from calc.numerics import Spread
    from calc.units import Quantity, System
    from calc.worksheets.club.lines import BowLine, Fault
    from calc.worksheets.club.made import Made

_ANY = "any"
_TO_WRITE = "braces at ……… with ……… turns, on ………"
"""A place to write with a pen on the card."""
_STEPS = 60


def tables(
    club: Club, lines: Sequence[Made], faults: Sequence[Fault], slots: Sequence[Slot], system: System
) -> tuple[Table, ...]:
    """Return the lists of an answer, in the reader's units; those with no line are left out.

    Parameters
    ----------
    club : Club
        What the whole list takes.
    lines : sequence of Made
        Those that are worked out.
    faults : sequence of Fault
        Those that are left out.
    slots : sequence of Slot
        The afternoon, in its order.
    system : {"inch", "metric"}
        The reader's units.
    """
    found = (_buy(club, system), _cut(club, system), _cards(lines, system), _timetable(slots), left_out(faults))
    return tuple(table for table in found if table.cells)


def _buy(club: Club, system: System) -> Table:
    cells = []
    for each in club.bought:
        bought = each.bought_m
        span = " to ".join(units.show(end, "distance", system) for end in (bought.low, bought.high))
        cells.append(
            (
                each.cord.fibre,
                units.show(each.cord.yarn_kg_m, "linear_density", system),
                each.cord.colour or _ANY,
                units.show(bought.value, "distance", system),
                span,
                units.show(each.bought_kg.value, "goods", system),
                str(each.strands),
            )
        )
    return Table(
        key="buy",
        title="Buy",
        heads=("Fibre", "Strand", "Colour", "Length", "Between", "Weight", "Strands in it"),
        cells=tuple(cells),
        note="Waste is in it. Buy by the longer end of the range where a second trip is far.",
    )


def _cut(club: Club, system: System) -> Table:
    return Table(
        key="cut",
        title="Cut",
        heads=("Cord", "Colour", "Length", "Strands", "For"),
        cells=tuple(
            (
                f"{each.cord.fibre}, {units.show(each.cord.yarn_kg_m, 'linear_density', system)}",
                each.cord.colour or _ANY,
                units.show(each.length_m, "length", system),
                str(each.count),
                ", ".join(each.names),
            )
            for each in club.pieces
        ),
        note="Longest first: what is left of a hank still serves the next. Label each set as you cut it.",
    )


def _zones(made: Made) -> tuple[float, ...]:
    """Return the lengths of tail, loop, body, loop and tail [m]."""
    marks = made.listed.cuts.marks_m
    return tuple(end - start for start, end in zip((0.0, *marks), marks, strict=False))


def _cards(lines: Sequence[Made], system: System) -> Table:
    return Table(
        key="cards",
        title="One card for each bow",
        heads=(
            "Bow", "Nock to nock", "Draws", "Cut", "Strands", "Tail, loop, body, loop, tail",
            "Turns: body, upper loop, lower loop", "Roll into each bundle first", "Brace at, by turns from and to",
            "Holds", "As made",
        ),
        cells=tuple(_card(made, system) for made in lines),
        note="Lengths are marked on the flat bundle, from the first strand end on. A string holds so many times the "
        "hardest pull of a shot.",
    )  # fmt: skip


def _card(made: Made, system: System) -> tuple[str, ...]:
    def length(value: float) -> str:
        return units.show(value, "length", system)

    def turns(key: str) -> str:
        return units.show(listed.figures[key], "turns", system)

    other = "S" if made.hand == "Z" else "Z"
    listed, order = made.listed, made.wanted.order
    cut = listed.cut_m
    high = ": overbraced" if cautions.overbraced(order.bow.nock_to_nock_m, order.brace_m) else ""
    many = f", for each of {made.wanted.strings} strings" if made.wanted.strings > 1 else ""
    return (
        made.wanted.name,
        length(order.bow.nock_to_nock_m),
        f"{units.show(order.draw_weight_n, 'force', system)} at {length(order.draw_m)}",
        f"{length(cut.value)} ({length(cut.low)} to {length(cut.high)})",
        f"{listed.strands}: {order.bundles} bundles of {listed.strands // order.bundles}{many}",
        ", ".join(length(zone) for zone in _zones(made)),
        f"{', '.join(turns(key) for key in ('turns_body', 'turns_loop', 'turns_loop_lower'))} {made.hand}",
        f"{turns('counter_twist_body')} {other}",
        f"{length(order.brace_m)}, {length(listed.brace_low_m)} to {length(listed.brace_high_m)}{high}",
        _safety_words(listed.strength, system),
        _TO_WRITE,
    )


def _safety_words(held: StringStrength, system: System) -> str:
    """Return how many times the hardest pull a string holds, with its range and what to think of it."""
    value, low, high = (
        units.show(each, "ratio", system) for each in (held.safety.value, held.safety.low, held.safety.high)
    )
    return f"{value} ({low} to {high}): {verdict(held)}"


def _timetable(slots: Sequence[Slot]) -> Table:
    return Table(
        key="timetable",
        title="Timetable",
        heads=("From", "Takes", "What", "Where", "Adults at it", "Adults with the makers"),
        cells=tuple(
            (
                _clock(each.start_s),
                f"{round((each.end_s - each.start_s) / 60.0)} min",
                each.words,
                each.place,
                str(each.adults),
                str(each.spare),
            )
            for each in slots
        ),
        note=f"It ends at {_clock(slots[-1].end_s)}, counted from the start. Breaks come on top. Settling alone takes "
        "{settle_total.low} to {settle_total.high}."
        if slots
        else "",
    )


def _clock(seconds: float) -> str:
    minutes = round(seconds / 60.0)
    return f"{minutes // 60}:{minutes % 60:02d}"


def left_out(faults: Sequence[Fault]) -> Table:
    """Return the lines that cannot be used, and why.

    Parameters
    ----------
    faults : sequence of Fault
    """
    return Table(
        key="left-out",
        title="Lines left out",
        heads=("Line", "Bow", "Why"),
        cells=tuple((str(each.number), each.name, each.why) for each in faults),
        note="Put them right above and ask again; all other lines are answered.",
    )


def figures(club: Club, system: System) -> tuple[Drawing, ...]:
    """Return the cutting as a chart: how long the strands are, longest first.

    Parameters
    ----------
    club : Club
        What the whole list takes.
    system : {"inch", "metric"}
        The reader's units.
    """
    if not club.pieces:
        return ()
    points: list[tuple[float, float]] = []
    cut = 0
    for each in sorted(club.pieces, key=lambda piece: -piece.length_m):
        high = units.number_in(each.length_m, "length", system)
        points += [(float(cut), high), (float(cut + each.count), high)]
        cut += each.count
    points = points[:: 2 * max(1, len(points) // (2 * _STEPS))] if len(points) > 4 * _STEPS else points
    longest, shortest = (
        units.show(pick(each.length_m for each in club.pieces), "length", system) for pick in (max, min)
    )
    title = "Strands to cut, longest first"
    unit = units.unit_label("length", system)
    chart = line_chart(
        (Series("", tuple(points)),),
        Axis("strands cut", 0.0, float(cut)),
        Axis(f"length, {unit}", 0.0, 1.1 * points[0][1]),
        key="cutting",
        title=title,
        desc=f"{title}: {cut} strands, the longest {longest}, the shortest {shortest}.",
    )
    return (chart,)


def files(club: Club, lines: Sequence[Made], told: Sequence[BowLine], system: System) -> tuple[File, ...]:
    """Return the lists as CSV: the strings with what was typed of them, what to cut, what to buy.

    Parameters
    ----------
    club : Club
        What the whole list takes.
    lines : sequence of Made
        Those that are worked out.
    told : sequence of BowLine
        The same, as they were typed.
    system : {"inch", "metric"}
        The reader's units.
    """
    return (
        _file("club-strings.csv", _strings(lines, told, system)),
        _file("club-cut-list.csv", _cut_rows(club, system)),
        _file("club-buy-list.csv", _buy_rows(club, system)),
    )


def _file(name: str, rows: Iterable[Sequence[str]]) -> File:
    text = "".join(f"{write_line([harmless(cell) for cell in row])}\r\n" for row in rows)
    return File(name=name, media="text/csv", text=text)


def _number(value: float, quantity: Quantity, system: System) -> str:
    return f"{value * _in_one(quantity, system):.3f}".rstrip("0").rstrip(".")


@cache
def _in_one(quantity: Quantity, system: System) -> float:
    """Return how many of the reader's units one SI unit is; for quantities that are nothing at zero."""
    return units.number_in(1.0, quantity, system)


def _head(key: str, quantity: Quantity, system: System) -> str:
    unit = units.unit_label(quantity, system)
    return f"{key} ({unit})" if unit else key


def _strings(lines: Sequence[Made], told: Sequence[BowLine], system: System) -> list[list[str]]:
    keys = list(dict.fromkeys(key for line in told for key, _ in line.cells))
    typed = {line.number: dict(line.cells) for line in told}
    colours = {line.number: " / ".join(line.colours) for line in told}
    lengths = {"cut_length", "tail", "loop_upper", "body_raw", "loop_lower", "brace_low", "brace_high"}
    heads: dict[str, Quantity] = {key: "length" if key in lengths else "turns" for key in OWN}
    others: dict[str, Quantity] = {"strands_used": "count", "safety_factor": "ratio"}
    heads |= others | dict.fromkeys(("cord_total", "thread_to_cut"), "distance")
    rows = [["name", "colour", "strings", *keys, *(_head(key, heads[key], system) for key in OWN)]]
    for made in lines:
        numbers = _own(made)
        rows.append(
            [
                made.wanted.name,
                colours[made.number],
                str(made.wanted.strings),
                *(typed[made.number].get(key, "") for key in keys),
                *(_number(numbers[key], heads[key], system) for key in OWN),
            ]
        )
    return rows


def _own(made: Made) -> dict[str, float]:
    """Return the numbers of one string by column, in SI."""
    listed = made.listed
    tail, upper, body, lower, _ = _zones(made)
    return {
        **listed.figures,
        "strands_used": listed.strands,
        "tail": tail,
        "loop_upper": upper,
        "body_raw": body,
        "loop_lower": lower,
        "brace_low": listed.brace_low_m,
        "brace_high": listed.brace_high_m,
        "safety_factor": listed.strength.safety.value,
        "thread_to_cut": made.thread.value,
    }


def _cut_rows(club: Club, system: System) -> list[list[str]]:
    rows = [["fibre", "yarn (tex)", "colour", _head("cut_length", "length", system), "strands", "for"]]
    for each in club.pieces:
        yarn = _number(each.cord.yarn_kg_m, "linear_density", system)
        length = _number(each.length_m, "length", system)
        rows.append([each.cord.fibre, yarn, each.cord.colour, length, str(each.count), "; ".join(each.names)])
    return rows


def _buy_rows(club: Club, system: System) -> list[list[str]]:
    ends = ("cord_total", "cord_to_buy", "cord_to_buy_low", "cord_to_buy_high")
    heads = [*(_head(key, "distance", system) for key in ends), _head("cord_mass", "goods", system)]
    rows = [["fibre", "yarn (tex)", "colour", *heads, "strands"]]
    for each in club.bought:
        bought: Spread = each.bought_m
        lengths = (each.net_m.value, bought.value, bought.low, bought.high)
        rows.append(
            [
                each.cord.fibre,
                _number(each.cord.yarn_kg_m, "linear_density", system),
                each.cord.colour,
                *(_number(length, "distance", system) for length in lengths),
                _number(each.bought_kg.value, "goods", system),
                str(each.strands),
            ]
        )
    return rows
