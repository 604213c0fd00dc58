"""The browser's only way in: JSON text to JSON text.

Ask for an answer with ``{"v": 1, "id": 7, "worksheet": "string", "system": "inch", "inputs": {...}}``; its ``told`` may
say of fields that the notebook filled in what they are ``from`` and which day that was made ``on``. Ask with
``{"v": 1, "id": 8, "convert": "string", "to": "metric", "inputs": {...}}`` to see what is typed in other
units. ``{"share": "string", "system": ..., "inputs": ..., "name": "Anna"}`` gives the ``fragment`` of a link (whose
string it is may be left out), and ``{"open": fragment, "system": ...}`` its ``worksheet`` (or null), ``inputs``, those
of them that the link itself has ``given``, ``name`` and ``notes``, which are plain sentences.
``{"part": "club", "system": ..., "inputs": ..., "from": 0, "to": 25}`` works out some lines of a long list ahead, so
that the page can show how far it has come and stop in between; its reply has ``done`` and ``of``. Ask for the answer
when they are equal: nothing is worked out twice. ``{"line": "club", ..., "at": 3}`` opens one line, counted from 0
among those that are answered, in the worksheet for it: ``worksheet``, ``inputs``, ``fragment``, ``name``, ``outcome``.
``{"figure": "strands-cut", ...}`` draws a figure of a guide with own numbers, see `calc.own_figures`: ``svg``.
``{"card": "string", "system": ..., "paper": "A4", "form": "page", "strings": [{"inputs": ..., "name": ..., "link": ...,
"code": ["0110...", ...]}]}`` gives the cards of strings, or a club's whole afternoon, as a page of HTML to print, see
`calc.paper`: ``html``.
``{"text": "string", "system": ..., "inputs": ..., "name": ..., "link": ...}`` gives an answer as plain ``text``.
``{"notebook": "edit", ...}`` and its like decide about records of the notebook, see `calc.notebook_asks`.
The reply has ``ok`` true with what was asked for, ``ok`` false with ``errors``, or a ``fault`` of ours. Whatever came,
it is JSON that can be written as UTF-8; `calc.message` says what each kind of ask must have.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from calc import share, units
from calc.errors import DomainError
from calc.message import MessageError, kind_of, number_of, read_message
from calc.plain_text import answer_text
from calc.worksheets import catalogue, one
from calc.worksheets.core import (
    Answer,
    Choice,
    Lines,
    Number,
    Tip,
    ask,
    convert_tip,
    outcome,
    read_field,
    usual,
    work_ahead,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.units import System
    from calc.worksheets.core import Complaint, Field

VERSION = 1


def handle(text: str) -> str:
    """Answer one message; never raises.

    Parameters
    ----------
    text : str
        JSON of an ask, see above.

    Returns
    -------
    str
        JSON of the reply, with the ``id`` of the ask. Only what is wrong in our own code is a ``fault``; a message that
        does not have the shape of an ask gets ``errors`` like any other.

    Examples
    --------
    >>> handle("not JSON")
    '{"v": 1, "id": null, "ok": false, "errors": [{"field": "", "others": [], \
"text": "This ask cannot be read: it is not JSON."}]}'
    """
    number: str | float | None = None
    try:
        message = read_message(text)
        number = number_of(message)
        return _written(number, _WAYS[kind_of(message)](message))
    except MessageError as error:
        return _written(number, _refused(str(error)))
    except Exception as error:  # noqa: BLE001 - a fault of ours must reach the page as words, not kill the worker
        return _written(number, {"fault": f"{type(error).__name__}: {error}"})


def _written(number: str | float | None, reply: Mapping[str, Any]) -> str:
    return json.dumps({"v": VERSION, "id": number, **reply}, ensure_ascii=False, allow_nan=False)


def _refused(text: str, field: str = "") -> dict[str, Any]:
    return {"ok": False, "errors": [{"field": field, "others": [], "text": text}]}


def _answer(message: Mapping[str, Any]) -> dict[str, Any]:
    worksheet = one(message["worksheet"])
    system = _system(message["system"])
    told = {key: (each.get("on", ""), each["from"]) for key, each in message.get("told", {}).items()}
    if told and worksheet.id == "string":
        from calc.worksheets.string.taught import ask_taught  # noqa: PLC0415 - loaded only where there is a notebook

        answer = ask_taught(_typed(message), told, system)
    else:
        answer = ask(worksheet, _typed(message), system)
    if isinstance(answer, Answer):
        return {"ok": True, "outcome": outcome(worksheet, answer, system)}
    return {"ok": False, "errors": [_error(each) for each in answer]}


def _figure(message: Mapping[str, Any]) -> dict[str, Any]:
    from calc.own_figures import draw_figure  # noqa: PLC0415 - a hundred drawings, loaded only where a guide asks for one

    return draw_figure(message)


def _notebook(message: Mapping[str, Any]) -> dict[str, Any]:
    from calc.notebook_asks import answer  # noqa: PLC0415 - loaded only where there is a notebook

    return answer(message)


def _card(message: Mapping[str, Any]) -> dict[str, Any]:
    from calc.paper import asked_html  # noqa: PLC0415 - drawings, loaded only where somebody prints

    made = asked_html(message)
    return {"ok": True, "html": made} if isinstance(made, str) else {"ok": False, "errors": [_error(e) for e in made]}


def _text(message: Mapping[str, Any]) -> dict[str, Any]:
    worksheet, system, typed = one(message["text"]), _system(message["system"]), _typed(message)
    answer = ask(worksheet, typed, system)
    if not isinstance(answer, Answer):
        return {"ok": False, "errors": [_error(each) for each in answer]}
    told = {key: str(message.get(key, "")) for key in ("name", "link")}
    return {"ok": True, "text": answer_text(worksheet, answer, typed, system, **told)}


def _part(message: Mapping[str, Any]) -> dict[str, Any]:
    worksheet, system = catalogue()[message["part"]], _system(message["system"])
    if worksheet.parts is None:
        return {"ok": True, "done": 0, "of": 0}
    start, stop = int(message["from"]), int(message["to"])
    of = work_ahead(worksheet, _typed(message), system, start, stop)
    if isinstance(of, int):
        return {"ok": True, "done": min(max(stop, 0), of), "of": of}
    return {"ok": False, "errors": [_error(each) for each in of]}


def _line(message: Mapping[str, Any]) -> dict[str, Any]:
    worksheet, system = catalogue()[message["line"]], _system(message["system"])
    opened = worksheet.parts.open(_typed(message), system, int(message["at"])) if worksheet.parts else None
    if opened is None:
        return _refused(_NO_LINE)
    key, inputs, name = opened
    other = catalogue()[key]
    link = share.encode(other, inputs, system, name)
    reply = _answer({"worksheet": other.id, "system": system, "inputs": inputs})
    return {**reply, "worksheet": other.id, "inputs": inputs, "fragment": link, "name": name}


_NO_LINE = "This line of the list cannot be opened. Put it right first."


def _typed(message: Mapping[str, Any]) -> dict[str, str]:
    return {key: str(value) for key, value in message["inputs"].items()}


def _error(complaint: Complaint) -> dict[str, Any]:
    return {"field": complaint.field, "others": list(complaint.others), "text": complaint.text}


def _convert(message: Mapping[str, Any]) -> dict[str, Any]:
    fields = {each.key: each for each in one(message["convert"]).fields}
    to = _system(message["to"])
    inputs = {
        key: convert_field(fields[key], str(text), to) if key in fields else str(text)
        for key, text in message["inputs"].items()
    }
    return {"ok": True, "inputs": inputs}


def _share(message: Mapping[str, Any]) -> dict[str, Any]:
    worksheet = catalogue()[message["share"]]
    try:
        named = str(message.get("name", ""))
        return {"ok": True, "fragment": share.encode(worksheet, _typed(message), _system(message["system"]), named)}
    except DomainError as error:
        return _refused(_NO_LINK, error.problem.field)


_NO_LINK = "This list is too long for a link. Copy its lines into a message or a file, and send that."


def _open(message: Mapping[str, Any]) -> dict[str, Any]:
    link = share.decode(str(message["open"]))
    system = _system(message["system"])
    fields = catalogue()[link.worksheet].fields if link.worksheet else ()
    inputs = {each.key: _in_units(each, link.inputs[each.key], system) for each in fields}
    told = {"inputs": inputs, "given": list(link.given), "name": link.name, "notes": list(link.notes)}
    return {"ok": True, "worksheet": link.worksheet, **told}


def _in_units(each: Field, text: str, system: System) -> str:
    """Show a text with units in the reader's units where that changes nothing, else as it is."""
    shown = convert_field(each, text, system)
    try:
        return shown if read_field(each, shown, system) == read_field(each, text, system) else text
    except DomainError:
        return text


