"""The card of a string: what was typed into the bench sheet, as paper.

The answers of *Settle the stretch* and *Serve the centre* for the same string stand on it too.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypeAlias

from calc import units
from calc.data import practice
from calc.draw import escaped
from calc.draw.cards import (
    PAPERS,
    CardFact,
    CardFacts,
    Placed,
    cut_lines,
    full_card,
    page_svg,
    pocket_card,
    pocket_places,
)
from calc.draw.string import FlatZone
from calc.paper.strips import bundle_strip, loop_gauges, peg_strip
from calc.paper.styles import card_style, page_html
from calc.plain_text import lines_of_text, whole_measures
from calc.share import clean_name
from calc.worksheets import one
from calc.worksheets.core import (
    Answer,
    Choice,
    Number,
    Tip,
    ask,
    by_key,
    convert_tip,
    fill,
    range_words,
    read_field,
    show_row,
    usual,
)

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from calc.draw.cards import Paper
    from calc.geometry.lay import Hand
    from calc.units import System
    from calc.worksheets.core import Complaint, Field
    from calc.worksheets.core.schema import Row

Form: TypeAlias = Literal["page", "pocket", "strip", "pegs", "gauges"]
FORMS: tuple[Form, ...] = ("page", "pocket", "strip", "pegs", "gauges")
_ZONES = (
    ("tail", "tail", "mark_tail_upper"),
    ("loop", "loop_upper", "mark_loop_upper"),
    ("body", "body_raw", "mark_body"),
    ("loop", "loop_lower", "mark_loop_lower"),
    ("tail", "tail", "mark_tail_lower"),
)
"""Kind, row of its length, row of the mark at its far end."""


@dataclass(frozen=True, slots=True)
class _Answered:
    """An answer with what was typed for it."""

    inputs: Mapping[str, str]
    answer: Answer
    rows: Mapping[str, Row]
    system: System

    def fact(self, label: str, key: str) -> CardFact:
        """Return a row as a line of the card."""
        return CardFact(label, self.shown(key), self.range(key))

    def shown(self, key: str) -> str:
        """Return the number of a row, as printed."""
        return whole_measures(show_row(self.rows[key], self.system))

    def range(self, key: str) -> str:
        """Return the range of a row, as printed; empty where it is sure."""
        return whole_measures(range_words(self.rows[key], self.system))

    def typed(self, key: str) -> str:
        """Return what was typed into a field of the bench sheet, in the card's units."""
        field, text = _field(key), self.inputs[key]
        if isinstance(field, Tip):
            return whole_measures(convert_tip(field, text, self.system))
        value = read_field(field, text, self.system)
        if isinstance(field, Number) and isinstance(value, float):
            text = units.show(value, field.quantity, self.system)
        return whole_measures(text)

    def choice(self, key: str) -> str:
        """Return what was chosen in the bench sheet, in words."""
        field = _field(key)
        assert isinstance(field, Choice)
        return next(each.label for each in field.options if each.value == self.inputs[key])

    def filled(self, text: str) -> str:
        """Put the numbers of rows into a sentence."""
        return whole_measures(fill(text, self.rows, self.system))


def _field(key: str) -> Field:
    return next(each for each in one("string").fields if each.key == key)


def card_facts(
    inputs: Mapping[str, str],
    system: System,
    *,
    name: str = "",
    link: str = "",
    code: tuple[tuple[bool, ...], ...] = (),
) -> CardFacts | tuple[Complaint, ...]:
    """Return what stands on the card of a string.

    Parameters
    ----------
    inputs : mapping of str to str
        Typed into the bench sheet, by field key; what is left out is as usual.
    system : {"inch", "metric"}
        Units of bare numbers and of the card.
    name : str
        Whose string or which bow; only what a link carries of it stands on the card.
    link : str
        Back to the live sheet.
    code : tuple of tuple of bool
        The link as a square code, see `CardFacts`.

    Returns
    -------
    CardFacts or tuple of Complaint
    """
    string = _ask_sheet("string", inputs, system)
    if not isinstance(string, _Answered):
        return string
    settle = _after(string, "settle")
    serving = _after(string, "serving")
    bundles, strands = int(string.inputs["bundles"]), int(string.rows["strands"].spread.value)
    hand: Hand = "S" if string.inputs["hand"] == "S" else "Z"
    return CardFacts(
        name=clean_name(name),
        cut=string.fact("Every strand", "cut_length"),
        bow=_bow(string),
        cord=_cord(string),
        turns=_turns(string, hand),
        use=(*_brace(string), *_settle(settle), *_serve(serving)),
        strength=_strength(string),
        short=_short(string, settle),
        zones=tuple(_zone(string, *each) for each in _ZONES),
        strands=strands,
        bundles=bundles,
        step_m=string.rows["step"].spread.value,
        tail_m=string.rows["tail"].spread.value,
        lay_rad=string.rows["body_lay"].spread.value,
        cord_m=string.rows["cord_diameter"].spread.value,
        tips=tuple((string.typed(f"tip_{end}"), string.inputs[f"loop_fit_{end}"]) for end in ("upper", "lower")),
        hand=hand,
        system=system,
        cautions=_cautions(string),
        unsure=_unsure(string),
        link=link,
        code=code,
    )


