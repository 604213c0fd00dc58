"""The club list: many bows at once, what to buy, what to cut in which order, how long it takes, a card for each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.errors import DomainError
from calc.geometry.ends import is_pipe
from calc.making.club import Afternoon, afternoon, helpers_needed, sum_spreads, sum_up, timetable
from calc.numerics import Spread
from calc.worksheets.club.lines import LIST_FIELDS, MEASURED, BowLine, Fault, explicit, read_bows
from calc.worksheets.club.made import SERVED_LENGTH, STRINGS, THREAD_DIAMETER, ClubInputs, Made, made, opened, work
from calc.worksheets.club.tables import figures, files, tables
from calc.worksheets.core import (
    Answer,
    Guide,
    Lines,
    Number,
    Parts,
    Sentence,
    SheetText,
    Worksheet,
    cautions,
    cords,
    fields,
    read_inputs,
    rows,
)
from calc.worksheets.core import next_steps as onward

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from calc.making.club import Club
    from calc.units import System

TEXT = SheetText(__spec__)

_LIST = "The list"
_MOST_NAMED = 8
_RESULTS = (
    "bows", "strings", "lines_left_out", "strands_to_cut", "cut_longest", "cut_shortest", "cord_total", "cord_to_buy",
    "cord_mass", "thread_total", "time_total", "settle_rounds", "settle_total", "afternoon_time",
)  # fmt: skip
_EXAMPLE = """\
name; nock to nock (in); draw weight (lb); draw length (in); brace height (in); colour
Ash longbow; 66; 40; 26; 6 1/2; green
Hazel; 60; 30; 24; 6; green / white
Elm, for guests; 62 1/2; 35; 25; 6 1/4; white
Junior; 48; 15; 20; 5 1/2; white"""
BOWS = Lines(
    key="bows",
    label="Bows",
    hint="One bow a line: name, nock to nock, draw weight, draw length, brace height, colour. “Ash, 66 in, 40 lb” is "
    "enough: what a line does not tell is taken from the fields below.",
    how=(
        "Or a table whose first line names its columns, in any order: name, bow length, draw weight, fibre, strings …",
        "Units stand in the cell, 1575 mm, or in its head, nock to nock (in). Without one they are those chosen above.",
        "Commas, semicolons or tabs part the cells, each line as it likes. Quotes hold a cell with a comma together.",
        "Colours are those of the bundles: green / white makes one green and one white.",
        "A line that cannot be read is left out and named; all others are answered.",
    ),
    group=_LIST,
    example=_EXAMPLE,
    most=1000,
    explicit=explicit,
)
_WASTE = Number(
    key="waste",
    label="Waste",
    hint="What is bought over what is cut: short ends, a strand spoilt.",
    group=_LIST,
    example="10%",
    quantity="fraction",
    low=0.0,
    high=1.0,
)
_MINUTES = Number(
    key="minutes",
    label="Minutes for one string",
    hint="Time yourself once, from laying out the strands to the served string, without the hour it settles. Beginners "
    "take twice as long or more.",
    group=_LIST,
    example="60",
    quantity="count",
    low=1,
    high=1440,
)
_MAKERS = Number(
    key="makers",
    label="Makers at the same time",
    hint="Who make a string side by side.",
    group=_LIST,
    example="4",
    quantity="count",
    low=1,
    high=1000,
    whole=True,
)
_PLACES = Number(
    key="settle_places",
    label="Strings that settle at once",
    hint="Places for it: weights, and sound bows that may stand braced for an hour with somebody by them. Not a new "
    "wooden bow, a self bow or plastic pipe.",
    group=_LIST,
    example="4",
    quantity="count",
    low=1,
    high=1000,
    whole=True,
)
_HELPERS = Number(
    key="helpers",
    label="Adults who help",
    hint="Besides the one who leads: one for every four makers. Kids and juniors need an adult each.",
    group=_LIST,
    example="1",
    quantity="count",
    low=0,
    high=1000,
    whole=True,
)
_SHARED = tuple(each for each in LIST_FIELDS.values() if each.key != "nock_to_nock" and each not in MEASURED)


_AS_ASKED = ("waste", "minutes", "makers", "settle_places", "helpers", "served_length", "thread_diameter")


def _numbers(
    club: Club, lines: Sequence[Made], faults: Sequence[Fault], values: ClubInputs, day: Afternoon
) -> dict[str, Spread | float]:
    """Return every number of the working, by row key."""
    cuts = [each.listed.cut_m for each in lines] or [Spread.exactly(0.0)]
    return {
        "bows": len(lines),
        "strings": club.strings,
        "lines_left_out": len(faults),
        "strands_to_cut": club.strands,
        "cut_longest": max(cuts, key=lambda cut: cut.value),
        "cut_shortest": min(cuts, key=lambda cut: cut.value),
        "cord_total": club.net_m,
        "cord_to_buy": club.bought_m,
        "cord_mass": club.bought_kg,
        "thread_total": sum_spreads(each.thread.scaled(each.wanted.strings) for each in lines),
        "time_total": club.strings * values.minutes * 60.0,
        "settle_rounds": day.settled_in,
        "settle_total": day.settling_s,
        "afternoon_time": day.whole_s,
        **{key: getattr(values, key) for key in _AS_ASKED},
    }


def _headlines(club: Club, day: Afternoon) -> tuple[Sentence, ...]:
    kinds = {each.cord for each in club.bought}
    cord = club.bought[0].cord
    one = f"({{cord_mass}}) of {', '.join(filter(None, (cord.fibre, cord.colour)))}"
    alike = len({each.length_m for each in club.pieces}) == 1
    rounds = "one round of an hour" if day.settled_in == 1 else "{settle_rounds} rounds of an hour"
    what = one if len(kinds) == 1 else f"of cord in {len(kinds)} kinds, {{cord_mass}} in all"
    return (
        Sentence(
            level="answer",
            lead="Buy",
            text=f"{{cord_to_buy}} {what}",
            span="between {cord_to_buy.low} and {cord_to_buy.high}, waste in it",
        ),
        Sentence(
            level="answer",
            lead="Cut",
            text="{strands_to_cut} strands"
            + (", all {cut_longest}" if alike else ", {cut_longest} down to {cut_shortest}"),
        ),
        Sentence(
            level="answer",
            lead="Serve",
            text="{thread_total} of thread",
            span="between {thread_total.low} and {thread_total.high}",
        ),
        Sentence(
            level="answer", lead="Takes", text="{time_total} of work for {strings} string" + "s" * (club.strings > 1)
        ),
        Sentence(
            level="answer",
            lead="Settle",
            text=f"{{settle_places}} at once, in {rounds}: {{afternoon_time}} until all are served",
        ),
    )


def _too_few(makers: int, helpers: int) -> tuple[Sentence, ...]:
    needed = helpers_needed(makers)
    if helpers >= needed:
        return ()
    text = (
        f"Too few adults: {makers} maker{'s' * (makers > 1)} need {needed} who help{'s' * (needed == 1)} the leader. "
        "While strings settle, one adult stays by them and one is with the makers. Have fewer makers at a time, or two "
        "sessions."
    )
    return (Sentence(level="caution", text=text),)


def named(names: Sequence[str]) -> str:
    """Return names for a sentence, the first of them where they are many.

    Parameters
    ----------
    names : sequence of str
    """
    more = len(names) - _MOST_NAMED
    return ", ".join(names[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")


def of_overbraced(bows: Iterable[tuple[str, float, float]]) -> tuple[str, ...]:
    """Return what to say of the bows of a list that are braced too high; nothing where none is.

    Parameters
    ----------
    bows : iterable of tuple of str and two floats
        What it is called, nock to nock and brace height. [m]
    """
    high = [name for name, nock_m, brace_m in bows if cautions.overbraced(nock_m, brace_m)]
    if not high:
        return ()
    text = (
        f"Overbraced: {named(high)}. That brace height is more than an eighth of nock to nock. The limbs are bent hard "
        "before the draw begins and may take a set or break. Ask for less."
    )
    return (text,)


def _cautions(lines: Sequence[Made], faults: Sequence[Fault], strange: Sequence[str]) -> tuple[Sentence, ...]:
    said = [
        f"Line {each.number}{f' ({each.name})' if each.name else ''} is left out. {each.why}"
        for each in faults[:_MOST_NAMED]
    ]
    if len(faults) > _MOST_NAMED:
        said.append(f"{len(faults) - _MOST_NAMED} more lines are left out; all are listed below.")
    weak = [each.wanted.name for each in lines if cords.weak(each.listed.strength)]
    thick = [each.wanted.name for each in lines if cords.of_kind(each.wanted.order.cord)]
    if thick:
        said.append(
            f"Told as yarn, and as thick as cord: {named(thick)}. If it is laid or braided, say so in the column "
            "Sold as: cord holds about half as much."
        )
    if weak:
        said.append(f"Too weak against the hardest pull of a shot: {named(weak)}. Leave the strands empty there.")
    orders = {each.wanted.name: each.wanted.order for each in lines}
    light = [name for name, each in orders.items() if cords.of_arrow(each.arrow_kg, each.draw_weight_n)]
    if light:
        said.append(
            f"Arrows of less than 8 grains for each pound of draw weight: {named(light)}. That is light for a wooden "
            "bow, and below 5 close to a shot without an arrow. Use heavier ones."
        )
    said += of_overbraced((name, each.bow.nock_to_nock_m, each.brace_m) for name, each in orders.items())
    warned = [Sentence(level="caution", text=text) for text in said]
    if strange:
        warned.append(Sentence(text=f"Columns that are not used here: {named(strange)}."))
    ends = [end.section for each in lines for end in (each.wanted.order.upper, each.wanted.order.lower)]
    if any(is_pipe(section) for section in ends):
        warned.append(cautions.PIPE)
    for strand in {each.wanted.order.cord for each in lines}:
        said_of_it = (*cords.of_label(strand), *cords.counted_on(strand), *cords.cautions_of(strand))
        warned += [each for each in said_of_it if each not in warned]
    return (*warned, cautions.FIRST_BRACING, TEXT.caution("children"), cautions.DOUBT)


def plan(values: ClubInputs) -> Answer:
    """Return the answer of the club list.

    Parameters
    ----------
    values : ClubInputs
        As read.

    Raises
    ------
    DomainError
        For a list whose columns cannot be told, or without lines; a line at fault is left out and named.
    """
    found = made(values)
    lines = [each for each in found if isinstance(each, Made)]
    faults = [each for each in found if isinstance(each, Fault)]
    bows = read_bows(values.bows)
    club = sum_up([(each.wanted, each.listed) for each in lines], values.waste)
    good = {each.number for each in lines}
    makers, helpers = round(values.makers), round(values.helpers)
    day = afternoon(club.strings, makers, round(values.settle_places), values.minutes)
    slots = timetable(day, values.minutes, helpers) if lines else ()
    told = [line for line in bows.lines if isinstance(line, BowLine) and line.number in good]
    return Answer(
        rows=rows(_RESULTS, _numbers(club, lines, faults, values, day), WORKSHEET.row_texts),
        headlines=_headlines(club, day) if lines else (Sentence(level="answer", lead="No string", text=_NONE),),
        cautions=(*_too_few(makers, helpers), *_cautions(lines, faults, bows.strange)),
        leaves_out=(cautions.HITCH_TAKES_UP, *TEXT.leaves_out),
        figures=lambda system: figures(club, system),
        tables=lambda system: tables(club, lines, faults, slots, system),
        files=lambda system: files(club, lines, told, system),
    )


def _open(typed: Mapping[str, str], system: System, at: int) -> tuple[str, dict[str, str], str] | None:
    """Open the bow of one card."""
    values, problems = read_inputs(WORKSHEET, typed, system)
    try:
        lines = [] if problems else [each for each in made(ClubInputs(values)) if isinstance(each, Made)]
    except DomainError:
        return None
    return opened(typed, system, lines[at].number) if 0 <= at < len(lines) else None


_NONE = "not one line of the list can be read"

WORKSHEET = Worksheet(
    id="club",
    place=90,
    title="Strings for a club",
    purpose="From a list of bows to what to buy, what to cut, how long it takes, and a card for each bow.",
    groups=(_LIST, fields.BOW, fields.CORD, fields.ENDS, fields.METHOD, THREAD_DIAMETER.group),
    fields=(BOWS, STRINGS, _WASTE, _MINUTES, _MAKERS, _PLACES, _HELPERS, *_SHARED, THREAD_DIAMETER, SERVED_LENGTH),
    results=_RESULTS,
    plan=plan,
    inputs=ClubInputs,
    text=TEXT,
    next=(onward.AFTERNOON, *onward.HITCH),
    guides=(
        Guide(page="club-afternoon", step="cut", words="Cut the strands the night before"),
        Guide(page="club-afternoon", step="hang-club", words="Settle them all at once"),
    ),
    parts=Parts(work=work, open=_open),
)
