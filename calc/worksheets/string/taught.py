"""What strings of a notebook taught the bench sheet: said string by string, with the range before it and with it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc import units
from calc.errors import DomainError
from calc.records import TAUGHT
from calc.worksheets.core import Answer, Complaint, Sentence, ask
from calc.worksheets.string.learnt import APART
from calc.worksheets.string.sheet import WORKSHEET, StringInputs, answer_of, planned

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from calc.making.string import Plan
    from calc.numerics import Spread
    from calc.units import Quantity, System

_LEAST = 0.1
"""What moves or narrows by less of a range is not worth a word. [-]"""
_MOST = 3
_TINY_M = 0.0015
"""Nobody sees so little of a handle or of set."""
_SLIGHT, _CLEAR = 0.05, 0.3
"""Limbs that lean from what was told by less are not told apart from it; by more, they do so clearly. [-]"""


@dataclass(frozen=True, slots=True)
class _Lesson:
    """A string that was made: the day, what it is called, and the fields it fills in."""

    on: str
    called: str
    keys: tuple[str, ...]


def ask_taught(
    inputs: Mapping[str, str], told: Mapping[str, tuple[str, str]], system: System
) -> Answer | tuple[Complaint, ...]:
    """Answer the bench sheet, and say what each string taught that the notebook filled in.

    Parameters
    ----------
    inputs : mapping of str to str
        What stands in the sheet, by field.
    told : mapping of str to (str, str)
        By field, the day like ``2026-05-03`` and the name of the record its text is from. Only `TAUGHT` fields count.
    system : {"inch", "metric"}
        As for `ask`.

    Returns
    -------
    Answer or tuple of Complaint
        As `ask` gives them. Strings that do not go together are named, and those without which the rest does.
    """
    strings = _strings(told)
    if not strings:
        return ask(WORKSHEET, inputs, system)
    found: dict[str, StringInputs] = {}

    def answer(values: StringInputs) -> Answer:
        found["values"] = values
        return _answer(values, strings, system)

    given = ask(replace(WORKSHEET, plan=answer), inputs, system)
    if isinstance(given, Answer) or not found or given[0].field not in told:
        return given
    named = _at_fault(found["values"], strings)
    return tuple(replace(each, text=f"{each.text}. {named}".rstrip(".")) for each in given)


def _strings(told: Mapping[str, tuple[str, str]]) -> tuple[_Lesson, ...]:
    """Return the strings that fill fields in, the oldest first."""
    by: dict[tuple[str, str], list[str]] = {}
    for key, source in told.items():
        if key in TAUGHT:
            by.setdefault(source, []).append(key)
    return tuple(_Lesson(on, called, tuple(keys)) for (on, called), keys in sorted(by.items()))


def _answer(values: StringInputs, strings: tuple[_Lesson, ...], system: System) -> Answer:
    made = planned(values)
    if made.moves.misfit > APART:
        return answer_of(made, values, _at_fault(values, strings))
    said: list[Sentence] = []
    after = made
    for place in reversed(range(len(strings))):
        before = planned(_without(values, strings[place:]), made.unread)
        said.insert(0, _said(strings[place], before, after, system))
        after = before
    given = answer_of(made, values)
    return replace(given, headlines=(*given.headlines, *said))


def _without(values: StringInputs, strings: tuple[_Lesson, ...]) -> StringInputs:
    """Return what was read without what is from some strings; a second reading that is left goes first."""
    gone = {key for each in strings for key in each.keys}
    left = {key: None if key in gone else each for key, each in vars(values).items()}
    for key in ("measured_string", "measured_brace"):
        if key in gone and left[f"{key}_2"] is not None:
            left |= {key: left[f"{key}_2"], f"{key}_2": None}
    return StringInputs(left)


def _at_fault(values: StringInputs, strings: tuple[_Lesson, ...]) -> str:
    """Name the strings, and those without which the rest goes together."""
    without = [each.called for each in strings if _goes_together(_without(values, (each,)))]
    whose = " and ".join(f"the {each.called}" for each in strings)
    if not without:
        return f"The notebook has some of them from {whose}. More than one is at fault."
    one = " or without the ".join(without)
    return f"The notebook has some of them from {whose}. Without the {one}, the rest goes together: leave it out there."


def _goes_together(values: StringInputs) -> bool:
    try:
        return planned(values).moves.misfit <= APART
    except DomainError:
        return False


def _said(string: _Lesson, before: Plan, after: Plan, system: System) -> Sentence:
    learnt = sorted(_learnt(before, after, system), reverse=True)[:_MOST]
    words = ", ".join(text for _, text in learnt) or "bow, cord and hand are surer together, none of them by itself"
    was, now = (_range(each.figures["brace_height"], system) for each in (before, after))
    span = f"untuned {was} before it, {now} with it"
    if was == now and not learnt:
        words, span = "nothing that was not known", f"untuned {now}, as before it"
    return Sentence(level="answer", lead=f"From the {string.called}", text=words, span=span)


def _range(spread: Spread, system: System) -> str:
    return " to ".join(units.show(end, "length", system) for end in (spread.low, spread.high))


def _learnt(before: Plan, after: Plan, system: System) -> list[tuple[float, str]]:
    """Return how much surer each thing is, and what to say of it."""

    def cause(name: str) -> Callable[[Plan], Spread]:
        return lambda plan: plan.moves.spread(lambda at: at[name])

    def shown(words: str, quantity: Quantity) -> Callable[[float], str]:
        return lambda value: words.format(units.show(value, quantity, system))

    def off(none: str, more: str, less: str) -> Callable[[float], str]:
        return lambda value: shown(none if abs(value) < _TINY_M else more if value > 0.0 else less, "length")(
            abs(value)
        )

    asked: tuple[tuple[Callable[[Plan], Spread], Callable[[float], str]], ...] = (
        (lambda plan: plan.figures["take_up_loop"], shown("your loops took {}", "fraction")),
        (cause("limb"), lambda value: _bend(value, after)),
        (cause("strain"), shown("it stretched {} on the braced bow", "fraction")),
        (cause("bedding"), shown("its lay bedded in by {}", "fraction")),
        (cause("handle"), shown("your handle is stiff over {}", "length")),
        (cause("proud"), off("your handle is flush", "your handle stands {} proud", "your handle lies {} deep")),
        (
            cause("follow"),
            off("your bow has no set", "your bow follows the string by {}", "your bow is reflexed by {}"),
        ),
    )
    found = []
    for figure, words in asked:
        was, now = figure(before), figure(after)
        wide = was.high - was.low
        if wide > 0.0:
            surer = 1.0 - (now.high - now.low) / wide
            moved = abs(now.value - was.value) / wide
            if max(surer, moved) > _LEAST:
                found.append((surer + moved, words(now.value)))
    return found


def _bend(lean: float, plan: Plan) -> str:
    """Say how limbs bend, against what was told."""
    told = "an arc" if plan.order.bow.shape in {None, "arc"} else "you chose"
    if abs(lean) < _SLIGHT:
        return f"your bow bends as {told}"
    much = "" if abs(lean) > _CLEAR else "a little "
    return f"your bow bends {much}more {'near the handle' if lean > 0.0 else 'towards its tips'} than {told}"