def _ask_sheet(worksheet_id: str, inputs: Mapping[str, str], system: System) -> _Answered | tuple[Complaint, ...]:
    worksheet = one(worksheet_id)
    typed = usual(worksheet, inputs)
    answer = ask(worksheet, typed, system)
    return _Answered(typed, answer, by_key(answer.rows), system) if isinstance(answer, Answer) else answer


def _after(string: _Answered, worksheet_id: str) -> _Answered | None:
    """Put what is typed and worked out of a string to another worksheet, as the site carries it from sheet to sheet."""
    keys = [each.key for each in one(worksheet_id).fields]
    worked = {key: show_row(string.rows[key], string.system) for key in keys if key in string.rows}
    typed = {key: string.inputs[key] for key in keys if key in string.inputs}
    told = _ask_sheet(worksheet_id, {**typed, **worked, **string.answer.known}, string.system)
    return told if isinstance(told, _Answered) else None


def _bow(string: _Answered) -> tuple[CardFact, ...]:
    tips = " and ".join(dict.fromkeys(string.typed(key) for key in ("tip_upper", "tip_lower")))
    draw = f"{string.shown('draw_weight')} at {string.typed('draw_length')}"
    return (
        CardFact("Bow", f"{string.shown('nock_to_nock')} nock to nock"),
        CardFact("draws", draw),
        CardFact("tips", tips),
        CardFact("brace", string.shown("brace_wanted")),
    )


def _cord(string: _Answered) -> tuple[CardFact, ...]:
    return (
        CardFact("Fibre", string.choice("fibre")),
        string.fact("One strand weighs", "yarn"),
        string.fact("Cord in all", "cord_total"),
        string.fact("Body is thick", "cord_diameter"),
    )


def _turns(string: _Answered, hand: Hand) -> tuple[CardFact, ...]:
    other = "S" if hand == "Z" else "Z"
    return (
        string.fact(f"First roll each bundle, {other}", "counter_twist_body"),
        string.fact(f"Body, {hand}", "turns_body"),
        string.fact("Upper loop", "turns_loop"),
        string.fact("Lower loop", "turns_loop_lower"),
        string.fact("Each splice", "turns_splice"),
    )


def _brace(string: _Answered) -> tuple[CardFact, ...]:
    reach = f"{string.shown('brace_low')} to {string.shown('brace_high')}"
    return CardFact("Brace at", string.shown("brace_wanted")), CardFact("By turns alone", reach)


def _settle(settle: _Answered | None) -> tuple[CardFact, ...]:
    if settle is None:
        return ()
    hang = f"{settle.shown('hanging_weight')} for {settle.shown('hang_time')}"
    return CardFact("Hang, somebody by", hang), settle.fact("Fresh and slack", "make_length")


def _serve(serving: _Answered | None) -> tuple[CardFact, ...]:
    if serving is None:
        return ()
    place = f"{serving.shown('above_nock')} above, {serving.shown('below_nock')} below the nocking point"
    above = practice("nock_above").spread
    value, low, high = (
        whole_measures(units.show(each, "length", serving.system)) for each in (above.value, above.low, above.high)
    )
    return (
        CardFact("Serve", place),
        serving.fact("Served, thick", "served_diameter"),
        CardFact("Nock above square, first", value, f"{low} to {high}"),
    )


def _strength(string: _Answered) -> tuple[CardFact, ...]:
    holds = next(each for each in string.answer.headlines if each.lead == "Strength")
    return (
        CardFact("Strength", string.filled(holds.text), string.range("safety_factor")),
        string.fact("Breaks at", "breaking_force"),
        string.fact("Braced pull", "tension_brace"),
    )


def _short(string: _Answered, settle: _Answered | None) -> tuple[CardFact, ...]:
    low, high = string.shown("brace_low"), string.shown("brace_high")
    held = CardFact("Holds, in hardest pulls", f"{string.shown('safety_factor')} ({string.range('safety_factor')})")
    return _brace(string)[0], CardFact("By turns, from and to", f"{low}, {high}"), *_settle(settle)[:1], held


