"""The register of a club's equipment: each bow with its string, when it was last looked over and when it is due."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from calc.records.texts import parse_day, si_value

if TYPE_CHECKING:
    from collections.abc import Iterable

    from calc.records.notebook import Notebook
    from calc.records.record import Record

EVERY_S = 30 * 86_400.0
"""A club that has chosen no time of its own looks once a month. [s]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class RegisterLine:
    """One bow in the register.

    Attributes
    ----------
    bow, string : Record, Record or None
        The string that is on it: the one made last of those not retired.
    wanted, read, read_on : str
        Brace height wanted; as last read, and on which day.
    shots : int or None
        Since it was last looked over, where they were counted.
    looked_on : str
        The day on which it was last looked over.
    due : date or None
        When it is to be looked at next; None for a bow without a string.
    overdue : bool
        Whether that day is past.
    past : bool
        Whether the string is past the day it was to be retired by.
    """

    bow: Record
    string: Record | None
    wanted: str
    read: str
    read_on: str
    shots: int | None
    looked_on: str
    due: date | None
    overdue: bool
    past: bool


def register(notebook: Notebook, today: date, every_s: float = EVERY_S) -> tuple[RegisterLine, ...]:
    """Return a line for each bow, those to be seen to first.

    Parameters
    ----------
    notebook : Notebook
    today : date
    every_s : float, > 0
        The club's usual time between looks. [s]

    Returns
    -------
    tuple of RegisterLine
        Strings past their day, then looks overdue, then by the day they are due; bows without a string last.

    Notes
    -----
    Source: ``common-practice``; how often is the club's to choose. A string nobody ever looked over counts from the
    day it was made; where that is not told either, it is due today.
    """
    entries: dict[str, list[Record]] = {}
    for each in notebook.of("entry"):
        entries.setdefault(each.text("about"), []).append(each)
    strings: dict[str, list[Record]] = {}
    for each in notebook.of("string"):
        strings.setdefault(each.text("bow"), []).append(each)
    lines = [_line(bow, strings.get(bow.id, ()), entries, today, every_s) for bow in notebook.of("bow")]
    return tuple(sorted(lines, key=lambda line: (not line.past, line.due or date.max, _counted(line.bow.text("name")))))


def _counted(name: str) -> list[tuple[bool, int, str]]:
    """Return what sorts names as people count: 2 before 10."""
    parts = re.findall(r"([0-9]{1,9})|([^0-9]+)", name.casefold())
    return [(not number, int(number or 0), words) for number, words in parts]


def current_string(strings: Iterable[Record]) -> Record | None:
    """Return the string that is on a bow: the one made last of those that are not retired.

    Parameters
    ----------
    strings : iterable of Record
        Of one bow.
    """
    left = [each for each in strings if not each.text("retired_on")]
    return max(left, key=lambda each: (each.text("made_on"), each.changed("made_on"), each.id), default=None)


def _line(
    bow: Record, strings: Iterable[Record], entries: dict[str, list[Record]], today: date, every_s: float
) -> RegisterLine:
    string = current_string(strings)
    lines = [*entries.get(bow.id, ()), *(entries.get(string.id, ()) if string else ())]
    lines.sort(key=lambda each: (each.text("on"), each.changed("on"), each.id))
    looks = [each for each in lines if each.text("looked")]
    reads = [each for each in lines if each.text("brace_height")]
    due = _due(bow, string, looks, today, every_s)
    by = parse_day(string.text("retire_by")) if string else None
    return RegisterLine(
        bow=bow,
        string=string,
        wanted=bow.text("brace_height"),
        read=reads[-1].text("brace_height") if reads else "",
        read_on=reads[-1].text("on") if reads else "",
        shots=_shots(lines, looks),
        looked_on=looks[-1].text("on") if looks else "",
        due=due,
        overdue=due is not None and due < today,
        past=by is not None and by < today,
    )


def _due(bow: Record, string: Record | None, looks: list[Record], today: date, every_s: float) -> date | None:
    if string is None:
        return None
    own = next((told for each in (string, bow) if (told := si_value(each, "look_every")) is not None), every_s)
    since = parse_day(looks[-1].text("on")) if looks else parse_day(string.text("made_on"))
    assert isinstance(own, float | int)
    return today if since is None else since + timedelta(seconds=own)


def _shots(lines: list[Record], looks: list[Record]) -> int | None:
    """Return the shots since the last look: the count told last less the count at that look."""
    counted = [(each.text("on"), told) for each in lines if isinstance(told := si_value(each, "shots"), float | int)]
    if not counted:
        return None
    last = max(told for _, told in counted)
    if not looks:
        return int(last)
    before = [told for on, told in counted if on <= looks[-1].text("on")]
    return int(last - max(before, default=0.0))
