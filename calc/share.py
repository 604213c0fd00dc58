"""The inputs of a worksheet as the end of a link, and back: readable, short, and good for ever.

A link reads ``v2/string/mm?for=Anna&nock=1575mm&hand=S&end=7k2m``: the version of this code, the worksheet, ``mm``
where the sender measures so, whose string it is where that is known, what differs from the usual measures, and a check
that nothing got lost on the way. Every measure carries its unit, so a link means the same to every reader. A link that
was damaged is not half believed.

What may change here, and what may not: see `EARLIER`, `WORDS` and `RENAMED`.
"""

from __future__ import annotations

import re
from binascii import crc32
from dataclasses import dataclass, field
from typing import TYPE_CHECKING
from urllib.parse import quote_plus, unquote_plus

from calc.errors import DomainError, Problem
from calc.worksheets import catalogue
from calc.worksheets.core import LONGEST, Lines, read_field, spell, usual

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from calc.units import System
    from calc.worksheets.core import Field, Worksheet

VERSION = 4
EARLIER: dict[int, dict[str, dict[str, str]]] = {
    1: {
        "strands": {"limb_shape": "unknown"},
        "cord-test": {"limb_shape": "unknown"},
        "cuts": {"bundle_diameter": "0.045 in", "strands": "12", "finished_length": "62 13/16 in", "fibre": "unknown"},
        "twist": {"bundle_diameter": "0.045 in"},
        "loops": {"cord_diameter": "0.090 in"},
        "tune": {"cord_diameter": "0.090 in"},
        "serving": {"cord_diameter": "0.090 in", "nock_throat": "0.125 in"},
    },
    2: {"cuts": {"finished_length": "63 1/16 in"}},
    3: {
        "spares": {
            "bows": "name; nock to nock (in); draw weight (lb); draw length (in); brace height (in); colour\n"
            "Ash longbow; 66; 40; 26; 6 1/2; green\n"
            "Hazel; 60; 30; 24; 6; green / white\n"
            "Elm, for guests; 62 1/2; 35; 25; 6 1/4; white\n"
            "Junior; 48; 15; 20; 5 1/2; white"
        }
    },
}
"""Usual measures as they were in an earlier version: version, worksheet, field. A link leaves out what is usual, so
whoever changes a field's example raises `VERSION` and writes here what it was."""
WORDS = {
    "nock_to_nock": "nock",
    "handle_length": "handle",
    "limb_shape": "limbs",
    "draw_weight": "pull",
    "draw_length": "draw",
    "draw_from": "from",
    "brace_height": "brace",
    "bench_temperature": "heat",
    "tip_upper": "top",
    "tip_lower": "low",
    "loop_fit_upper": "topfit",
    "loop_fit_lower": "lowfit",
    "tail_length": "tails",
    "handle_proud": "proud",
    "string_follow": "set",
    "thread_gap": "gap",
    "tip_contact": "lies",
    "measured_string": "was",
    "measured_brace": "braced",
    "measured_string_2": "was2",
    "measured_brace_2": "braced2",
    "trial_before": "piece",
    "trial_after": "hung",
    "trial_loaded": "under",
    "trial_weight": "weight",
    "earlier_body": "body",
    "earlier_turns": "turned",
    "earlier_brace": "gave",
    "earlier_body_2": "body2",
    "earlier_turns_2": "turned2",
    "earlier_brace_2": "gave2",
    "broken_load": "broke",
}
"""Short words for long field names; a word once used keeps its meaning. Other fields go by their names."""
RENAMED: dict[str, dict[str, str]] = {}
"""Names that fields had in links before: worksheet, old name, key now."""
OPEN = "none"
"""Stands for a field left open."""

_END = "end"
_FOR = "for"
_LONGEST_NAME = 60
_LONGEST_LINK = 200_000
_LETTERS = "bcdfghjkmnpqrstvwxyz23456789"
_HEAD = re.compile(r"v(\d{1,4})/([a-z0-9-]{1,40})(/mm)?")
_NAME = re.compile(r"[a-z][a-z0-9_-]{0,40}")
_TRAILING = ".,;:!?)]}>'\"*_~ \t\r\n"
"""What a messenger or a sentence may have hung on to a link; a link itself ends in its check."""
_FORBIDDEN = re.compile(r"[<>\x00-\x1f\x7f-\x9f\u2028\u2029]")
_FOREIGN = "This is not a link of these worksheets. The usual measures stand here."
_TOO_LONG = "This link is longer than any that these worksheets make. The usual measures stand here."
_DAMAGED = (
    "This link is damaged: a part of it is lost or changed. The usual measures stand here. Ask for the link again."
)
_NEWER = (
    "This link was made with a newer version of these worksheets. Reload the page to get that version, "
    "or check every measure below."
)
_NO_SHEET = "This link is for a worksheet that is not here: {name}."
_LEFT_OUT = "This link holds more than this worksheet asks. Left out: {names}."
_NOT_READ = "The link's {name} cannot be read here. The usual one stands: {example}."


