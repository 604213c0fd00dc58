"""What the browser's notebook asks of Python: all deciding about records. The page keeps and shows what it is told.

A record goes both ways as ``{"kind": "bow", "data": {...}}``, with its data as a file has them. Asks are
``{"notebook": way, ...}``, see `WAYS`. What comes back of a record has in ``shown`` what a list tells of it.
"""

from __future__ import annotations

from datetime import UTC, datetime
from itertools import count
from typing import TYPE_CHECKING, Any

from calc import share, units
from calc.errors import DomainError
from calc.notebook_club import bows_kept, club_list
from calc.notebook_range import at_range
from calc.records import (
    DELETED,
    EVERY_S,
    KINDS,
    PLURALS,
    DateField,
    Notebook,
    NotebookError,
    Record,
    ReferenceField,
    TextField,
    called,
    check_head,
    check_record,
    compare,
    csv_files,
    delete,
    display_text,
    edit,
    extract,
    fields_of,
    forget_person,
    initials,
    merge_change,
    parse_day,
    people,
    prefill,
    read_form,
    read_notebook,
    read_record,
    read_records,
    record_to_json,
    register,
    restore,
    write_notebook,
)
from calc.worksheets import catalogue
from calc.worksheets.core import Choice, Lines, Number, Tip, read_field, spell

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from calc.records import Prefill, RegisterLine
    from calc.units import System
    from calc.worksheets.core import Field

_TOLD = {
    "bow": ("nock_to_nock", "draw_weight", "brace_height"),
    "cord": ("colour", "fibre", "yarn", "left"),
    "hand": ("hand", "wax"),
    "string": ("made_on", "strands", "braced_height", "retired_on"),
    "entry": ("on", "shots", "brace_height", "turns_added", "looked", "found"),
}
"""What a list tells of each record, besides its name."""
_MEASURED = {"nock_to_nock", "draw_weight", "fibre", "yarn"}
"""What says enough without a word before it."""


def answer(message: Mapping[str, Any]) -> dict[str, Any]:
    """Answer an ask of the notebook.

    Parameters
    ----------
    message : mapping
        With its ``notebook`` one of `WAYS`.

    Returns
    -------
    dict
        ``ok`` true with what was asked for, or ``ok`` false with ``errors``, each a ``field`` and a ``text``.
    """
    try:
        return {"ok": True, **WAYS[message["notebook"]](message)}  # an answer with errors has its own `ok`
    except NotebookError as error:
        return _wrong({"": str(error)})


def _wrong(texts: Mapping[str, str]) -> dict[str, Any]:
    return {"ok": False, "errors": [{"field": key, "others": [], "text": text} for key, text in texts.items()]}


def _record(given: Mapping[str, Any]) -> Record:
    return read_record(str(given["kind"]), given["data"])


def _book(message: Mapping[str, Any]) -> Notebook:
    return Notebook({record.id: record for record in map(_record, message["records"])})


def _given(record: Record) -> dict[str, Any]:
    return {"kind": record.kind, "data": record_to_json(record), "shown": _shown(record)}


def _shown(record: Record) -> dict[str, Any]:
    """Return what a list tells of a record."""
    fields = fields_of(record.kind)
    words = []
    for name in _TOLD[record.kind]:
        text = display_text(record, name)
        if text:
            label = fields[name].label
            words.append(text if name in _MEASURED else f"{label[0].lower()}{label[1:]} {text}")
    return {
        "name": record.text("name") or record.text("on") or record.text("made_on"),
        "words": ", ".join(words),
        "deleted": record.is_deleted,
        "conflicts": [_conflict(record, name, texts) for name, texts in record.conflicts().items()],
        "unreadable": [] if record.is_deleted else list(check_record(record).values()),
    }


def _conflict(record: Record, name: str, texts: Iterable[str]) -> dict[str, Any]:
    if name == DELETED:
        return {"field": name, "text": "It was deleted on one device and changed on another. It is kept."}
    label = fields_of(record.kind)[name].label
    others = ", ".join(each or "nothing" for each in texts)
    now = record.text(name) or "nothing"
    return {"field": name, "text": f"{label} was changed on two devices. It is {now}; the other was {others}."}


def _fields(message: Mapping[str, Any]) -> dict[str, Any]:
    system = _system(message)
    return {"kinds": {kind: [_field(each, system) for each in fields_of(kind).values()] for kind in KINDS}}