def _unsure(string: _Answered) -> tuple[str, ...]:
    low, high = (string.filled(f"{{brace_height.{end}}}") for end in ("low", "high"))
    return (f"Before any tuning it may brace anywhere from {low} to {high}. Numbers in brackets are such ranges.",)


def _cautions(string: _Answered) -> tuple[str, ...]:
    """Return the cautions: those that are always given first, then the others in their order."""
    some = sorted((each for each in string.answer.cautions if each.level == "caution"), key=lambda it: not it.standing)
    return tuple(string.filled(each.text) for each in some)


def _zone(string: _Answered, kind: str, length: str, mark: str) -> FlatZone:
    return FlatZone(kind, string.rows[length].spread.value, string.shown(length), string.shown(mark))


def card_pages(cards: Sequence[CardFacts], paper: str, form: Form = "page") -> tuple[str, ...]:
    """Return printed pages of strings as SVG.

    Parameters
    ----------
    cards : sequence of CardFacts
        At least one.
    paper : {"A4", "Letter"}
    form : {"page", "pocket", "strip", "pegs", "gauges"}
        One card a page or four for the pocket; or in true size the marks of each bundle on a strip, those of the pegs
        round which its strands are wound, or gauges for loops.

    Returns
    -------
    tuple of str
        One SVG element a page.
    """
    sheet = PAPERS[paper]
    match form:
        case "page":
            pages = [full_card(each, sheet) for each in cards]
        case "pocket":
            pages = _pocket_pages(cards, sheet)
        case "strip":
            pages = [page for each in cards for page in bundle_strip(each, sheet)]
        case "pegs":
            pages = [page for each in cards for page in peg_strip(each, sheet)]
        case "gauges":
            pages = [page for each in cards for page in loop_gauges(each, sheet)]
    return svg_pages(pages, paper, cards[0].title if len(cards) == 1 else f"{len(cards)} strings")


def svg_pages(pages: Sequence[tuple[Placed, ...]], paper: str, title: str) -> tuple[str, ...]:
    """Return pages of drawings as SVG, one element a page.

    Parameters
    ----------
    pages : sequence of tuple of Placed
    paper : {"A4", "Letter"}
    title : str
        What they are, without their number.
    """
    return tuple(
        page_svg(PAPERS[paper], placed, prefix=f"card-{index}", title=f"{title}, page {index + 1} of {len(pages)}")
        for index, placed in enumerate(pages)
    )


def _pocket_pages(cards: Sequence[CardFacts], paper: Paper) -> list[tuple[Placed, ...]]:
    places = pocket_places(paper)
    pages = []
    for start in range(0, len(cards), len(places)):
        lines = cut_lines(paper)
        placed = [Placed(lines, lines.frame.left, lines.frame.top)]
        for facts, place in zip(cards[start : start + len(places)], places, strict=False):
            placed += pocket_card(facts, place)
        pages.append(tuple(placed))
    return pages


def card_html(cards: Sequence[CardFacts], paper: str, form: Form = "page") -> str:
    """Return cards as one whole page of HTML that prints on the paper it is for.

    Parameters
    ----------
    cards, paper, form
        As for `card_pages`.
    """
    pages = "\n".join(card_pages(cards, paper, form))
    title = escaped(cards[0].title if len(cards) == 1 else f"{len(cards)} string cards")
    return page_html(title, card_style(paper), pages)


def card_text(facts: CardFacts) -> str:
    """Return a card as plain text, no line longer than 40 characters, to paste into a message.

    Parameters
    ----------
    facts : CardFacts
        What stands on the card.
    """
    bundle = facts.strands // facts.bundles
    lines = [facts.title, *(f"{each.label} {each.value}" for each in facts.bow), ""]
    lines += [f"Cut {facts.strands} strands ({facts.bundles} bundles of {bundle}), each {_with_range(facts.cut)}"]
    lines += ["Mark each bundle, from its left end:"]
    lines += [f"- {zone.name.lower()} {zone.length_text}, to {zone.mark_text}" for zone in facts.zones]
    for title, some in (("Turns", facts.turns), ("Use", facts.use), ("Strength", facts.strength)):
        lines += [
            "",
            title,
            *(f"- {one.label}: {one.value}" + (f" ({one.range})" if one.range else "") for one in some),
        ]
    lines += ["", *facts.unsure, "", *facts.cautions]
    wrapped = [part for line in lines for part in lines_of_text(line)]
    return "\n".join([*wrapped, *([facts.link] if facts.link else [])]) + "\n"


def _with_range(fact: CardFact) -> str:
    return f"{fact.value} ({fact.range})" if fact.range else fact.value