@dataclass(frozen=True, slots=True)
class Link:
    """What a link says.

    Attributes
    ----------
    worksheet : str or None
        Its id; None where the link names none that is here.
    inputs : mapping of str to str
        Typed text for every field of the worksheet; what the link leaves out has the usual text.
    system : {"inch", "metric"}
        Units of the sender. The inputs carry their own.
    notes : tuple of str
        Sentences about what could not be taken over; plain text.
    given : tuple of str
        Fields that the link itself tells; the others have the usual text.
    name : str
        Whose string it is, as plain text; may be empty.
    """

    worksheet: str | None
    inputs: Mapping[str, str]
    system: System
    notes: tuple[str, ...] = ()
    given: tuple[str, ...] = field(default=(), compare=False)
    name: str = ""


def encode(worksheet: Worksheet, inputs: Mapping[str, str], system: System, name: str = "") -> str:
    """Write typed inputs as the end of a link.

    Parameters
    ----------
    worksheet : Worksheet
        The declaration.
    inputs : mapping of str to str
        What is typed, by field key; a key the worksheet does not have is left out.
    system : {"inch", "metric"}
        What a bare number means.
    name : str
        Whose string it is, if that is to go along.

    Returns
    -------
    str
        Without the ``#``: letters, digits and ``% & + - . / : = ?``, the last one always a letter or digit.

    Raises
    ------
    DomainError
        ``max`` for a list that is too long for a link.

    Examples
    --------
    >>> encode(catalogue()["string"], {"nock_to_nock": "62 1/2", "hand": "S"}, "inch")
    'v4/string?nock=62+1/2in&hand=S&end=8j64'
    """
    head = f"v{VERSION}/{worksheet.id}" + ("/mm" if system == "metric" else "")
    pairs = [(_FOR, named)] if (named := clean_name(name)) else []
    pairs += [
        (word(each), _spelled(each, inputs[each.key], system))
        for each in worksheet.fields
        if each.key in inputs and not _is_usual(each, inputs[each.key], system)
    ]
    told = "&".join(f"{name}={_quoted(text)}" for name, text in [*pairs, (_END, _check(head, pairs))])
    if len(told) > _LONGEST_LINK:
        longest = max(inputs, key=lambda key: len(inputs[key]))
        raise DomainError(Problem(field=longest, code="max", reason="link"))
    return f"{head}?{told}"


def clean_name(name: str) -> str:
    r"""Return a name as it may stand in a link and on a page: one short line of plain text.

    Parameters
    ----------
    name : str
        As somebody typed it.

    Examples
    --------
    >>> clean_name("  Anna\t<b>  junior ")
    'Anna b junior'
    """
    return " ".join(_FORBIDDEN.sub(" ", name).split())[:_LONGEST_NAME].strip()


def word(each: Field) -> str:
    """Return the name of a field in links.

    Parameters
    ----------
    each : Field
        The field.
    """
    return WORDS.get(each.key, each.key.replace("_", "-"))


def decode(fragment: str) -> Link:
    """Read the end of a link.

    Parameters
    ----------
    fragment : str
        Anything: a fragment with or without its ``#``, or the whole link.

    Returns
    -------
    Link
        Never raises. With no text there is nothing to open and nothing to say.

    Examples
    --------
    >>> decode("v1/string?nock=62+1/2in&hand=S&end=vd5j").inputs["nock_to_nock"]
    '62 1/2 in'
    >>> decode("v1/string?nock=62+1").notes[0][:24]
    'This link is damaged: a '
    """
    if len(fragment) > _LONGEST_LINK * 2:
        return Link(None, {}, "inch", (_TOO_LONG,))
    text = _undressed(fragment)
    if not text:
        return Link(None, {}, "inch")
    head, _, rest = text.partition("?")
    found = _HEAD.fullmatch(head)
    if not found:
        return Link(None, {}, "inch", (_FOREIGN,))
    version, system = int(found[1]), _system(found[3])
    worksheet = catalogue().get(found[2])
    notes = (_NEWER,) if version > VERSION else ()
    if worksheet is None:
        return Link(None, {}, system, (*notes, _NO_SHEET.format(name=found[2])))
    standing = usual(worksheet, EARLIER.get(version, {}).get(worksheet.id))
    pairs, check = _pairs(rest)
    if check != _check(head, pairs) or not version:
        return Link(worksheet.id, standing, system, (*notes, _DAMAGED))
    name = next((clean_name(text) for word_of, text in pairs if word_of == _FOR), "")
    given, said = _taken(worksheet, [pair for pair in pairs if pair[0] != _FOR], standing)
    return Link(worksheet.id, standing | given, system, (*notes, *said), tuple(given), name)