def _field(each: Field, system: System) -> dict[str, Any]:
    shape = {Number: "number", Choice: "choice", Tip: "tip", Lines: "lines", DateField: "day", ReferenceField: "record"}
    lines = isinstance(each, TextField) and each.lines
    options = each.options if isinstance(each, Choice) else ()
    return {
        "key": each.key,
        "label": each.label,
        "hint": each.hint,
        "group": each.group,
        "shape": "lines" if lines else shape.get(type(each), "text"),
        "unit": units.unit_label(each.quantity, system) if isinstance(each, Number) else "",
        "options": [{"value": option.value, "label": option.label} for option in options],
        "kinds": list(each.kinds) if isinstance(each, ReferenceField) else [],
        "person": isinstance(each, TextField) and each.person,
    }


def _edit(message: Mapping[str, Any]) -> dict[str, Any]:
    given = message["record"]
    record = _record(given) if "data" in given else Record(str(given["kind"]), str(given["id"]))
    kept, wrong = read_form(record.kind, {key: str(text) for key, text in message["texts"].items()}, _system(message))
    if wrong:
        return _wrong(wrong)
    return {"record": _given(edit(record, kept, str(message["now"]), str(message["device"])))}


def _delete(message: Mapping[str, Any]) -> dict[str, Any]:
    now, device = str(message["now"]), str(message["device"])
    act = restore if message["notebook"] == "restore" else delete
    return {"changed": [_given(act(_record(each), now, device)) for each in message["records"]]}


def _head(message: Mapping[str, Any]) -> dict[str, Any]:
    """Say whether a file can be read at all: its text, where the page could not take it apart, or its lists' places."""
    if "text" in message:
        read_notebook(str(message["text"]))
    check_head(message.get("head"))
    return {"plurals": PLURALS}


def _merge(message: Mapping[str, Any]) -> dict[str, Any]:
    """Join some records of a file with those of the same id that are here."""
    here = {record.id: record for record in map(_record, message["ours"])}
    changes, faults = [], []
    for group in message["theirs"]:
        found, wrong = read_records(str(group["kind"]), group["data"], int(group["first"]))
        faults += wrong
        for theirs in found:
            ours = here.get(theirs.id)
            if ours is not None and ours.kind != theirs.kind:
                faults.append(f"{theirs.id} is a {ours.kind} here and a {theirs.kind} there. It is left out.")
                continue
            change = merge_change(ours, theirs)
            if change is not None:
                names = [fields_of(theirs.kind)[name].label for name in change.fields]
                changes.append({"what": change.what, "fields": names, "record": _given(change.record)})
    return {"changes": changes, "faults": faults}


def _write(message: Mapping[str, Any]) -> dict[str, Any]:
    book = _book(message)
    if message.get("ids"):
        book = extract(book, message["ids"])
    counts = {kind: sum(1 for _ in book.of(kind)) for kind in KINDS}
    counted = (f"{count} {kind if count == 1 else PLURALS[kind]}" for kind, count in counts.items() if count)
    told = ", ".join(counted) or "nothing"
    named = people(book)
    gone = sum(each.is_deleted for each in book.records.values())
    words = [f"It holds {told}."]
    if gone:
        words.append(f"{gone} deleted records go with it, so that they are deleted there too.")
    words.append(f"It names {', '.join(named)}." if named else "It names nobody.")
    return {"text": write_notebook(book), "holds": " ".join(words), "people": list(named)}


def _csv(message: Mapping[str, Any]) -> dict[str, Any]:
    return {"files": csv_files(_book(message), str(message["name"]))}


def _people(message: Mapping[str, Any]) -> dict[str, Any]:
    return {"people": [{"name": each, "initials": initials(each)} for each in people(_book(message))]}


def _forget(message: Mapping[str, Any]) -> dict[str, Any]:
    name, now, device, instead = (str(message.get(key, "")) for key in ("name", "now", "device", "instead"))
    return {"changed": [_given(each) for each in forget_person(_book(message), name, now, device, instead)]}


def _register(message: Mapping[str, Any]) -> dict[str, Any]:
    today = parse_day(str(message["today"])) or datetime.now(UTC).date()
    every = str(message.get("every", "")).strip()
    try:
        every_s = read_field(fields_of("bow")["look_every"], every, "inch") if every else None
    except DomainError:
        return _wrong({"every": "Say how often as days, like 30 d"})
    lines = register(_book(message), today, every_s if isinstance(every_s, float | int) else EVERY_S)
    return {"lines": [_line(each) for each in lines]}


def _line(line: RegisterLine) -> dict[str, Any]:
    string = line.string
    told = (string.text("name") or string.text("made_on") or "without a name") if string else ""
    return {
        "bow": line.bow.id,
        "name": line.bow.text("name") or "without a name",
        "string": string.id if string else "",
        "string_name": told,
        "wanted": line.wanted,
        "read": line.read,
        "read_on": line.read_on,
        "shots": "" if line.shots is None else str(line.shots),
        "looked_on": line.looked_on,
        "due": line.due.isoformat() if line.due else "",
        "overdue": line.overdue,
        "past": line.past,
    }