def convert_field(each: Field, text: str, to: System) -> str:
    """Return what is typed in the other units; what cannot be read stays as it is.

    Parameters
    ----------
    each : Field
        What the text is for.
    text : str
        As typed.
    to : {"inch", "metric"}
        Units wanted.
    """
    came_from: System = "inch" if to == "metric" else "metric"
    if isinstance(each, Lines):
        return each.explicit(text, came_from)
    if not isinstance(each, Number | Tip):
        return text
    try:
        if read_field(each, text, came_from) is None:
            return text
        if isinstance(each, Tip):
            return convert_tip(each, text, to)
        return units.convert_text(text, each.quantity, low=each.low, high=each.high, to=to)
    except DomainError:
        return text


def _system(name: str) -> System:
    return "metric" if name == "metric" else "inch"


_WAYS = {
    "notebook": _notebook,
    "convert": _convert,
    "share": _share,
    "open": _open,
    "part": _part,
    "line": _line,
    "figure": _figure,
    "card": _card,
    "text": _text,
    "worksheet": _answer,
}
"""What answers each kind of ask."""


def describe(worksheet_id: str, system: System) -> dict[str, Any]:
    """Return a worksheet's form as data: groups of fields with labels, hints and prefilled text.

    Parameters
    ----------
    worksheet_id : str
        A key of `catalogue`.
    system : {"inch", "metric"}
        Units of the prefilled text.
    """
    worksheet = catalogue()[worksheet_id]
    return {
        "id": worksheet.id,
        "title": worksheet.title,
        "purpose": worksheet.purpose,
        "parts": worksheet.parts is not None,
        "guides": [{"page": each.page, "step": each.step, "words": each.words} for each in worksheet.guides],
        "groups": [
            {
                "title": group,
                "folded": group in worksheet.folded,
                "fields": [_field(each, system) for each in worksheet.fields if each.group == group],
            }
            for group in worksheet.groups
        ],
        "examples": [
            {"name": each.name, "words": each.words, "inputs": usual(worksheet, each.inputs)}
            for each in worksheet.examples
        ],
    }


def _field(each: Field, system: System) -> dict[str, Any]:
    options = each.options if isinstance(each, Choice) else ()
    warmth = isinstance(each, Number) and each.quantity == "temperature"
    return {
        "key": each.key,
        "label": each.label,
        "hint": each.hint,
        "how": list(each.how) if isinstance(each, Lines) else [],
        "kind": type(each).__name__.lower(),
        "unit_hint": units.unit_label(each.quantity, system) if isinstance(each, Number) else "",
        "unit_hint_metric": units.unit_label(each.quantity, "metric") if isinstance(each, Number) else "",
        "example": convert_field(each, each.example, system) if system == "metric" or warmth else each.example,
        "absent": each.absent,
        "options": [{"value": option.value, "label": option.label} for option in options],
    }