def _system(mark: str | None) -> System:
    return "metric" if mark else "inch"


def _undressed(fragment: str) -> str:
    """Take off what is not the link's own: the page's address, what a messenger escaped, a full stop after it."""
    text = fragment.rpartition("#")[2].strip().rstrip(_TRAILING).replace("&amp;", "&")
    if "=" not in text and "%3d" in text.casefold():
        text = unquote_plus(text.replace("+", "%2B"))
    return text


def _pairs(rest: str) -> tuple[list[tuple[str, str]], str]:
    """Return names and texts up to the check, and the check; what follows it is none of ours."""
    pairs: list[tuple[str, str]] = []
    for each in rest.split("&"):
        name, _, text = each.partition("=")
        if name == _END:
            return pairs, text
        pairs.append((unquote_plus(name), unquote_plus(text)))
    return pairs, ""


def _taken(
    worksheet: Worksheet, pairs: Iterable[tuple[str, str]], standing: Mapping[str, str]
) -> tuple[dict[str, str], list[str]]:
    """Return what a sound link gives by field key, and the sentences about what it does not."""
    fields = {name: each for each in worksheet.fields for name in (word(each), each.key)}
    fields |= {old: fields[key] for old, key in RENAMED.get(worksheet.id, {}).items()}
    given: dict[str, str] = {}
    strange, notes = [], []
    for name, text in pairs:
        each = fields.get(name) or fields.get(name.replace("-", "_"))
        if each is None:
            strange.append(name if _NAME.fullmatch(name) else "a field without a proper name")
        elif isinstance(each, Lines) and not (each.absent and text == OPEN):
            given[each.key] = _clean_lines(text)
        elif _FORBIDDEN.search(text) or len(text) > LONGEST:
            label = each.label[0].lower() + each.label[1:]
            notes.append(_NOT_READ.format(name=label, example=standing[each.key]))
        else:
            given[each.key] = _open_or(each, text)
    if strange:
        notes.append(_LEFT_OUT.format(names=", ".join(dict.fromkeys(strange[:12]))))
    return given, notes


def _open_or(each: Field, text: str) -> str:
    return each.absent if each.absent and text == OPEN else spell(each, text, "inch")


def _clean_lines(text: str) -> str:
    """Keep the lines; turn angle brackets into quotes and drop what has no shape."""
    text = text.replace("\r\n", "\n").replace("<", "‹").replace(">", "›")
    return re.sub(r"[^\t\n]", lambda found: _FORBIDDEN.sub("", found[0]), text)


def _is_usual(each: Field, typed: str, system: System) -> bool:
    """Tell whether typed text means just what the field's own example means."""
    if typed == each.example:
        return True
    try:
        return read_field(each, typed, system) == read_field(each, each.example, "inch")
    except DomainError:
        return False


def _spelled(each: Field, typed: str, system: System) -> str:
    """Return text that means the same in both systems, in as few plain characters as it takes."""
    try:
        if read_field(each, typed, system) is None:
            return OPEN
    except DomainError:
        pass
    text = spell(each, typed, system, tight=True)
    return f"{text}?" if each.absent and text == OPEN else text


def _quoted(text: str) -> str:
    """Escape all that a messenger might cut at, hide or turn into something else."""
    sound = text.encode("utf-8", "replace").decode()
    return quote_plus(sound, safe="/:").replace("_", "%5F").replace("~", "%7E")


def _check(head: str, pairs: Iterable[tuple[str, str]]) -> str:
    """Return four letters and digits that hang on every character before them."""
    told = "\n".join([head, *(f"{name}={text}" for name, text in pairs)])
    left = crc32(told.encode("utf-8", "replace"))
    letters = ""
    for _ in range(4):
        left, digit = divmod(left, len(_LETTERS))
        letters += _LETTERS[digit]
    return letters
