"""The notebook at the range: what a string reads, the turns to what is wanted, and whether it has settled."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc import share, units
from calc.records import (
    AHEAD,
    check_record,
    fit_settling,
    height_readings,
    prefill,
    si_value,
)
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, Choice, ask, by_key, fill, usual

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from calc.records import Notebook, Record
    from calc.units import System

_FEW = 5
_PLANNED = {"turns": "turns_body", "cord_diameter": "cord_diameter", "bundle_diameter": "bundle_diameter"}
"""What the plan of a string tells where it was not measured, by the sheet's names."""


def at_range(notebook: Notebook, string: Record, now: str, system: System) -> dict[str, Any]:
    """Tell what a string reads and how to bring it to the brace height wanted.

    Parameters
    ----------
    notebook : Notebook
        With the string's bow and the dated lines about the string.
    string : Record
    now : str
        The brace height that is read now; empty where nothing was read yet.
    system : {"inch", "metric"}

    Returns
    -------
    dict
        Texts: ``wanted``, ``turns`` or ``why`` there are none, ``settling``, and the last ``readings``.
    """
    bow = notebook.records.get(string.text("bow"))
    entries = [each for each in notebook.of("entry") if each.text("about") == string.id]
    wanted = bow.text("brace_height") if bow else ""
    told: dict[str, Any] = {
        "wanted": wanted,
        "turns": "",
        "why": "",
        "settling": _settled_words(entries, system),
        "readings": _last(entries, system),
        "nock_height": string.text("nock_height"),
        "served_diameter": string.text("served_diameter"),
    }
    if not bow or not wanted or not bow.text("nock_to_nock"):
        return told | {"why": "Give the bow its length and the brace height wanted, and the turns are told here."}
    if not now:
        return told
    return told | _turns(notebook, bow, string, entries, now=now, system=system)


def tuning_inputs(notebook: Notebook, bow: Record, string: Record) -> dict[str, str]:
    """Return what is known of a string for the tuning sheet; what is not is left open, never taken from its example.

    Parameters
    ----------
    notebook : Notebook
    bow, string : Record
    """
    sheet = catalogue()["tune"]
    known = prefill(notebook, sheet.id, (each.key for each in sheet.fields), (bow,))
    inputs = {each.key: each.absent or (each.example if isinstance(each, Choice) else "") for each in sheet.fields}
    inputs |= {"limb_shape": "unknown", "tail_length": usual(sheet)["tail_length"]}
    inputs |= {key: each.text for key, each in known.items() if each.record.kind == "bow"}
    wrong = check_record(string)
    own = {key: string.text(key) for key in inputs if key in string.heads and key not in wrong}
    return inputs | planned(string) | {key: text for key, text in own.items() if text}


def planned(string: Record) -> dict[str, str]:
    """Return what the plan of a string says it would be: turns in the body, thickness of its bundles and cord.

    Parameters
    ----------
    string : Record
    """
    link = share.decode(string.text("plan"))
    if link.worksheet != "string" or not link.given:
        return {}
    answer = ask(catalogue()["string"], link.inputs, "inch")
    if not isinstance(answer, Answer):
        return {}
    rows = by_key(answer.rows)
    found = {name: rows[key] for name, key in _PLANNED.items() if key in rows}
    return {name: units.show(row.spread.value, row.quantity, "metric") for name, row in found.items()}


def _turns(
    notebook: Notebook, bow: Record, string: Record, entries: Iterable[Record], *, now: str, system: System
) -> dict[str, Any]:
    sheet = catalogue()["tune"]
    inputs = tuning_inputs(notebook, bow, string) | {"brace_now": now}
    turned = sorted(
        (each for each in entries if si_value(each, "turns_added") and each.text("brace_height")),
        key=lambda each: (each.text("on"), si_value(each, "shots") or 0.0, each.changed("turns_added")),
    )
    inputs |= _counted(inputs, turned)
    taught = _taught(turned[-2:])
    for more in (taught, {}) if taught else ({},):
        answer = ask(sheet, inputs | more, system)
        if isinstance(answer, Answer):
            rows = by_key(answer.rows)
            first = answer.headlines[0]
            apart = (
                "Earlier readings do not go together with this one, so they are left out. " if taught != more else ""
            )
            told = fill(first.text, rows, system).partition(":")[0]
            said = f"{apart}{told[0].upper()}{told[1:]}"
            span = fill(first.span, rows, system)
            return {"turns": said, "between": span, "why": ""}
    assert not isinstance(answer, Answer)
    return {"why": " ".join(f"{each.text}." for each in answer)}


def _counted(inputs: Mapping[str, str], turned: Iterable[Record]) -> dict[str, str]:
    """Return the turns in the body now: those it was made with and what was put in since."""
    try:
        made = float(inputs["turns"].split()[0])
    except (ValueError, IndexError):
        return {}
    added = sum(float(told) for each in turned if isinstance(told := si_value(each, "turns_added"), float | int))
    return {"turns": f"{made + added:g}"}


def _taught(turned: list[Record]) -> dict[str, str]:
    """Return what turns did before, as the tuning sheet asks it."""
    found: dict[str, str] = {}
    for which, each in zip(("first", "second"), turned, strict=False):
        found |= {f"brace_{which}": each.text("brace_height"), f"turns_{which}": each.text("turns_added")}
    return found


def _last(entries: Iterable[Record], system: System) -> list[dict[str, Any]]:
    found = [each for each in entries if isinstance(si_value(each, "brace_height"), float | int)]
    found.sort(key=lambda each: (each.text("on"), si_value(each, "shots") or 0.0, each.changed("brace_height")))
    return [
        {
            "on": each.text("on"),
            "shots": each.text("shots"),
            "height": each.text("brace_height"),
            "value": units.number_in(float(height), "length", system),
        }
        for each in found[-_FEW:]
        if isinstance(height := si_value(each, "brace_height"), float | int)
    ]


def _settled_words(entries: Iterable[Record], system: System) -> str:
    readings = height_readings(entries)
    found = fit_settling(readings)
    if found is None:
        left = 3 - len({each.shots for each in readings})
        return f"Read it {left} more time{'s' if left > 1 else ''}, with the shots, to see whether it has settled."
    by = units.show(abs(found.drop_m), "length", system)
    if found.settled:
        return f"Settled: less than you can read off will change in {AHEAD} shots."
    if found.drop_m < 0.0:
        return "It rises from shot to shot, which no settling does. Read it again, and see whether the turns moved."
    return f"Still settling: about {by} lower in {AHEAD} more shots."