def _compare(message: Mapping[str, Any]) -> dict[str, Any]:
    book = _book(message)
    bow = book.records.get(message["bow"])
    if bow is None or bow.kind != "bow":
        raise NotebookError("This bow is not in the notebook.")
    strings, parts = compare(book, bow)
    return {"strings": strings, "parts": [{"title": title, "lines": lines} for title, lines in parts.items()]}


def _prefill(message: Mapping[str, Any]) -> dict[str, Any]:
    """Return what a bow, a cord and a hand tell each worksheet, and which fields would be theirs."""
    book = _book(message)
    chosen = [book.records[each] for each in message["chosen"] if each in book.records]
    sheets = {}
    for worksheet in catalogue().values():
        found = prefill(book, worksheet.id, (each.key for each in worksheet.fields), chosen)
        sheets[worksheet.id] = {key: _prefill_data(each) for key, each in found.items()}
    owned = {kind: list(fields_of(kind)) for kind in ("bow", "cord", "hand")}
    return {"sheets": sheets, "owned": owned}


def _prefill_data(each: Prefill) -> dict[str, str]:
    record = each.record
    string = {"string": record.id, "on": record.text("made_on")} if record.kind == "string" else {}
    return {"text": each.text, "from": called(record), **string}


def _put_down(message: Mapping[str, Any]) -> dict[str, Any]:
    """Make records of what stands in a sheet: a string, and where none is chosen the bow and the cord as well."""
    worksheet, system = catalogue()[str(message["worksheet"])], _system(message)
    inputs = {key: str(text) for key, text in message["inputs"].items()}
    asked = {each.key: each for each in worksheet.fields}
    spelled = {key: spell(asked[key], text, system) for key, text in inputs.items() if key in asked and text.strip()}
    now, device, ids = str(message["now"]), str(message["device"]), message["ids"]
    made = []

    def put(kind: str, texts: Mapping[str, str]) -> str:
        kept, _ = read_form(kind, {name: text for name, text in texts.items() if name in fields_of(kind)}, system)
        made.append(edit(Record(kind, str(ids[kind])), kept, now, device))
        return str(ids[kind])

    chosen = {kind: str(message["chosen"].get(kind, "")) for kind in ("bow", "cord", "hand")}
    bow = chosen["bow"] or put("bow", {**spelled, "name": str(message["name"])})
    cord = chosen["cord"] or put("cord", {**spelled, "name": _cord_name(spelled)})
    if message.get("string"):
        results = {name: str(text) for name, text in message["string"].items()}
        plan = share.encode(worksheet, inputs, system)
        links = {"bow": bow, "cord": cord, "maker": chosen["hand"], "plan": plan, "made_on": str(message["today"])}
        own = {name: spelled[name] for name in ("hand", "bundles", "tail_length") if name in spelled}
        put("string", {**own, **results, **links})
    return {"changed": [_given(each) for each in made], "bow": bow, "cord": cord}


def _club_list(message: Mapping[str, Any]) -> dict[str, Any]:
    return {"text": club_list(_book(message))}


def _club_bows(message: Mapping[str, Any]) -> dict[str, Any]:
    ids = (f"{message['new']}-{at}" for at in count())
    stamp = (str(message["now"]), str(message["device"]))
    made, faults = bows_kept(_book(message), str(message["text"]), _system(message), ids, stamp)
    return {"changed": [_given(each) for each in made], "faults": faults}


def _cord_name(spelled: Mapping[str, str]) -> str:
    return " ".join(filter(None, (spelled.get("fibre", ""), spelled.get("yarn", ""))))


def _range(message: Mapping[str, Any]) -> dict[str, Any]:
    book = _book(message)
    string = book.records.get(message["string"])
    if string is None or string.kind != "string":
        raise NotebookError("This string is not in the notebook.")
    return at_range(book, string, message["read"], _system(message))


def _system(message: Mapping[str, Any]) -> System:
    return "metric" if message.get("system") == "metric" else "inch"


WAYS = {
    "fields": _fields,
    "edit": _edit,
    "delete": _delete,
    "restore": _delete,
    "head": _head,
    "merge": _merge,
    "write": _write,
    "csv": _csv,
    "people": _people,
    "forget": _forget,
    "register": _register,
    "compare": _compare,
    "prefill": _prefill,
    "put_down": _put_down,
    "club_list": _club_list,
    "club_bows": _club_bows,
    "range": _range,
}
"""What can be asked; the keys of each ask are read by its function."""
